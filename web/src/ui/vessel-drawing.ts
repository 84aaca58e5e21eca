import type { Design } from "../api/client";
import { svg } from "./dom";

/** What every drawing of a vessel cut through its middle shares. Metres; x from the middle, y falls from top to base. */

/** Inside, from left to right and from front to back. */
export const sizeOf = (design: Design): { across_m: number; deep_m: number } =>
  design.shape === "round"
    ? { across_m: design.diameter_m, deep_m: design.diameter_m }
    : { across_m: design.length_m, deep_m: design.width_m };

const least_gap = 0.08; // chosen: share of the height; a thinner gap under the base is not seen

/** The room that the slatted base is drawn in. */
export const baseRoom = (height_m: number, gap_m: number): number => Math.max(least_gap * height_m, gap_m);

/** Channels that the cut goes through, from `top_m` down. */
export function cutChannels(design: Design, top_m: number, height_m: number): SVGElement[] {
  return design.channels
    .filter((one) => Math.abs(one.y_m) <= one.diameter_m / 2 + 1e-9)
    .map((one) =>
      svg("rect", {
        x: one.x_m - one.diameter_m / 2,
        y: top_m,
        width: one.diameter_m,
        height: height_m,
        class: "channel",
      }),
    );
}

const slats_drawn = 6; // chosen

/** The slats of the base, in a room of that height below `base_m`. */
export const slats = (across_m: number, base_m: number, room_m: number): SVGElement[] =>
  Array.from({ length: slats_drawn }, (_, k) =>
    svg("rect", {
      x: -across_m / 2 + ((k + 0.2) * across_m) / slats_drawn,
      y: base_m + 0.15 * room_m,
      width: (0.6 * across_m) / slats_drawn,
      height: 0.3 * room_m,
      class: "slat",
    }),
  );
