import { type Shown, fieldColour, valueAt } from "./data";

/** An upright plane: what lies beyond `offset_m` along the normal is cut away. */
export interface Plane {
  normal: [x: number, y: number];
  offset_m: number;
}

export interface Shape {
  positions: Float32Array; // x, height, -y
  colours: Float32Array; // linear light 0..1
  indices: Uint32Array;
}

const linear = (v: number): number => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);

function paint(shown: Shown, value: number, colours: Float32Array, at: number): void {
  const [r, g, b] = fieldColour(shown.field, value);
  colours[at] = linear(r);
  colours[at + 1] = linear(g);
  colours[at + 2] = linear(b);
}

/** Top, base, wall and channels, coloured by the field. */
export function outside(shown: Shown): Shape {
  const { heap, day } = shown;
  const count = heap.points * heap.levels;
  const positions = new Float32Array(count * 3);
  const colours = new Float32Array(count * 3);
  const heights = heap.mesh.levels_m[day]!;
  for (let node = 0; node < count; ++node) {
    const [x = 0, y = 0] = heap.mesh.points_m[node % heap.points]!;
    positions.set([x, heights[Math.floor(node / heap.points)]!, -y], node * 3);
    paint(shown, valueAt(shown, node), colours, node * 3);
  }
  const indices: number[] = [];
  const top = (heap.levels - 1) * heap.points;
  for (const [a = 0, b = 0, c = 0] of heap.mesh.triangles) indices.push(a + top, b + top, c + top, a, c, b);
  for (let level = 0; level + 1 < heap.levels; ++level) {
    const low = level * heap.points;
    const high = low + heap.points;
    for (const [a, b] of heap.rim) indices.push(low + a, low + b, high + b, low + a, high + b, high + a);
  }
  return { positions, colours, indices: new Uint32Array(indices) };
}

/** Rims of wall and channels at top and base, as pairs of ends. */
export function edges(shown: Shown): Float32Array {
  const { heap, day } = shown;
  const heights = heap.mesh.levels_m[day]!;
  const ends: number[] = [];
  for (const height_m of [heights[0]!, heights[heap.levels - 1]!]) {
    for (const pair of heap.rim) {
      for (const point of pair) {
        const [x = 0, y = 0] = heap.mesh.points_m[point]!;
        ends.push(x, height_m + 0.002, -y); // 2 mm above, so that it is not hidden in the face
      }
    }
  }
  return new Float32Array(ends);
}

interface Crossing {
  a: number;
  b: number;
  share: number; // from a to b
}

function crossings(shown: Shown, plane: Plane): [Crossing, Crossing][] {
  const { mesh } = shown.heap;
  const [nx, ny] = plane.normal;
  const beyond = mesh.points_m.map(([x = 0, y = 0]) => x * nx + y * ny - plane.offset_m);
  const found: [Crossing, Crossing][] = [];
  for (const [a = 0, b = 0, c = 0] of mesh.triangles) {
    const cut: Crossing[] = [];
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as [number, number][]) {
      const [s, t] = [beyond[from]!, beyond[to]!];
      if (s < 0 !== t < 0) cut.push({ a: from, b: to, share: s / (s - t) });
    }
    if (cut.length === 2) found.push([cut[0]!, cut[1]!]);
  }
  return found;
}

/** Outline of the cut face: where it meets wall and channels, and its top and base. */
export function outline(shown: Shown, plane: Plane): Float32Array {
  const { heap, day } = shown;
  const heights = heap.mesh.levels_m[day]!;
  const [nx, ny] = plane.normal;
  const ends: number[] = [];
  const put = (x: number, y: number, height_m: number): number =>
    ends.push(x + nx * 0.002, height_m, -(y + ny * 0.002)); // 2 mm before the face
  const beyond = (i: number): number =>
    heap.mesh.points_m[i]![0]! * nx + heap.mesh.points_m[i]![1]! * ny - plane.offset_m;
  for (const [a, b] of heap.rim) {
    const [s, t] = [beyond(a), beyond(b)];
    if (s < 0 === t < 0) continue;
    const share = s / (s - t);
    const [x, y] = [0, 1].map((k) => heap.mesh.points_m[a]![k]! * (1 - share) + heap.mesh.points_m[b]![k]! * share) as [
      number,
      number,
    ];
    put(x, y, heights[0]!);
    put(x, y, heights[heap.levels - 1]!);
  }
  for (const pair of crossings(shown, plane)) {
    for (const height_m of [heights[0]!, heights[heap.levels - 1]!]) {
      for (const { a, b, share } of pair) {
        const [x, y] = [0, 1].map(
          (k) => heap.mesh.points_m[a]![k]! * (1 - share) + heap.mesh.points_m[b]![k]! * share,
        ) as [number, number];
        put(x, y, height_m);
      }
    }
  }
  return new Float32Array(ends);
}

/** The cut face itself. */
export function section(shown: Shown, plane: Plane): Shape {
  const { heap, day } = shown;
  const cuts = crossings(shown, plane);
  const perCut = 2 * heap.levels;
  const positions = new Float32Array(cuts.length * perCut * 3);
  const colours = new Float32Array(cuts.length * perCut * 3);
  const indices: number[] = [];
  for (const [i, pair] of cuts.entries()) {
    for (let level = 0; level < heap.levels; ++level) {
      for (const [k, { a, b, share }] of pair.entries()) {
        const vertex = i * perCut + level * 2 + k;
        const [ax = 0, ay = 0] = heap.mesh.points_m[a]!;
        const [bx = 0, by = 0] = heap.mesh.points_m[b]!;
        positions.set(
          [ax + share * (bx - ax), heap.mesh.levels_m[day]![level]!, -(ay + share * (by - ay))],
          vertex * 3,
        );
        const base = level * heap.points;
        paint(shown, (1 - share) * valueAt(shown, base + a) + share * valueAt(shown, base + b), colours, vertex * 3);
      }
      const v = i * perCut + level * 2;
      if (level + 1 < heap.levels) indices.push(v, v + 1, v + 3, v, v + 3, v + 2);
    }
  }
  return { positions, colours, indices: new Uint32Array(indices) };
}
