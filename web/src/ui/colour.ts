/** Maps for fields: even in lightness and readable by the colour-blind.
 *  Source: N. J. Smith, S. van der Walt, E. Firing 2015, "inferno" and "viridis", released under CC0; every eighth row. */
export type MapName = "inferno" | "viridis";

// prettier-ignore
const tables: Record<MapName, readonly number[]> = {
  inferno: [
    0, 0, 4, 4, 3, 18, 11, 7, 36, 21, 11, 55, 33, 12, 74, 47, 10, 91, 61, 9, 101, 74, 12, 107, 87, 16, 109, 100, 21,
    110, 113, 25, 110, 125, 30, 109, 138, 34, 106, 151, 39, 102, 163, 44, 97, 176, 49, 91, 188, 55, 84, 198, 61, 77,
    208, 69, 69, 218, 78, 60, 227, 89, 51, 235, 100, 41, 241, 113, 31, 246, 126, 20, 249, 140, 10, 251, 155, 6, 252,
    170, 15, 251, 186, 31, 249, 201, 50, 245, 217, 73, 242, 232, 101, 243, 245, 134, 252, 255, 164,
  ],
  viridis: [
    68, 1, 84, 71, 13, 96, 72, 24, 106, 72, 35, 116, 71, 45, 123, 69, 55, 129, 66, 64, 134, 62, 73, 137, 59, 82, 139,
    55, 91, 141, 51, 99, 141, 47, 107, 142, 44, 114, 142, 41, 122, 142, 38, 130, 142, 35, 137, 141, 33, 145, 140, 31,
    151, 139, 31, 159, 136, 33, 166, 133, 39, 173, 129, 49, 181, 123, 61, 188, 116, 76, 194, 108, 92, 200, 99, 110, 206,
    88, 129, 211, 77, 149, 216, 64, 170, 220, 50, 192, 223, 37, 213, 226, 26, 234, 229, 26, 253, 231, 37,
  ],
};

/** Red, green, blue 0..255 at a share 0..1 of the map; outside held at the ends. */
export function mapColour(map: MapName, share: number): [number, number, number] {
  const table = tables[map];
  const last = table.length / 3 - 1;
  const place = Math.min(Math.max(share, 0), 1) * last;
  const below = Math.min(Math.floor(place), last - 1);
  const part = place - below;
  const mix = (k: number): number => table[below * 3 + k]! * (1 - part) + table[below * 3 + 3 + k]! * part;
  return [mix(0), mix(1), mix(2)];
}

export const css = ([r, g, b]: [number, number, number]): string => `rgb(${r | 0} ${g | 0} ${b | 0})`;
