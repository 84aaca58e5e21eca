import type { Channel, Design } from "../api/client";

/** A ring of channels with or without one in the middle. */
export interface Ring {
  count: number;
  radius_m: number;
  first_angle_rad: number;
  centre: boolean;
  diameter_m: number;
}
/** Even rows and columns. */
export interface Rows {
  columns: number;
  rows: number;
  diameter_m: number;
}
export type Pattern = Ring | Rows;

export const isRing = (pattern: Pattern): pattern is Ring => "radius_m" in pattern;

const common_channel_m = 0.1016; // 4 in, as the plan takes for a vessel without channels
const nearly_m = 0.01;

/** The pattern that a design's channels come nearest to. */
export function patternOf(design: Design): Pattern {
  const diameter_m = design.channels[0]?.diameter_m ?? common_channel_m;
  if (design.shape === "rectangular") {
    const distinct = (values: number[]): number =>
      values.filter((v, i) => values.findIndex((w) => Math.abs(v - w) < nearly_m) === i).length;
    return {
      columns: distinct(design.channels.map((one) => one.x_m)),
      rows: distinct(design.channels.map((one) => one.y_m)),
      diameter_m,
    };
  }
  const away = design.channels.filter((one) => Math.hypot(one.x_m, one.y_m) > nearly_m);
  const first = away[0];
  return {
    count: away.length,
    radius_m: first ? Math.hypot(first.x_m, first.y_m) : design.diameter_m / 4,
    first_angle_rad: first ? Math.atan2(first.y_m, first.x_m) : 0,
    centre: away.length < design.channels.length,
    diameter_m,
  };
}

export function ringChannels(ring: Ring): Channel[] {
  const centre = ring.centre ? [{ x_m: 0, y_m: 0, diameter_m: ring.diameter_m }] : [];
  return centre.concat(
    Array.from({ length: ring.count }, (_, i) => {
      const angle = ring.first_angle_rad + (2 * Math.PI * i) / ring.count;
      return {
        x_m: ring.radius_m * Math.cos(angle),
        y_m: ring.radius_m * Math.sin(angle),
        diameter_m: ring.diameter_m,
      };
    }),
  );
}

/** Evenly over the plan, each in the middle of its own share of it. */
export function gridChannels(grid: Rows, length_m: number, width_m: number): Channel[] {
  const all: Channel[] = [];
  for (let row = 0; row < grid.rows; ++row) {
    for (let column = 0; column < grid.columns; ++column) {
      all.push({
        x_m: length_m * ((column + 0.5) / grid.columns - 0.5),
        y_m: width_m * ((row + 0.5) / grid.rows - 0.5),
        diameter_m: grid.diameter_m,
      });
    }
  }
  return all;
}
