import {
  type Design,
  type Fill,
  type Glance,
  type Reading,
  type Site,
  type Yard,
  type YardEvent,
  get,
} from "./api/client";
import { type Waiting, waiting } from "./queue/queue";
import { useHeatLimits } from "./ui/heat";
import { byName } from "./ui/order";

/** What the page knows; asked anew each time a view opens. */
let site: Site | null = null;
export async function theSite(): Promise<Site> {
  site ??= await get<Site>("/api/site");
  useHeatLimits(site.heat_limits_c);
  return site;
}
export const forgetSite = (): void => void (site = null);

export const designOf = (all: Site, glance: Pick<Glance, "vessel">): Design | undefined =>
  all.designs.find((one) => one.name === glance.vessel.design) ??
  (all.designs.length === 1 ? all.designs[0] : undefined);

/** The entries of one kind that wait in the phone, as if the server had them already. */
function ofKind<T>(all: Waiting[], kind: string): T[] {
  return all
    .filter((one) => !one.refused && !one.entry["withdrawn"] && one.entry.kind_of_entry === kind)
    .map((one) => one.entry as unknown as T);
}

/** A reading that is still in the phone. */
export type SeenReading = Reading & { unsent?: boolean };

/** Lays what waits on the phone over one vessel. */
function layOver(one: Glance, unsent: Waiting[], gone: ReadonlySet<string>): void {
  const mine = (id: string): boolean => id === one.vessel.id || id === one.vessel.thing;
  if (one.fill && gone.has(one.fill.id)) one.fill = null;
  for (const fill of ofKind<Fill>(unsent, "fill")) if (mine(fill.vessel)) one.fill = fill;
  if (!one.fill) return;
  const ofFill = (fill: string): boolean => fill === one.fill!.id || fill === one.fill!.thing;
  one.last_readings = one.last_readings.filter((reading) => !gone.has(reading.id));
  for (const reading of ofKind<SeenReading>(unsent, "reading")) {
    if (!ofFill(reading.fill)) continue;
    const same = (other: Reading): boolean =>
      other.measure === reading.measure && (other.place ?? "") === (reading.place ?? "");
    one.last_readings = [
      ...one.last_readings.filter((other) => !same(other)),
      { ...reading, unsent: true } as SeenReading,
    ];
  }
  const ended = ofKind<YardEvent>(unsent, "event").some(
    (event) => ofFill(event.fill) && (event.kind === "harvested" || event.kind === "emptied"),
  );
  if (ended) one.fill = null;
}

/** What tells two yards apart: all but the clock. */
const traceOf = (yard: Yard): string => JSON.stringify(yard.vessels);
let shown = ""; // by the view that is open
let latest = "";
/** Whether the view that is open shows less than the records hold. */
export const isYardOld = (): boolean => shown !== "" && latest !== shown;
/** The yard as asked now. The answer to an earlier question, come late, does not count as the latest. */
let asked = 0;
let answered = 0;
async function askYard(): Promise<{ yard: Yard; trace: string }> {
  const mine = ++asked;
  const yard = await get<Yard>("/api/yard");
  const trace = traceOf(yard);
  if (mine > answered) [answered, latest] = [mine, trace];
  return { yard, trace };
}

/** Looks at the yard for what no view shows yet. */
export const lookAtYard = async (): Promise<void> => void (await askYard().catch(() => null));

/** The yard with what waits in the phone laid over it, so that out of reach the page still shows what was done. */
export async function theYard(): Promise<Yard> {
  // what waits is looked at first: an entry that reaches the server meanwhile is then seen twice, not never
  const unsent = await waiting().catch(() => []);
  const { yard, trace } = await askYard();
  shown = trace;
  const gone = new Set(
    unsent.filter((one) => !one.refused && one.entry["withdrawn"]).map((one) => String(one.entry["corrects"])),
  );
  const known = new Set(yard.vessels.map((one) => one.vessel.id));
  for (const vessel of ofKind<Glance["vessel"]>(unsent, "vessel")) {
    if (!known.has(vessel.id)) yard.vessels.push({ vessel, fill: null, last_readings: [], last_events: [] });
  }
  for (const one of yard.vessels) layOver(one, unsent, gone);
  yard.vessels.sort((a, b) => byName(a.vessel.name, b.vessel.name));
  return yard;
}

/** What one would look at first: the hottest of the last temperatures, the core when it is there. */
export function coreReading(glance: { last_readings: SeenReading[] }): SeenReading | undefined {
  const all = glance.last_readings.filter((one) => one.measure === "temperature");
  return all.find((one) => one.place === "core") ?? all.sort((a, b) => b.value - a.value)[0];
}

export const kept = (key: string): string => {
  try {
    return localStorage.getItem(key) ?? "";
  } catch {
    return "";
  }
};
export const keep = (key: string, value: string): void => {
  try {
    localStorage.setItem(key, value);
  } catch {
    // a browser that keeps nothing asks again next time
  }
};
export const initials = (): string => kept("initials");
export const chosenUnits = (): string => kept("units");
export const chosenTheme = (): string => kept("theme");
export const lastPlace = (vessel: string): string => kept(`place:${vessel}`) || "core";
export const keepPlace = (vessel: string, place: string): void => keep(`place:${vessel}`, place);
