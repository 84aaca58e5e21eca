import { type NewEntry, OutOfReach, type Outcome, Refused, post, postBytes, problemWords } from "../api/client";
import { t } from "../words/words";

export type Entry = NewEntry & Record<string, unknown>;

/** Entries on their way: kept on the phone until the server has them. Each carries an id made here, so that sending
 *  one twice stores it once. */
export interface Waiting {
  entry: Entry;
  /** order in which they were kept */
  order?: number;
  /** set once it was sent, whether or not an answer came */
  tried?: boolean;
  /** set when the server refused it */
  refused?: string;
  /** with `refused`: it can be, and is stored when it is sent again as meant */
  unlikely?: boolean;
  /** a photo, which goes by itself after the entries it may belong to */
  picture?: Blob;
}

const name = "stillheap";
const shelf = "waiting";
const most_at_once = 200;
const picture_patience_ms = 120000; // chosen: 4 MB at 35 kB/s, the edge of a yard's reception
const patience_ms = 10000; // chosen: a request that never answers must not hold up what comes after it

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(name, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(shelf, { keyPath: "entry.id" });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error ?? new Error(t.kept.keepsNothing));
  });
}

async function inStore<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const db = await open();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = db.transaction(shelf, mode, { durability: "strict" });
      const asked = work(transaction.objectStore(shelf));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onabort = () => reject(transaction.error ?? new Error(t.kept.couldNotKeep));
    });
  } finally {
    db.close();
  }
}

const changed = new EventTarget();
/** Called whenever something was put in, sent or refused. Returns how to stop it. */
export function onQueue(then: () => void): () => void {
  changed.addEventListener("change", then);
  return () => changed.removeEventListener("change", then);
}
const tell = (): boolean => changed.dispatchEvent(new Event("change"));

const put = (one: Waiting): Promise<IDBValidKey> => inStore("readwrite", (store) => store.put(one));
export const waiting = (): Promise<Waiting[]> => inStore<Waiting[]>("readonly", (store) => store.getAll());
export const waitingOne = (id: string): Promise<Waiting | undefined> =>
  inStore<Waiting | undefined>("readonly", (store) => store.get(id));
export async function drop(id: string): Promise<void> {
  await inStore("readwrite", (store) => store.delete(id));
  tell();
}

/** A UUID of version 4; also where randomUUID is missing because the page came without TLS. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6]! & 0x0f) | 0x40;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

let last_order = 0;
const nextOrder = (): number => (last_order = Math.max(last_order + 1, Date.now()));

/** What is said of a photo; `taken_s` in seconds since 1970. */
export interface PhotoEntry {
  id: string;
  fill: string;
  taken_s: number;
  by: string;
}

/** Keeps a photo on the phone; whoever wants it sent calls send(). Rejects when the browser cannot keep it. */
export async function keepPicture(about: PhotoEntry, picture: Blob): Promise<void> {
  const entry = { ...about, kind_of_entry: "photo" } as unknown as Entry;
  await put({ entry, picture, order: nextOrder() });
  tell();
}

/** Tries again what was refused, as it stands. */
export async function sendAgain({ refused: _refused, unlikely: _unlikely, ...one }: Waiting): Promise<void> {
  await put(one);
  tell();
  void send();
}

/** Keeps the entries on the phone; whoever wants them sent calls send(). Rejects when the browser cannot keep them. */
export async function keepEntries(entries: readonly Entry[]): Promise<void> {
  for (const entry of entries) await put({ entry, order: nextOrder() });
  tell();
}

/** What became of some entries. */
export interface Fate {
  state: "stored" | "waits" | "refused" | "unlikely";
  why: string;
}

/** What became of entries that were kept here: those gone from the shelf are stored. */
export async function fateOf(ids: readonly string[]): Promise<Fate> {
  const mine = (await waiting()).filter((one) => ids.includes(one.entry.id));
  const refused = mine.find((one) => one.refused);
  if (refused) return { state: refused.unlikely ? "unlikely" : "refused", why: refused.refused! };
  return { state: mine.length ? "waits" : "stored", why: "" };
}

/** The statement that takes an entry back: its contents, as docs/records.md wants them, and why. */
export function withdrawalOf(entry: Entry, reason: string, by: string): Entry {
  const noted_at_s = Math.max(Math.floor(Date.now() / 1000), Number(entry["noted_at_s"] ?? 0));
  return { ...entry, id: newId(), corrects: entry.id, reason, withdrawn: true, by, noted_at_s };
}

