import type uPlot from "uplot";
import type { YardEvent } from "../api/client";

/** What is drawn over the lines. Numbers are as shown. */
export interface Marks {
  ink: string;
  soft: string;
  danger: string;
  today_s: number;
  today: string;
  limits: { value: number; words: string }[];
  events: { at_s: number; words: string }[];
  /** series that are points, each with a shape of its own */
  points: number[];
}

/** Shapes in order: told apart in grey print and by the colour-blind. */
export const shapes = ["circle", "square", "triangle", "diamond", "cross"] as const;
type Shape = (typeof shapes)[number];

/** Path of a marker round a point, in pixels. */
export function markerPath(shape: Shape, x: number, y: number, r: number): string {
  if (shape === "square") return `M${x - r} ${y - r}h${2 * r}v${2 * r}h${-2 * r}z`;
  if (shape === "triangle") return `M${x} ${y - 1.2 * r}L${x + 1.2 * r} ${y + r}H${x - 1.2 * r}z`;
  if (shape === "diamond")
    return `M${x} ${y - 1.35 * r}L${x + 1.35 * r} ${y}L${x} ${y + 1.35 * r}L${x - 1.35 * r} ${y}z`;
  if (shape === "cross")
    return `M${x - r} ${y - 0.35 * r}H${x - 0.35 * r}V${y - r}H${x + 0.35 * r}V${y - 0.35 * r}H${x + r}V${y + 0.35 * r}H${x + 0.35 * r}V${y + r}H${x - 0.35 * r}V${y + 0.35 * r}H${x - r}z`;
  return `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
}

function across(chart: uPlot, y: number, words: string, colour: string): void {
  const { ctx, bbox } = chart;
  if (y < bbox.top || y > bbox.top + bbox.height) return;
  ctx.strokeStyle = ctx.fillStyle = colour;
  ctx.beginPath();
  ctx.moveTo(bbox.left, y);
  ctx.lineTo(bbox.left + bbox.width, y);
  ctx.stroke();
  ctx.textAlign = "right";
  ctx.fillText(words, bbox.left + bbox.width - 4, y - 4);
}

function upright(chart: uPlot, at_s: number, words: string, colour: string, row: number): void {
  const { ctx, bbox } = chart;
  const x = chart.valToPos(at_s, "x", true);
  if (x < bbox.left || x > bbox.left + bbox.width) return;
  ctx.strokeStyle = ctx.fillStyle = colour;
  ctx.beginPath();
  ctx.moveTo(x, bbox.top);
  ctx.lineTo(x, bbox.top + bbox.height);
  ctx.stroke();
  const right = x > bbox.left + bbox.width * 0.7;
  ctx.textAlign = right ? "right" : "left";
  ctx.fillText(words, x + (right ? -4 : 4), bbox.top + 14 * devicePixelRatio * (row + 1));
}

/** Limits, events, today and the readings' shapes. */
export function drawMarks(chart: uPlot, marks: Marks): void {
  const { ctx } = chart;
  ctx.save();
  ctx.font = `${13 * devicePixelRatio}px system-ui`;
  ctx.lineWidth = devicePixelRatio;
  ctx.setLineDash([6 * devicePixelRatio, 4 * devicePixelRatio]);
  for (const one of marks.limits) across(chart, chart.valToPos(one.value, "y", true), one.words, marks.danger);
  ctx.setLineDash([2 * devicePixelRatio, 4 * devicePixelRatio]);
  for (const [i, one] of marks.events.entries()) upright(chart, one.at_s, one.words, marks.soft, 1 + (i % 3));
  ctx.setLineDash([]);
  ctx.lineWidth = 2 * devicePixelRatio;
  upright(chart, marks.today_s, marks.today, marks.ink, 0);
  ctx.lineWidth = devicePixelRatio;
  for (const [k, i] of marks.points.entries()) {
    const series = chart.series[i]!;
    if (!series.show) continue;
    ctx.fillStyle = typeof series.stroke === "function" ? String(series.stroke(chart, i)) : String(series.stroke);
    ctx.strokeStyle = marks.ink;
    for (const [j, value] of chart.data[i]!.entries()) {
      if (value === null || value === undefined) continue;
      const path = new Path2D(
        markerPath(
          shapes[k % shapes.length]!,
          chart.valToPos(chart.data[0][j]!, "x", true),
          chart.valToPos(value, "y", true),
          4 * devicePixelRatio,
        ),
      );
      ctx.fill(path);
      ctx.stroke(path);
    }
  }
  ctx.restore();
}

/** Events that a chart tells: daily ones would hide the others. */
export const toldEvents = (events: readonly YardEvent[]): YardEvent[] =>
  events.filter((one) => one.kind !== "sprinkled" && one.kind !== "sampled" && one.kind !== "other");
