import { get, type Design, type Fill, type Glance, type Reading, type Site, type Yard } from "./api/client";
import { waiting, type Waiting } from "./queue/queue";

/** What the page knows; asked anew each time a view opens. */
let site: Site | null = null;
export async function theSite(): Promise<Site> {
  site ??= await get<Site>("/api/site");
  return site;
}
export const forgetSite = (): void => void (site = null);

export const designOf = (all: Site, glance: Glance): Design | undefined =>
  all.designs.find((one) => one.name === glance.vessel.design) ?? (all.designs.length === 1 ? all.designs[0] : undefined);

/** The entries of one kind that wait in the phone, as if the server had them already. */
function ofKind<T>(all: Waiting[], kind: string): T[] {
  return all.filter((one) => !one.refused && one.entry.kind_of_entry === kind).map((one) => one.entry as unknown as T);
}

/** A reading that is still in the phone. */
export type SeenReading = Reading & { unsent?: boolean };

/** The yard with what waits in the phone laid over it, so that out of reach the page still shows what was done. */
export async function theYard(): Promise<Yard> {
  const yard = await get<Yard>("/api/yard");
  const unsent = await waiting();
  const known = new Set(yard.vessels.map((one) => one.vessel.id));
  for (const vessel of ofKind<Glance["vessel"]>(unsent, "vessel")) {
    if (!known.has(vessel.id)) yard.vessels.push({ vessel, fill: null, last_readings: [], last_events: [] });
  }
  for (const one of yard.vessels) {
    const mine = (id: string): boolean => id === one.vessel.id || id === one.vessel.thing;
    for (const fill of ofKind<Fill>(unsent, "fill")) if (mine(fill.vessel)) one.fill = fill;
    if (!one.fill) continue;
    for (const reading of ofKind<SeenReading>(unsent, "reading")) {
      if (reading.fill !== one.fill.id && reading.fill !== one.fill.thing) continue;
      const same = (other: Reading): boolean => other.measure === reading.measure && (other.place ?? "") === (reading.place ?? "");
      one.last_readings = [...one.last_readings.filter((other) => !same(other)), { ...reading, unsent: true } as SeenReading];
    }
  }
  return yard;
}

/** What one would look at first: the hottest of the last temperatures, the core when it is there. */
export function coreReading(glance: Glance): SeenReading | undefined {
  const all = glance.last_readings.filter((one) => one.measure === "temperature");
  return all.find((one) => one.place === "core") ?? all.sort((a, b) => b.value - a.value)[0];
}

const kept = (key: string): string => {
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