/** Takes entries back that were kept here. What was never sent just goes; what may have arrived is withdrawn. */
export async function undoEntries(entries: readonly Entry[], reason: string, by: string): Promise<void> {
  for (const entry of [...entries].reverse()) {
    const there = await waitingOne(entry.id);
    if (there && (there.refused || there.picture || !there.tried))
      await inStore("readwrite", (store) => store.delete(entry.id));
    else await put({ entry: withdrawalOf(entry, reason, by), order: nextOrder() });
  }
  tell();
}

async function settle(one: Waiting, outcome: Outcome): Promise<void> {
  if (outcome.outcome !== "refused") {
    await inStore("readwrite", (store) => store.delete(one.entry.id));
    return;
  }
  const why = (outcome.problems ?? []).map(problemWords).join(". ");
  await put({ ...one, refused: why || t.kept.noReason, unlikely: outcome.unlikely === true });
}

/** What is wrong with the picture itself is told; another no, as a session that ended, leaves it waiting. */
const isOfPicture = (error: unknown): error is Refused =>
  error instanceof Refused && [413, 415, 422].includes(error.status);

async function sendPicture(one: Waiting): Promise<void> {
  const { id, fill, by, taken_s } = one.entry as unknown as PhotoEntry;
  const taken_at = new Date(taken_s * 1000).toISOString();
  try {
    await postBytes(
      `/api/photos?${new URLSearchParams({ id, fill, taken_at, by })}`,
      one.picture!,
      picture_patience_ms,
    );
    await inStore("readwrite", (store) => store.delete(id));
  } catch (error) {
    if (!isOfPicture(error)) throw error;
    await put({ ...one, refused: error.problems.map(problemWords).join(". ") });
  }
}

/** One after the other; entries that are kept meanwhile do not wait for them. */
async function sendPictures(): Promise<boolean> {
  const pictures = (await waiting()).filter((one) => one.picture && !one.refused);
  for (const one of pictures) await sendPicture(one);
  return pictures.length > 0;
}

async function sendEntries(): Promise<boolean> {
  const unsent = (await waiting()).filter((one) => !one.picture && !one.refused);
  // kept first, sent first: a fill has to be there before its readings
  unsent.sort(
    (a, b) =>
      Number(a.entry["noted_at_s"] ?? 0) - Number(b.entry["noted_at_s"] ?? 0) || (a.order ?? 0) - (b.order ?? 0),
  );
  for (let at = 0; at < unsent.length; at += most_at_once) {
    const some = unsent.slice(at, at + most_at_once);
    for (const one of some) if (!one.tried) await put({ ...one, tried: true });
    const answer = await post<{ results: Outcome[] }>(
      "/api/entries",
      { entries: some.map((one) => one.entry) },
      undefined,
      patience_ms,
    );
    for (const [i, one] of some.entries()) {
      const outcome = answer.results[i];
      if (outcome) await settle(one, outcome);
    }
  }
  return unsent.length > 0;
}

/** Runs one at a time; what came during it goes right after. */
function oneAtATime(work: () => Promise<boolean>): () => Promise<boolean> {
  let running: Promise<boolean> | null = null;
  let again = false;
  return () => {
    if (running) again = true;
    running ??= (async () => {
      let any = false;
      do {
        again = false;
        any = (await work()) || any;
      } while (again);
      return any;
    })().finally(() => (running = null));
    return running;
  };
}
const entriesInTurn = oneAtATime(sendEntries);
const picturesInTurn = oneAtATime(sendPictures);

/** False when the server is out of reach, or wants something first. */
async function reached(work: () => Promise<boolean>): Promise<boolean> {
  try {
    if (await work()) tell();
    return true;
  } catch (error) {
    if (error instanceof OutOfReach || error instanceof Refused) return false;
    throw error;
  }
}

/** Sends the entries that wait; false when the server is out of reach. Safe to call often. Pictures follow by themselves. */
export async function send(): Promise<boolean> {
  const good = await reached(entriesInTurn);
  if (good) void sendWaitingPictures().catch(() => false); // told by whoever waits for them
  return good;
}
/** Sends the pictures that wait, after the entries that they may belong to. */
export const sendWaitingPictures = (): Promise<boolean> => reached(picturesInTurn);

const again_ms = 20000; // chosen: phones do not always tell when they are back in reach
/** Sends whenever the phone comes back into reach. */
export function keepSending(): void {
  window.addEventListener("online", () => void send());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && void send());
  window.setInterval(() => void waiting().then((all) => all.some((one) => !one.refused) && send()), again_ms);
  void send();
}
