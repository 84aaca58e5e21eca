import type { Measure, Site } from "../api/client";

type Range = Pick<Site["measures"][number], "key" | "least" | "most">;

export interface Before {
  value: number;
  at_s: number;
}

/** What a value typed or tapped is worth: kept as it is, impossible for a probe, or asked back. */
export type Finding =
  | { kind: "good" }
  | { kind: "outside"; least: number; most: number }
  | { kind: "sure"; because: "high" | "step" | "rare" };

const day_s = 86400;
// chosen: beyond these a slip of the thumb is likelier than the value
const rare: Partial<Record<Measure, readonly [least: number, most: number]>> = {
  temperature: [-15, 80],
  moisture: [0.2, 0.85],
  oxygen: [0, 0.21],
  carbon_dioxide: [0, 0.3],
  conductivity: [0, 1.5],
  acidity: [4, 10],
};
const step_c = 20; // chosen: a heap seldom moves so far in two days
const step_days = 2;

/** Judges a value in SI by the range the server names, then by what heaps do. */
export function judge(
  measure: Measure,
  value: number,
  ranges: readonly Range[],
  before: Before | undefined,
  now_s: number,
): Finding {
  const range = ranges.find((one) => one.key === measure);
  if (range && (value < range.least || value > range.most))
    return { kind: "outside", least: range.least, most: range.most };
  const [least, most] = rare[measure] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  if (value >= most && measure === "temperature") return { kind: "sure", because: "high" };
  if (value < least || value > most) return { kind: "sure", because: "rare" };
  const near = before && now_s - before.at_s < step_days * day_s;
  if (near && measure === "temperature" && Math.abs(value - before.value) > step_c)
    return { kind: "sure", because: "step" };
  return { kind: "good" };
}
