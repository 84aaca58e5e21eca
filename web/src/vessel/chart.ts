import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import type { Forecast, Learned, Measure, Series } from "../api/client";
import { svg } from "../ui/dom";
import { heatLimits } from "../ui/heat";
import { kindOf, show, unit } from "../units/units";
import { dateText } from "../units/when";
import { t } from "../words/words";
import { type Marks, drawMarks, markerPath, shapes } from "./chart-marks";
import { forecastColumns, valueAt } from "./chart-words";

type Column = readonly (number | null)[];

export const bandWords = (measure: Measure): string | undefined =>
  (t.chart.bands as Partial<Record<Measure, string>>)[measure];

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
    const shown = (column: Column): (number | null)[] => column.map((value) => (value === null ? null : show(value)));
    tables.push([at, shown(columns.low), shown(columns.high), shown(columns.line)]);
  }
  if (learned) {
    const { low_c, middle_c, high_c } = learned.after;
    const shown = (column: Column): (number | null)[] => column.map((value) => (value === null ? null : show(value)));
    tables.push([low_c.map((_, day) => filled_s + day * 86400), shown(low_c), shown(high_c), shown(middle_c)]);
  }
  for (const one of series) tables.push([one.at_s, one.value.map(show)]);
  if (!tables.length) return { data: [[], []], withBand: false };
  return { data: uPlot.join(tables), withBand: Boolean(columns) };
}

function bandSeries(): uPlot.Series[] {
  const edge = { stroke: "transparent", points: { show: false }, spanGaps: true };
  return [{ ...edge }, { ...edge }, { stroke: variable("--ink"), width: 2, points: { show: false }, spanGaps: true }];
}

function learnedSeries(): uPlot.Series[] {
  const line = { stroke: variable("--accent"), dash: [8, 6], points: { show: false }, spanGaps: true };
  return [
    { ...line, width: 1 },
    { ...line, width: 1 },
    { ...line, width: 3 },
  ];
}

function pointSeries(one: Series, i: number): uPlot.Series {
  const colour = pointColours[i % pointColours.length]!;
  return { label: one.place_words, stroke: colour, width: 0, paths: () => null, points: { show: false } };
}

/** The shape and colour of the i-th place's readings, for a legend in words. */
export function markerFigure(i: number): SVGElement {
  const path = svg("path", {
    d: markerPath(shapes[i % shapes.length]!, 10, 10, 6),
    fill: pointColours[i % pointColours.length]!,
    stroke: "currentColor",
  });
  return svg("svg", { viewBox: "0 0 20 20", class: "marker", "aria-hidden": "true" }, path);
}

/** What stands at one moment of the chart, in words: "12 Nov: forecast 58, 51 to 64 degC; core 61 degC". */
function momentWords(chart: uPlot, index: number, measure: Measure, withBand: boolean, points: number[]): string {
  const { toSi } = unit(kindOf(measure));
  const said = (value: number): string => show(kindOf(measure), toSi(value));
  const parts: string[] = [];
  const days = [...chart.data[0]];
  const at = (i: number): number | null => (chart.data[i]?.[index] as number | null | undefined) ?? null;
  // the forecast has its own days: between them it is read off straight
  const between = (i: number): number | null => {
    const there = days.flatMap((day, k) =>
      typeof chart.data[i]?.[k] === "number" ? [[day, chart.data[i]![k]!] as const] : [],
    );
    return valueAt(
      there.map((one) => one[0]),
      there.map((one) => one[1]),
      days[index]!,
    );
  };
  if (withBand) {
    const [low, high, line] = [between(1), between(2), between(3)];
    if (line !== null)
      parts.push(t.chart.forecast(said(line), low !== null && high !== null ? `${said(low)} – ${said(high)}` : ""));
  }
  for (const i of points) if (at(i) !== null) parts.push(`${chart.series[i]!.label} ${said(at(i)!)}`);
  return `${dateText(chart.data[0][index]!)}: ${parts.length ? parts.join("; ") : t.chart.nothingThere}`;
}

