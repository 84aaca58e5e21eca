import type { Glance } from "../api/client";
import { byName } from "../ui/order";
import { placeWords } from "../words/words";

/** Where a round goes: the filled vessels by name, each with the places that are read by hand. */
export interface Stop {
  vessel: string;
  name: string;
  places: string[];
}

export interface Taken {
  vessel: string;
  name: string;
  place: string;
  value: number; // degC
}

/** How far a round has come; kept in the browser, so that a closed page goes on where it was. */
export interface Round {
  stops: Stop[];
  at: number; // of the vessel
  place: number; // of its places
  taken: Taken[];
  skipped: string[]; // names of vessels and places
}

const order = ["core", "top", "side", "base"];
const rank = (place: string): number => (order.indexOf(place) + order.length + 1) % (order.length + 1);

/** Places of a logger's own probes are left to the logger. */
function placesOf(glance: Glance): string[] {
  const byHand = glance.last_readings.filter((one) => one.measure === "temperature" && !one.source && one.place);
  const places = [...new Set(byHand.map((one) => one.place!))].sort((a, b) => rank(a) - rank(b) || byName(a, b));
  return places.length ? places : ["core"];
}

/** A round over the vessels given, or over all that are filled. */
export function planRound(vessels: readonly Glance[], only?: readonly string[]): Round {
  const stops = vessels
    .filter((one) => one.fill && (!only || only.includes(one.vessel.id)))
    .map((one) => ({ vessel: one.vessel.id, name: one.vessel.name, places: placesOf(one) }))
    .sort((a, b) => byName(a.name, b.name));
  return { stops, at: 0, place: 0, taken: [], skipped: [] };
}

export const isOver = (round: Round): boolean => round.at >= round.stops.length;

/** The next place, then the next vessel. */
export function next(round: Round): Round {
  const stop = round.stops[round.at];
  if (stop && round.place + 1 < stop.places.length) return { ...round, place: round.place + 1 };
  return { ...round, at: round.at + 1, place: 0 };
}

export function skip(round: Round): Round {
  const stop = round.stops[round.at]!;
  return next({ ...round, skipped: [...round.skipped, `${stop.name}, ${placeWords(stop.places[round.place]!)}`] });
}

export function skipVessel(round: Round): Round {
  const stop = round.stops[round.at]!;
  const left = stop.places.slice(round.place).map((place) => `${stop.name}, ${placeWords(place)}`);
  return { ...round, at: round.at + 1, place: 0, skipped: [...round.skipped, ...left] };
}
