import type { Measure, Site } from "../api/client";

type Range = Pick<Site["measures"][number], "key" | "least" | "most" | "usual_least" | "usual_most">;

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
const step_c = 20; // chosen: a heap seldom moves so far in two days
const step_days = 2;

/** Judges a value in SI by the ranges the server names, what can be and what is usual, then by the reading before. */
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
  const { usual_least: least, usual_most: most } = range ?? {
    usual_least: Number.NEGATIVE_INFINITY,
    usual_most: Number.POSITIVE_INFINITY,
  };
  if (value >= most && measure === "temperature") return { kind: "sure", because: "high" };
  if (value < least || value > most) return { kind: "sure", because: "rare" };
  const near = before && now_s - before.at_s < step_days * day_s;
  if (near && measure === "temperature" && Math.abs(value - before.value) > step_c)
    return { kind: "sure", because: "step" };
  return { kind: "good" };
}
