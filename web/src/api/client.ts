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
export type Progress = Schemas["Progress"];
/** A forecast that is ready. */
export type ForecastState = Progress & Draft;
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

/** The server said no, and why. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly problems: Problem[],
  ) {
    super(problems.map((one) => `${one.where} ${one.what}; ${one.mend}`).join("\n"));
  }
}

/** No answer at all: out of reach. */
export class OutOfReach extends Error {}

let lastSeen = false;
/** Whether the last answer came from what the phone had kept. */
export const isLastSeen = (): boolean => lastSeen;

async function ask(method: string, path: string, body?: BodyInit, type?: string, signal?: AbortSignal): Promise<Response> {
  let answer: Response;
  try {
    answer = await fetch(path, { method, body, signal, headers: type ? { "Content-Type": type } : {}, credentials: "same-origin" });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new OutOfReach("out of reach of the server");
  }
  if (method === "GET") lastSeen = answer.headers.has("x-last-seen");
  if (answer.ok) return answer;
  const json = (await answer.json().catch(() => null)) as { problems?: Problem[] } | null;
  if (answer.status === 401 && !path.startsWith("/api/session")) window.dispatchEvent(new Event("need-passphrase"));
  throw new Refused(answer.status, json?.problems ?? [{ where: path, what: `answered ${answer.status}`, mend: "try again" }]);
}

export async function get<T>(path: string, signal?: AbortSignal): Promise<T> {
  return (await (await ask("GET", path, undefined, undefined, signal)).json()) as T;
}
export async function getBytes(path: string): Promise<Uint8Array> {
  return new Uint8Array(await (await ask("GET", path)).arrayBuffer());
}
export async function post<T>(path: string, body: unknown, signal?: AbortSignal): Promise<T> {
  return (await (await ask("POST", path, JSON.stringify(body), "application/json", signal)).json()) as T;
}
export async function postBytes<T>(path: string, bytes: Blob): Promise<T> {
  return (await (await ask("POST", path, bytes, bytes.type || "application/octet-stream")).json()) as T;
}
export async function remove(path: string): Promise<void> {
  await ask("DELETE", path);
}
