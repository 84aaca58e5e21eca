import type { Site } from "../api/client";
import { css } from "./colour";

/** Where a temperature changes what a hand does, degC: the server's, of the rules `fire-risk` and `too-hot`, the phase `hot`
 *  and the worms (docs/rules.md). */
export type HeatLimits = Site["heat_limits_c"];

let limits: HeatLimits | null = null;
export const useHeatLimits = (known: HeatLimits): void => void (limits = known);
/** Known once the site was asked for, before any view is drawn. */
export function heatLimits(): HeatLimits {
  if (!limits) throw new Error("the limits of heat are not known yet");
  return limits;
}

export type HeatName = "fire" | "veryHot" | "hot" | "warm" | "cool";

export function heatName(celsius: number): HeatName {
  const { fire, too_hot, hot, warm } = heatLimits();
  if (celsius >= fire) return "fire";
  if (celsius >= too_hot) return "veryHot";
  if (celsius >= hot) return "hot";
  return celsius >= warm ? "warm" : "cool";
}

/** Temperature and its CIE L*a*b*: lightness falls all the way, so that grey print keeps the order, and the danger of a
 *  hot heap is the darkest. Anchors are chosen: near where the rules turn, and where they turn later no colour is wrong. */
const anchors: readonly (readonly [celsius: number, l: number, a: number, b: number])[] = [
  [-10, 97, -3, -6],
  [10, 93, -4, 6],
  [26.7, 88, 0, 34],
  [45, 74, 22, 58],
  [55, 62, 38, 58],
  [65, 47, 54, 42],
  [70, 37, 56, 30],
  [85, 18, 34, 4],
];

/** Ends of every scale of temperature, so that colours mean the same over vessels and days. */
export const heat_scale_c = { low: -10, high: 85 } as const;

const coded = (light: number): number => {
  const channel = light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
  return Math.min(255, Math.max(0, Math.round(channel * 255)));
};

/** CIE 1976 L*a*b* to sRGB, white D65 (CIE 15; matrix of IEC 61966-2-1). */
export function fromLab(l: number, a: number, b: number): [number, number, number] {
  const linear = (f: number): number => (f > 6 / 29 ? f ** 3 : ((f - 4 / 29) * 108) / 841);
  const f = (l + 16) / 116;
  const [x, y, z] = [0.95047 * linear(f + a / 500), linear(f), 1.08883 * linear(f - b / 200)];
  return [
    coded(3.2406 * x - 1.5372 * y - 0.4986 * z),
    coded(-0.9689 * x + 1.8758 * y + 0.0415 * z),
    coded(0.0557 * x - 0.204 * y + 1.057 * z),
  ];
}

/** The one colour of a temperature, on every picture of the page. */
export function heatColour(celsius: number): [number, number, number] {
  const last = anchors.length - 1;
  const held = Math.min(Math.max(celsius, anchors[0]![0]), anchors[last]![0]);
  let k = 0;
  while (k + 1 < last && anchors[k + 1]![0] <= held) ++k;
  const [from, to] = [anchors[k]!, anchors[k + 1]!];
  const part = (held - from[0]) / (to[0] - from[0]);
  const mix = (i: 1 | 2 | 3): number => from[i] * (1 - part) + to[i] * part;
  return fromLab(mix(1), mix(2), mix(3));
}

export const heatCss = (celsius: number): string => css(heatColour(celsius));

/** Moisture: straight in L*a*b* from a pale to a deep blue, as on the sheets. */
export function moistureColour(share: number): [number, number, number] {
  const part = Math.min(Math.max(share, 0), 1);
  const mix = (from: number, to: number): number => from * (1 - part) + to * part;
  return fromLab(mix(95, 22), mix(-3, 10), mix(8, -38));
}
