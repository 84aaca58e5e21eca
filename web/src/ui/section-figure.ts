import type { Design, Reading } from "../api/client";
import { svg } from "./dom";
import { heatCss, heatLimits } from "./heat";
import { baseRoom, cutChannels, sizeOf, slats } from "./vessel-drawing";

const spread = 0.34; // chosen: how far from its probe a reading is coloured, as a share of the vessel's width

interface Spot {
  x: number; // from the middle, m
  y: number; // above the base, m
  celsius: number;
}

/** Where a probe stands in the section: by its numbers when they are known, else where such a place is in a vessel. */
export function placeIn(reading: Reading, width_m: number, height_m: number): { x: number; y: number } {
  const usual: Record<string, [x: number, y: number]> = {
    top: [0, 0.85],
    base: [0, 0.12],
    side: [0.36, 0.5],
    wall: [0.42, 0.5],
  };
  const [across, up] = usual[reading.place ?? ""] ?? [0, 0.5];
  const x =
    reading.radius_m !== undefined
      ? reading.radius_m * Math.sign(Math.cos(reading.angle_rad ?? 0) || 1)
      : across * width_m;
  const y = reading.height_m ?? (reading.depth_m !== undefined ? height_m - reading.depth_m : up * height_m);
  const inside = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
  return { x: inside(x, -width_m / 2, width_m / 2), y: inside(y, 0, height_m) };
}

let made = 0;

function glow(spot: Spot, id: string, reach_m: number, height_m: number): SVGElement[] {
  const colour = heatCss(spot.celsius);
  const stop = (offset: number, opacity: number): SVGElement =>
    svg("stop", { offset, "stop-color": colour, "stop-opacity": opacity });
  const gradient = svg("radialGradient", { id }, stop(0, 1), stop(0.55, 0.9), stop(1, 0));
  return [gradient, svg("circle", { cx: spot.x, cy: height_m - spot.y, r: reach_m, fill: `url(#${id})` })];
}

/** A vessel cut through its middle, to scale: slatted base, mesh wall, channels, and the last temperatures where they were
 *  read, fading out where nothing is known. An empty vessel is drawn empty. */
export function sectionFigure(design: Design | undefined, readings: readonly Reading[] | null): SVGElement {
  const width_m = design ? sizeOf(design).across_m : 1.2;
  const height_m = design?.fill_height_m ?? 1.2;
  const gap_m = baseRoom(height_m, design?.base_gap_m ?? 0.1);
  const edge = 0.05 * width_m;
  const box = [-width_m / 2 - edge, -edge, width_m + 2 * edge, height_m + gap_m + 2 * edge]
    .map((one) => one.toFixed(3))
    .join(" ");
  const figure = svg("svg", { viewBox: box, class: "section-figure", "aria-hidden": "true" });
  const left = -width_m / 2;
  if (readings) {
    const clip = `cut${++made}`;
    figure.append(svg("clipPath", { id: clip }, svg("rect", { x: left, y: 0, width: width_m, height: height_m })));
    figure.append(svg("rect", { x: left, y: 0, width: width_m, height: height_m, class: "heap" }));
    const heap = svg("g", { "clip-path": `url(#${clip})` });
    const spots = readings
      .filter((one) => one.measure === "temperature")
      .map((one): Spot => ({ ...placeIn(one, width_m, height_m), celsius: one.value }));
    // the hottest lies on top
    for (const [i, spot] of spots.sort((a, b) => a.celsius - b.celsius).entries())
      heap.append(...glow(spot, `${clip}g${i}`, spread * Math.max(width_m, height_m), height_m));
    heap.append(...(design ? cutChannels(design, 0, height_m) : []));
    for (const spot of spots)
      heap.append(
        svg("circle", {
          cx: spot.x,
          cy: height_m - spot.y,
          r: 0.028 * width_m,
          class: spot.celsius >= heatLimits().too_hot ? "probe hot" : "probe",
        }),
      );
    figure.append(heap);
  }
  const lines = `M${left} 0V${height_m + gap_m}M${-left} 0V${height_m + gap_m}M${left} ${height_m}H${-left}`;
  figure.append(svg("path", { d: lines, class: readings ? "wall" : "wall bare" }));
  figure.append(...slats(width_m, height_m, gap_m));
  return figure;
}
