import type { Design } from "../api/client";
import { svg } from "./dom";

/** The vessel seen from above with its channels, drawn to scale; filled by a colour, with a few words in it. */
export function planFigure(
  design: Design | undefined,
  colour: string | null,
  mark?: { x_m: number; y_m: number } | null,
): SVGElement {
  const round = design?.shape !== "rectangular";
  const across_m = round ? (design?.diameter_m ?? 1) : design!.length_m;
  const deep_m = round ? across_m : design!.width_m;
  const edge = 0.06 * Math.max(across_m, deep_m);
  const box = [-across_m / 2 - edge, -deep_m / 2 - edge, across_m + 2 * edge, deep_m + 2 * edge].join(" ");
  const look = { class: "wall", style: null, fill: colour ?? "var(--wash)" };
  const wall = round
    ? svg("circle", { cx: 0, cy: 0, r: across_m / 2, ...look })
    : svg("rect", { x: -across_m / 2, y: -deep_m / 2, width: across_m, height: deep_m, ...look });
  const figure = svg("svg", { viewBox: box, class: "plan-figure", "aria-hidden": "true" }, wall);
  for (const one of design?.channels ?? []) {
    figure.append(svg("circle", { cx: one.x_m, cy: -one.y_m, r: one.diameter_m / 2, class: "channel" }));
  }
  if (mark) figure.append(svg("circle", { cx: mark.x_m, cy: -mark.y_m, r: edge * 0.6, class: "far-point" }));
  return figure;
}
