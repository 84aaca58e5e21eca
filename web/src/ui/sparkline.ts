import type { Readings } from "../api/client";
import { svg } from "./dom";
import { heatLimits } from "./heat";

const shown_days = 30; // chosen
const day_s = 86400;

export interface Peak {
  day: number; // since the first shown
  celsius: number;
}

/** The highest temperature of each day in the last month before `now_s`. */
export function dailyPeaks(readings: Readings, now_s: number): Peak[] {
  const peaks = new Map<number, number>();
  for (const one of readings.series) {
    if (one.measure !== "temperature") continue;
    for (const [i, at_s] of one.at_s.entries()) {
      const day = Math.floor((at_s - now_s) / day_s) + shown_days;
      if (day >= 0 && day <= shown_days)
        peaks.set(day, Math.max(peaks.get(day) ?? Number.NEGATIVE_INFINITY, one.value[i]!));
    }
  }
  return [...peaks].map(([day, celsius]) => ({ day, celsius })).sort((a, b) => a.day - b.day);
}

/** The month's daily peaks as a line without axes, with the limit of a too hot heap where the line comes near it. */
export function sparkline(peaks: readonly Peak[]): SVGElement {
  const [wide, high] = [100, 28];
  const figure = svg("svg", {
    viewBox: `0 0 ${wide} ${high}`,
    class: "spark",
    preserveAspectRatio: "none",
    "aria-hidden": "true",
  });
  if (peaks.length < 2) return figure;
  const y = (celsius: number): number => high - 2 - ((Math.min(Math.max(celsius, 0), 90) - 0) / 90) * (high - 4);
  const x = (day: number): number => 2 + (day / shown_days) * (wide - 4);
  if (peaks.some((one) => one.celsius > heatLimits().hot))
    figure.append(svg("path", { d: `M0 ${y(heatLimits().too_hot).toFixed(1)}H${wide}`, class: "limit" }));
  figure.append(
    svg("path", {
      d: peaks.map((one, i) => `${i ? "L" : "M"}${x(one.day).toFixed(1)} ${y(one.celsius).toFixed(1)}`).join(""),
      class: "line",
    }),
  );
  return figure;
}
