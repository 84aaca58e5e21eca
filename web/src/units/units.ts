import type { Measure } from "../api/client";
import { t } from "../words/words";

/** How numbers are shown. What is stored and sent is always SI; see docs/openapi.json. */
export type System = "metric" | "us";

export interface Unit {
  /** as written after the number */
  sign: string;
  fromSi: (value: number) => number;
  toSi: (shown: number) => number;
  digits: number;
}

const scaled = (sign: string, factor: number, digits: number): Unit => ({
  sign,
  fromSi: (value) => value * factor,
  toSi: (shown) => shown / factor,
  digits,
});

const celsius = scaled("°C", 1, 0);
const fahrenheit: Unit = { sign: "°F", fromSi: (c) => c * 1.8 + 32, toSi: (f) => (f - 32) / 1.8, digits: 0 };
const percent = scaled("%", 100, 0);

/** Exact factors: 0.0254 m an inch, 231 cubic inches a US gallon, 0.45359237 kg a pound. */
const table = {
  temperature: { metric: celsius, us: fahrenheit },
  share: { metric: percent, us: percent },
  conductivity: { metric: scaled("dS/m", 10, 1), us: scaled("dS/m", 10, 1) },
  acidity: { metric: scaled("pH", 1, 1), us: scaled("pH", 1, 1) },
  length: { metric: scaled("m", 1, 2), us: scaled("in", 1 / 0.0254, 1) },
  elevation: { metric: scaled("m", 1, 0), us: scaled("ft", 1 / 0.3048, 0) },
  small_length: { metric: scaled("mm", 1000, 0), us: scaled("in", 1 / 0.0254, 1) },
  volume: { metric: scaled("m³", 1, 2), us: scaled("yd³", 1 / 0.764554857984, 2) },
  mass: { metric: scaled("kg", 1, 0), us: scaled("lb", 1 / 0.45359237, 0) },
  water: { metric: scaled("L", 1, 0), us: scaled("gal", 1 / 3.785411784, 1) },
  flow: { metric: scaled("L/min", 60000, 1), us: scaled("gal/min", 60000 / 3.785411784, 1) },
  temperature_step: { metric: scaled("°C", 1, 0), us: scaled("°F", 1.8, 0) },
  area: { metric: scaled("m²", 1, 1), us: scaled("ft²", 1 / 0.09290304, 0) },
  density: { metric: scaled("kg/m³", 1, 0), us: scaled("lb/yd³", 0.764554857984 / 0.45359237, 0) },
} satisfies Record<string, Record<System, Unit>>;
export type Kind = keyof typeof table;

let system: System = "metric";
export const currentSystem = (): System => system;
export function useSystem(chosen: System): void {
  system = chosen;
}

export const unit = (kind: Kind): Unit => table[kind][system];

const kinds: Record<Measure, Kind> = {
  temperature: "temperature",
  moisture: "share",
  oxygen: "share",
  carbon_dioxide: "share",
  conductivity: "conductivity",
  acidity: "acidity",
};
export const kindOf = (measure: Measure): Kind => kinds[measure];

/** With the decimal sign of the language. */
const fixed = (value: number, digits: number): string => value.toFixed(digits).replace(".", t.decimal);

const feet_from_in = 72; // as the sheets and the command line: below it a tape is read in inches alone

/** "47.8 in", "9 ft 10 in" */
function inches(length_in: number): string {
  if (Math.abs(length_in) < feet_from_in)
    return `${String(Number(length_in.toPrecision(3))).replace(".", t.decimal)} in`;
  const whole = Math.round(Math.abs(length_in));
  const rest = whole % 12 ? ` ${whole % 12} in` : "";
  return `${length_in < 0 ? "-" : ""}${Math.floor(whole / 12)} ft${rest}`;
}

/** "55 °C"; "not known" when there is no number. */
export function show(kind: Kind, si: number | null | undefined, digits?: number): string {
  if (si === null || si === undefined || !Number.isFinite(si)) return t.notKnown;
  const one = unit(kind);
  if (kind === "length" && one.sign === "in") return inches(one.fromSi(si));
  const text = fixed(one.fromSi(si), digits ?? one.digits);
  return one.sign === "pH" ? `pH ${text}` : one.sign === "%" ? `${text} %` : `${text} ${one.sign}`;
}

/** "48 to 57 °C" */
export function showRange(kind: Kind, low: number | null, high: number | null): string {
  if (low === null || high === null) return t.notKnown;
  const one = unit(kind);
  const [a, b] = [fixed(one.fromSi(low), one.digits), fixed(one.fromSi(high), one.digits)];
  return a === b ? show(kind, low) : `${t.range(a, b)} ${one.sign}`;
}

/** Sets a sentence of the server for print: "55 degC" -> "55 °C", "2026-05-03T14:05" -> "2026-05-03 14:05". */
export const typeset = (text: string): string =>
  text.replace(/ deg([CF])\b/g, " °$1").replace(/(\d{4}-\d\d-\d\d)T(\d\d:\d\d)/g, "$1 $2");

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
