import type uPlot from "uplot";
import type { Forecast, Measure, Series } from "../api/client";
import { savePicture } from "../ui/picture";
import type { Cell } from "../ui/save-file";
import { kindOf, unit } from "../units/units";
import { t } from "../words/words";
import { forecastColumns } from "./chart-words";

/** What a chart shows, as rows: readings with their places, then the forecast's line and band, in the shown unit. */
export function chartRows(
  series: readonly Series[],
  forecast: Forecast | null,
  measure: Measure,
  filled_s: number,
): Cell[][] {
  const { fromSi, sign } = unit(kindOf(measure));
  const shown = (value: number | null | undefined): Cell =>
    value === null || value === undefined ? null : Number(fromSi(value).toFixed(3));
  const time = (at_s: number): string => new Date(at_s * 1000).toISOString().replace(".000Z", "Z");
  const rows: Cell[][] = [
    [
      t.files.time,
      t.files.what,
      t.files.place,
      `${t.files.value}, ${sign}`,
      `${t.files.low}, ${sign}`,
      `${t.files.high}, ${sign}`,
    ],
  ];
  for (const one of series) {
    if (one.measure !== measure) continue;
    for (const [i, at_s] of one.at_s.entries())
      rows.push([time(at_s), t.files.reading, one.place_words, shown(one.value[i]), null, null]);
  }
  const columns = forecast && forecastColumns(forecast, measure);
  if (!forecast || !columns) return rows;
  for (const [i, day] of forecast.history.day.entries()) {
    if (day === null) continue;
    const at_s = Math.round(filled_s + day * 86400);
    rows.push([
      time(at_s),
      t.files.forecast,
      "",
      shown(columns.line[i]),
      shown(columns.low[i]),
      shown(columns.high[i]),
    ]);
  }
  return rows;
}

/** The chart as a picture to send on. */
export const saveChartPicture = (chart: uPlot, title: string, legend: readonly string[], name: string): void =>
  savePicture(chart.ctx.canvas, devicePixelRatio, title, legend, name);
