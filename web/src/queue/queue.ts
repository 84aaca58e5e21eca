import { OutOfReach, Refused, post, type NewEntry, type Outcome } from "../api/client";

/** Entries on their way: kept in the phone until the server has them. Each carries an id made here, so that sending
 *  one twice stores it once. */
export interface Waiting {
  entry: NewEntry & Record<string, unknown>;
  /** set when the server refused it */
  refused?: string;
}

const name = "stillheap";
const shelf = "waiting";
const most_at_once = 200;

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const asked = indexedDB.open(name, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(shelf, { keyPath: "entry.id" });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error ?? new Error("the phone keeps nothing"));
  });
}

async function inStore<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const db = await open();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = db.transaction(shelf, mode, { durability: "strict" });
      const asked = work(transaction.objectStore(shelf));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onabort = () => reject(transaction.error ?? new Error("the phone could not keep it"));
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

export const waiting = (): Promise<Waiting[]> => inStore<Waiting[]>("readonly", (store) => store.getAll());
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

/** Keeps the entries in the phone, then tries to send all that wait. True when they reached the server. */
export async function note(...entries: Waiting["entry"][]): Promise<boolean> {
  for (const entry of entries) await inStore("readwrite", (store) => store.put({ entry }));
  tell();
  return send();
}

async function settle(entry: Waiting["entry"], outcome: Outcome): Promise<void> {
  if (outcome.outcome !== "refused") {
    await inStore("readwrite", (store) => store.delete(entry.id));
    return;
  }
  const why = (outcome.problems ?? []).map((one) => `${one.where} ${one.what}; ${one.mend}`).join(". ");
  await inStore("readwrite", (store) => store.put({ entry, refused: why || "refused" }));
}

async function sendAll(): Promise<boolean> {
  const unsent = (await waiting()).filter((one) => !one.refused);
  // noted first, sent first: a fill has to be there before its readings
  unsent.sort((a, b) => Number(a.entry["noted_at_s"] ?? 0) - Number(b.entry["noted_at_s"] ?? 0));
  for (let at = 0; at < unsent.length; at += most_at_once) {
    const some = unsent.slice(at, at + most_at_once).map((one) => one.entry);
    const answer = await post<{ results: Outcome[] }>("/api/entries", { entries: some });
    for (const [i, entry] of some.entries()) await settle(entry, answer.results[i]!);
  }
  return unsent.length > 0;
}

let running: Promise<boolean> | null = null;
/** Sends what waits. Safe to call often: one sending at a time. */
export async function send(): Promise<boolean> {
  running ??= sendAll().finally(() => (running = null));
  try {
    if (await running) tell();
    return true;
  } catch (error) {
    if (error instanceof OutOfReach || error instanceof Refused) return false;
    throw error;
  }
}

const again_ms = 20000; // chosen: phones do not always tell when they are back in reach
/** Sends whenever the phone comes back into reach. */
export function keepSending(): void {
  window.addEventListener("online", () => void send());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && void send());
  window.setInterval(() => void waiting().then((all) => all.some((one) => !one.refused) && send()), again_ms);
  void send();
}
