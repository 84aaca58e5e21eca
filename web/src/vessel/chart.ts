import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import type { Forecast, Learned, Measure, Series } from "../api/client";
import { kindOf, measureWords, unit } from "../units/units";

type Column = (number | null)[];

/** The forecast's line and band that belong to a measure, if it has one. */
function forecastColumns(forecast: Forecast, measure: Measure): { line: Column; low: Column; high: Column } | null {
  const all = forecast.history;
  if (measure === "temperature") return { line: all.core_c, low: all.core_low_c, high: all.core_high_c };
  if (measure === "moisture")
    return { line: all.mean_moisture_wet, low: all.moisture_low_wet, high: all.moisture_high_wet };
  if (measure === "oxygen") return { line: all.mean_oxygen, low: all.lowest_oxygen, high: all.mean_oxygen };
  return null;
}

export const bandWords: Partial<Record<Measure, string>> = {
  temperature: "Line: forecast of the core; band: 10th to 90th percentile of the runs. Points: readings.",
  moisture: "Line: forecast of the heap's mean; band: 10th to 90th percentile of the runs. Points: readings.",
  oxygen: "Band: from the forecast's lowest place to its mean. Points: readings.",
};

const variable = (name: string): string => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

/** Colour-blind-safe and told apart by the mark's shade as well. Source: M. Okabe, K. Ito 2008 (from memory). */
const pointColours = ["#0072b2", "#d55e00", "#009e73", "#cc79a7", "#56b4e9", "#e69f00"];

function table(
  series: Series[],
  forecast: Forecast | null,
  learned: Learned | null,
  measure: Measure,
  filled_s: number,
): { data: uPlot.AlignedData; withBand: boolean } {
  const show = unit(kindOf(measure)).fromSi;
  const columns = forecast && forecastColumns(forecast, measure);
  const tables: uPlot.AlignedData[] = [];
  if (forecast && columns) {
    const at = forecast.history.day.map((day) => filled_s + (day ?? 0) * 86400);
    const shown = (column: Column): Column => column.map((value) => (value === null ? null : show(value)));
    tables.push([at, shown(columns.low), shown(columns.high), shown(columns.line)]);
  }
  if (learned) {
    const { low_c, middle_c, high_c } = learned.after;
    const shown = (column: Column): Column => column.map((value) => (value === null ? null : show(value)));
    tables.push([low_c.map((_, day) => filled_s + day * 86400), shown(low_c), shown(high_c), shown(middle_c)]);
  }
  for (const one of series) tables.push([one.at_s, one.value.map(show)]);
  if (!tables.length) return { data: [[], []], withBand: false };
  return { data: uPlot.join(tables), withBand: Boolean(columns) };
}

function bandSeries(): uPlot.Series[] {
  const edge = { stroke: "transparent", points: { show: false }, spanGaps: true, class: "unnamed" };
  return [
    { label: "band, low", ...edge },
    { label: "band, high", ...edge },
    { label: "forecast", stroke: variable("--ink"), width: 2, points: { show: false }, spanGaps: true },
  ];
}

function learnedSeries(): uPlot.Series[] {
  const line = { stroke: variable("--accent"), dash: [8, 6], points: { show: false }, spanGaps: true };
  return [
    { label: "after, low", ...line, width: 1, class: "unnamed" },
    { label: "after, high", ...line, width: 1, class: "unnamed" },
    { label: "after learning", ...line, width: 3 },
  ];
}

function pointSeries(one: Series, i: number): uPlot.Series {
  const colour = pointColours[i % pointColours.length]!;
  return {
    label: one.place_words,
    stroke: colour,
    width: 0,
    paths: () => null,
    points: { show: true, size: 9, fill: colour, stroke: variable("--paper"), width: 1 },
  };
}

function strokeOf(chart: uPlot, i: number): string {
  const stroke = chart.series[i]!.stroke as unknown;
  return String(typeof stroke === "function" ? (stroke as (u: uPlot, k: number) => unknown)(chart, i) : stroke);
}

/** Readings over the forecast's band, from filling to `until_s`. The caller removes it by destroy(). */
export function drawChart(
  root: HTMLElement,
  all: Series[],
  forecast: Forecast | null,
  learnedOf: Learned | null,
  measure: Measure,
  filled_s: number,
  until_s: number,
): uPlot {
  const series = all.filter((one) => one.measure === measure);
  const learned = measure === "temperature" ? learnedOf : null;
  const { data, withBand } = table(series, forecast, learned, measure, filled_s);
  const { sign, digits } = unit(kindOf(measure));
  const ink = variable("--ink");
  const axis = {
    stroke: ink,
    grid: { stroke: variable("--hair"), width: 1 },
    ticks: { stroke: variable("--hair") },
    font: "14px system-ui",
  };
  const options: uPlot.Options = {
    width: Math.max(280, root.clientWidth),
    height: Math.min(420, Math.max(260, root.clientWidth * 0.5)),
    scales: { x: { time: true, min: filled_s, max: until_s } },
    axes: [
      axis,
      {
        ...axis,
        label: `${measureWords[measure]}, ${sign}`,
        labelFont: "14px system-ui",
        size: 56,
        values: (_, values) => values.map((v) => v.toFixed(digits)),
      },
    ],
    series: [
      { label: "when", class: "unnamed" },
      ...(withBand ? bandSeries() : []),
      ...(learned ? learnedSeries() : []),
      ...series.map(pointSeries),
    ],
    bands: withBand ? [{ series: [2, 1], fill: variable("--band") }] : [],
    legend: { live: false, markers: { width: 2, fill: (u, i) => strokeOf(u, i) } },
    cursor: { y: false },
  };
  return new uPlot(options, data, root);
}

/** The same as a sentence, for those who do not see it. */
export function chartWords(all: Series[], forecast: Forecast | null, measure: Measure): string {
  const { fromSi, digits, sign } = unit(kindOf(measure));
  const parts: string[] = [];
  for (const one of all.filter((s) => s.measure === measure)) {
    const values = one.value.map(fromSi);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    parts.push(
      `${one.place_words}: ${one.count} readings between ${low.toFixed(digits)} and ${high.toFixed(digits)} ${sign}, last ${values.at(-1)!.toFixed(digits)}`,
    );
  }
  if (measure === "temperature" && forecast) {
    const peak = forecast.summary.peak_temperature_c;
    if (peak.middle !== null)
      parts.push(`the forecast's hottest place reaches ${fromSi(peak.middle).toFixed(digits)} ${sign}`);
  }
  return parts.length
    ? `${measureWords[measure]} over time. ${parts.join("; ")}.`
    : `No ${measureWords[measure].toLowerCase()} readings yet.`;
}
