import type { Forecast, Measure, Series } from "../api/client";
import { heatLimits } from "../ui/heat";
import { kindOf, show } from "../units/units";
import { t } from "../words/words";

type Column = readonly (number | null)[];

const day_s = 86400;

/** The forecast's line and band that belong to a measure, if it has one. */
export function forecastColumns(
  forecast: Forecast,
  measure: Measure,
): { line: Column; low: Column; high: Column } | null {
  const all = forecast.history;
  if (measure === "temperature") return { line: all.core_c, low: all.core_low_c, high: all.core_high_c };
  if (measure === "moisture")
    return { line: all.mean_moisture_wet, low: all.moisture_low_wet, high: all.moisture_high_wet };
  if (measure === "oxygen") return { line: all.mean_oxygen, low: all.lowest_oxygen, high: all.mean_oxygen };
  return null;
}

/** A column's value at a day, straight between its neighbours; null outside it. */
export function valueAt(days: Column, column: Column, day: number): number | null {
  const k = days.findIndex((one) => one !== null && one >= day);
  if (k < 0) return null;
  const [after_day, after] = [days[k]!, column[k]];
  if (after === null || after === undefined) return null;
  if (k === 0 || after_day === day) return k === 0 && after_day > day ? null : after;
  const [before_day, before] = [days[k - 1], column[k - 1]];
  if (before_day === null || before_day === undefined || before === null || before === undefined) return after;
  return before + ((after - before) * (day - before_day)) / (after_day - before_day);
}

export interface Last {
  place: string;
  at_s: number;
  value: number;
}

/** The latest reading of a measure, the core's when it is as fresh as any of that day. */
export function lastReading(series: readonly Series[], measure: Measure): Last | null {
  const all = series
    .filter((one) => one.measure === measure && one.at_s.length)
    .map((one) => ({ place: one.place_words, at_s: one.at_s.at(-1)!, value: one.value.at(-1)! }))
    .sort((a, b) => b.at_s - a.at_s);
  return all.find((one) => one.place.startsWith("core") && all[0]!.at_s - one.at_s < day_s) ?? all[0] ?? null;
}

/** How the last reading stands to the forecast and to the limit of a too hot heap: "12 degC hotter than forecast, still
 *  below 70 degC". Readings of a place that the forecast's line does not stand for are not compared. */
export function chartHeadline(
  series: readonly Series[],
  forecast: Forecast | null,
  measure: Measure,
  filled_s: number,
): string {
  const last = lastReading(series, measure);
  if (!last) return t.reading.none;
  const said = `${last.place}, ${show(kindOf(measure), last.value)}`;
  if (measure !== "temperature") return said;
  const limit =
    last.value >= heatLimits().too_hot
      ? t.chart.above(show("temperature", heatLimits().too_hot))
      : t.chart.below(show("temperature", heatLimits().too_hot));
  const columns = forecast && forecastColumns(forecast, measure);
  const compared = columns && last.place.startsWith("core");
  if (!compared) return `${said}: ${limit}`;
  const day = (last.at_s - filled_s) / day_s;
  const [line, low, high] = [columns.line, columns.low, columns.high].map((one) =>
    valueAt(forecast.history.day, one, day),
  ) as [number | null, number | null, number | null];
  if (line === null) return `${said}: ${limit}`;
  const step = show("temperature_step", Math.abs(last.value - line));
  const within = low !== null && high !== null && last.value >= low && last.value <= high;
  const words = within ? t.chart.within : last.value > line ? t.chart.hotter(step) : t.chart.cooler(step);
  return `${said}: ${words}, ${limit}`;
}

/** Whether the last core reading has left the band, so that learning is worth offering. */
export function outsideBand(series: readonly Series[], forecast: Forecast | null, filled_s: number): boolean {
  const last = lastReading(series, "temperature");
  const columns = forecast && forecastColumns(forecast, "temperature");
  if (!last || !columns || !last.place.startsWith("core")) return false;
  const day = (last.at_s - filled_s) / day_s;
  const [low, high] = [columns.low, columns.high].map((one) => valueAt(forecast.history.day, one, day)) as [
    number | null,
    number | null,
  ];
  return low !== null && high !== null && (last.value < low || last.value > high);
}
