import type uPlot from "uplot";
import type { Forecast, Measure, Series } from "../api/client";
import { type Cell, saveFile } from "../ui/save-file";
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

const margin = 16;

/** The chart as a picture to send on: its title, the drawing and the legend on the page's own ground. */
export function saveChartPicture(chart: uPlot, title: string, legend: readonly string[], name: string): void {
  const drawn = chart.ctx.canvas;
  const scale = devicePixelRatio;
  const line = 22 * scale;
  const canvas = document.createElement("canvas");
  canvas.width = drawn.width + 2 * margin * scale;
  canvas.height = drawn.height + 2 * margin * scale + (2 + legend.length) * line;
  const pen = canvas.getContext("2d");
  if (!pen) return;
  const look = getComputedStyle(document.documentElement);
  pen.fillStyle = look.getPropertyValue("--paper");
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.fillStyle = look.getPropertyValue("--ink");
  pen.font = `bold ${16 * scale}px system-ui, sans-serif`;
  pen.fillText(title, margin * scale, margin * scale + 0.7 * line, canvas.width - 2 * margin * scale);
  pen.drawImage(drawn, margin * scale, margin * scale + 1.2 * line);
  pen.font = `${14 * scale}px system-ui, sans-serif`;
  const below = margin * scale + 1.2 * line + drawn.height;
  for (const [i, words] of legend.entries())
    pen.fillText(words, margin * scale, below + (i + 0.9) * line, canvas.width - 2 * margin * scale);
  canvas.toBlob((blob) => blob && saveFile(`${name}.png`, blob), "image/png");
}
