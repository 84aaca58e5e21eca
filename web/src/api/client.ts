import { t } from "../words/words";
import type { components } from "./schema";

type Schemas = components["schemas"];
export type Site = Schemas["Site"];
export type Yard = Schemas["Yard"];
export type Glance = Schemas["Glance"];
export type Task = Schemas["Task"];
export type Today = Schemas["Today"];
export type Statement = Schemas["Statement"];
export type FillState = Schemas["FillState"];
export type Design = Schemas["Design"];
export type Channel = Schemas["Channel"];
export type Fill = Schemas["Fill"];
export type Reading = Schemas["Reading"];
export type YardEvent = Schemas["Event"];
export type FillRecord = Schemas["FillRecord"];
export type VesselFills = Schemas["VesselFills"];
export type Readings = Schemas["Readings"];
export type Series = Schemas["Series"];
export type Change = Schemas["Change"];
export type Draft = Schemas["Draft"];
export type BeginningOffer = Schemas["BeginningOffer"];
export type BeginningWish = Schemas["BeginningWish"];
export type BeginningProposal = Schemas["BeginningProposal"];
export type SiteProposal = Schemas["SiteProposal"];
export type Progress = Schemas["Progress"];
/** A forecast that is ready. */
export type ForecastState = Progress & Draft & Pick<Schemas["ForecastState"], "follows_readings">;
export type Forecast = Schemas["Forecast"];
export type Summary = Schemas["Summary"];
export type Inside = Schemas["Inside"];
export type Outcome = Schemas["Outcome"];
export type NewEntry = Schemas["NewEntry"];
export type Session = Schemas["Session"];
export type StoreCheck = Schemas["StoreCheck"];
export type Calibration = Schemas["Calibration"];
export type Learned = Schemas["Learned"];
export type Outlook = Schemas["Outlook"];
export type Lot = Schemas["Lot"];
export type Logger = Schemas["Logger"];
export type Mapping = Schemas["Mapping"];
export type ImportPreview = Schemas["ImportPreview"];
export type Problem = Schemas["Problem"];
export type Measure = Reading["measure"];
export type EventKind = YardEvent["kind"];

/** "vessel.rondel.channels.radius" -> "radius": keys of the site file are not for makers; "site.toml" stays. */
export const plainKey = (where: string): string =>
  /^[\w-]+(\.[\w-]+)*:?$/.test(where) && !/\.toml/.test(where)
    ? where.split(/[.:]/).filter(Boolean).at(-1)!.replaceAll("_", " ")
    : where;

/** What is wrong and how to mend it, in one sentence. */
export const problemWords = ({ where, what, mend }: Problem): string => `${plainKey(where)} ${what}: ${mend}`;

/** The server said no, and why. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly problems: Problem[],
  ) {
    super(problems.map(problemWords).join("\n"));
  }
}

/** The maker stopped it: nothing failed. */
export class Stopped extends Error {}

/** No answer at all: out of reach. */
export class OutOfReach extends Error {}

let lastSeen = false;
let seen_at_ms = 0;
let gone_since_ms = 0;
/** Whether the last answer came from what the phone had kept. */
export const isLastSeen = (): boolean => lastSeen;
/** When what is shown was true, ms since 1970; 0 before anything was. */
export const seenAt = (): number => seen_at_ms;
/** Since when the server does not answer, ms since 1970; 0 while it does. */
export const goneSince = (): number => gone_since_ms;

const look_ms = 20000; // chosen: the slowest look, to do today in a busy yard, takes 5 s

/** A signal that ends with the one given or when patience does; harmless once the answer was read. */
function within(patience_ms: number | undefined, signal: AbortSignal | undefined): AbortSignal | undefined {
  if (!patience_ms) return signal;
  const mine = new AbortController();
  window.setTimeout(() => mine.abort(), patience_ms);
  if (signal?.aborted) mine.abort();
  signal?.addEventListener("abort", () => mine.abort(), { once: true });
  return mine.signal;
}

function noteReach(method: string, path: string, answer: Response): void {
  const kept = answer.headers.get("x-last-seen");
  if (kept === null) gone_since_ms = 0;
  else gone_since_ms ||= Date.now();
  if (method !== "GET" || !/^\/api\/(yard|today)/.test(path)) return;
  lastSeen = kept !== null;
  seen_at_ms = kept === null ? Date.now() : Number(kept) || seen_at_ms;
}

async function ask(
  method: string,
  path: string,
  body?: BodyInit,
  type?: string,
  signal?: AbortSignal,
  patience_ms?: number,
): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(path, {
      method,
      body,
      signal: within(patience_ms, signal),
      headers: type ? { "Content-Type": type } : {},
      credentials: "same-origin",
    });
  } catch (error) {
    if (signal?.aborted) throw error;
    gone_since_ms ||= Date.now();
    throw new OutOfReach(t.reach.noAnswer);
  }
  noteReach(method, path, answer);
  if (answer.ok) return answer;
  const said = (await answer.json().catch(() => null)) as { problems?: Problem[] } | null;
  if (answer.status === 401 && !path.startsWith("/api/session")) window.dispatchEvent(new Event("need-passphrase"));
  throw new Refused(
    answer.status,
    said?.problems ?? [{ where: t.reach.server, what: t.reach.answered(answer.status), mend: t.reach.tryAgain }],
  );
}

/** The answer's JSON; an answer that breaks off is as none. */
async function json<T>(answer: Response, signal: AbortSignal | undefined): Promise<T> {
  try {
    return (await answer.json()) as T;
  } catch (error) {
    if (signal?.aborted) throw error;
    throw new OutOfReach(t.reach.brokeOff);
  }
}

export async function get<T>(path: string, signal?: AbortSignal): Promise<T> {
  return json<T>(await ask("GET", path, undefined, undefined, signal, look_ms), signal);
}
export async function getBytes(path: string): Promise<Uint8Array> {
  return new Uint8Array(await (await ask("GET", path)).arrayBuffer());
}
export async function post<T>(path: string, body: unknown, signal?: AbortSignal, patience_ms?: number): Promise<T> {
  return json<T>(await ask("POST", path, JSON.stringify(body), "application/json", signal, patience_ms), signal);
}
export async function postBytes<T>(path: string, bytes: Blob, patience_ms?: number): Promise<T> {
  const type = bytes.type || "application/octet-stream";
  return json<T>(await ask("POST", path, bytes, type, undefined, patience_ms), undefined);
}
export async function remove(path: string): Promise<void> {
  await ask("DELETE", path);
}