/** Left and right walk from value to value, Home and End to the first and last; a finger that slides does the same. */
function walkable(
  chart: uPlot,
  [from_s, until_s]: [number, number],
  root: HTMLElement,
  tell: (index: number) => void,
): void {
  const shown = [...chart.data[0]].flatMap((at_s, i) => (at_s >= from_s && at_s <= until_s ? [i] : []));
  let place = shown.findIndex((i) => chart.data[0][i]! > Date.now() / 1000);
  if (place < 0) place = shown.length - 1;
  const go = (to: number): void => {
    place = Math.min(Math.max(to, 0), shown.length - 1);
    const index = shown[place];
    if (index === undefined) return;
    chart.setCursor({ left: chart.valToPos(chart.data[0][index]!, "x"), top: 10 });
    tell(index);
  };
  root.addEventListener("keydown", (event) => {
    const steps: Record<string, number> = {
      ArrowLeft: place - 1,
      ArrowRight: place + 1,
      Home: 0,
      End: shown.length - 1,
    };
    const to = steps[event.key];
    if (to === undefined) return;
    event.preventDefault();
    go(to);
  });
  chart.over.addEventListener("pointermove", (event) => {
    const at_s = chart.posToVal(event.offsetX, "x");
    let nearest = 0;
    for (const [k, i] of shown.entries())
      if (Math.abs(chart.data[0][i]! - at_s) < Math.abs(chart.data[0][shown[nearest]!]! - at_s)) nearest = k;
    go(nearest);
  });
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
  events: Marks["events"],
  tell: (words: string) => void,
): uPlot {
  const series = all.filter((one) => one.measure === measure);
  const learned = measure === "temperature" ? learnedOf : null;
  const { data, withBand } = table(series, forecast, learned, measure, filled_s);
  const { sign, digits } = unit(kindOf(measure));
  const ink = variable("--ink");
  const before = 1 + (withBand ? 3 : 0) + (learned ? 3 : 0);
  const points = series.map((_, i) => before + i);
  const hot = heatLimits().too_hot;
  const marks: Marks = {
    ink,
    soft: variable("--soft"),
    danger: variable("--wrong"),
    today_s: Date.now() / 1000,
    today: t.chart.today,
    limits: measure === "temperature" ? [{ value: unit("temperature").fromSi(hot), words: t.yard.heat.veryHot }] : [],
    events,
    points,
  };
  const axis = {
    stroke: ink,
    grid: { stroke: variable("--hair"), width: 1 },
    ticks: { stroke: variable("--hair") },
    font: "14px system-ui",
  };
  const options: uPlot.Options = {
    width: Math.max(240, root.clientWidth),
    height: Math.min(420, Math.max(260, root.clientWidth * 0.5)),
    scales: { x: { time: true, min: filled_s, max: until_s } },
    axes: [
      axis,
      {
        ...axis,
        label: `${t.measure[measure]}, ${sign}`,
        labelFont: "14px system-ui",
        size: 56,
        values: (_, values) => values.map((v) => v.toFixed(digits)),
      },
    ],
    series: [{}, ...(withBand ? bandSeries() : []), ...(learned ? learnedSeries() : []), ...series.map(pointSeries)],
    bands: withBand ? [{ series: [2, 1], fill: variable("--band") }] : [],
    legend: { show: false },
    cursor: { y: false, points: { show: false } },
    hooks: { draw: [(chart) => drawMarks(chart, marks)] },
  };
  const chart = new uPlot(options, data, root);
  walkable(chart, [filled_s, until_s], root.closest<HTMLElement>(".chart") ?? root, (index) =>
    tell(momentWords(chart, index, measure, withBand, points)),
  );
  return chart;
}

/** The same as a sentence, for those who do not see it. */
export function chartWords(all: Series[], forecast: Forecast | null, measure: Measure): string {
  const said = (value: number): string => show(kindOf(measure), value);
  const parts: string[] = [];
  for (const one of all.filter((s) => s.measure === measure)) {
    const [low, high] = [Math.min(...one.value), Math.max(...one.value)];
    parts.push(t.chart.series(one.place_words, one.count, said(low), said(high), said(one.value.at(-1)!)));
  }
  if (measure === "temperature" && forecast) {
    const peak = forecast.summary.peak_temperature_c;
    if (peak.middle !== null) parts.push(t.chart.peak(said(peak.middle)));
  }
  return parts.length
    ? t.chart.overTime(t.measure[measure], parts.join("; "))
    : t.chart.noReadings(t.lower(t.measure[measure]));
}
