import type { BeginningOffer, BeginningWish, Problem } from "../api/client";
import { keep, kept } from "../state";
import { type Shares, whole } from "../table/shares";
import type { System } from "../units/units";
import { isoDay } from "../units/when";

type Offered = BeginningOffer["climates"][number];
export type Extremes = Omit<Offered, "key">;

/** What was said of the yard so far. Amounts in SI; null: not said yet. */
export interface Said {
  /** the page of the beginning that is open, from 0 */
  page: number;
  units: System;
  name: string;
  first_fill: string;
  latitude: number | null; // degrees, without sign
  south: boolean;
  longitude: number | null;
  west: boolean;
  elevation_m: number | null;
  climate: Offered["key"] | "";
  extremes: { [key in keyof Extremes]: number | null };
  materials: { like: string; stock_m3: number | null }[];
  /** by volume, as they were moved by hand; null: searched */
  shares: Shares | null;
  wants: "vessels" | "compost";
  vessels: number | null;
  compost_m3: number | null;
  diameter_m: number;
  fill_height_m: number;
}

const shelf = "beginning";

export function firstSaid(offer: BeginningOffer): Said {
  return {
    page: 0,
    units: /-US$/.test(navigator.language) ? "us" : "metric",
    name: "",
    first_fill: isoDay(Date.now() / 1000),
    latitude: null,
    south: false,
    longitude: null,
    west: false,
    elevation_m: null,
    climate: "",
    extremes: {
      coldest_low_c: null,
      coldest_high_c: null,
      warmest_low_c: null,
      warmest_high_c: null,
      rain_m_year: null,
    },
    materials: [],
    shares: null,
    wants: "vessels",
    compost_m3: null,
    ...offer.starter,
  };
}

/** What this browser kept of it: a page that is loaded anew goes on where it was. */
export function keptSaid(offer: BeginningOffer): Said {
  const first = firstSaid(offer);
  try {
    return { ...first, ...(JSON.parse(kept(shelf)) as Partial<Said>) };
  } catch {
    return first;
  }
}
export const keepSaid = (said: Said | null): void => keep(shelf, said ? JSON.stringify(said) : "");

const signed = (degrees: number | null, negative: boolean): number | null =>
  degrees === null ? null : negative ? -degrees : degrees;

/** What is sent. What is missing is left out: the server names it. */
export function wishOf(said: Said): BeginningWish {
  const shares = said.shares ? whole(said.shares) : {};
  return {
    units: said.units,
    name: said.name,
    first_fill: said.first_fill,
    latitude_deg: signed(said.latitude, said.south),
    longitude_deg: signed(said.longitude, said.west),
    elevation_m: said.elevation_m,
    climate: said.extremes,
    materials: said.materials.map((one) =>
      said.shares ? { ...one, share_by_volume: shares[one.like] ?? 0 } : { ...one },
    ),
    [said.wants === "vessels" ? "vessels" : "compost_m3"]: said.wants === "vessels" ? said.vessels : said.compost_m3,
    diameter_m: said.diameter_m,
    fill_height_m: said.fill_height_m,
  } as BeginningWish;
}

/** The same with something in place of what later pages ask for, so that the server judges what was said so far. */
export function wishSoFar(said: Said, offer: BeginningOffer): BeginningWish {
  const goal = said.page < 4 ? { wants: "vessels" as const, vessels: offer.starter.vessels } : {};
  const filler = offer.feedstocks.slice(0, 1).map(({ id }) => ({ like: id, stock_m3: null }));
  const materials = said.page < 2 && !said.materials.length ? filler : said.materials;
  return wishOf({ ...said, ...goal, materials });
}

/** Which keys of the site file each page asks for; the last one tells of all that is left. */
const asked: readonly RegExp[] = [/^site\b/, /^(place|weather)\b/, /^feedstock\b/, /^blend\b/];

/** Of all that is wrong, what the pages up to that one asked for. Later ones have not been filled in yet. */
export const wrongBy = (page: number, problems: readonly Problem[]): Problem[] =>
  page >= asked.length
    ? [...problems]
    : problems.filter((one) => asked.slice(0, page + 1).some((keys) => keys.test(one.where)));
/** The first page that asked for what is wrong. */
export const pageOf = (problem: Problem): number => {
  const found = asked.findIndex((keys) => keys.test(problem.where));
  return found < 0 ? asked.length : found;
};

/** How many vessels what is there fills, by the material that ends first; null when none has an end. */
export function fillsOf(said: Said, of_one_m3: Record<string, number>): { fills: number; like: string } | null {
  const ends = said.materials
    .filter((one) => one.stock_m3 !== null && (of_one_m3[one.like] ?? 0) > 0)
    .map((one) => ({ fills: Math.floor(one.stock_m3! / of_one_m3[one.like]! + 1e-9), like: one.like }));
  return ends.sort((a, b) => a.fills - b.fills)[0] ?? null;
}
