import { type Inside, type Reading, get, getBytes } from "../api/client";
import { mapColour } from "../ui/colour";
import { heatColour, heat_scale_c, moistureColour } from "../ui/heat";
import { placeIn } from "../ui/section-figure";

export type FieldName = Inside["fields"][number]["name"];

/** A heap's inside over time: the plan's triangles, level by level, and one byte a node and day. */
export interface Heap {
  id: string;
  mesh: Inside;
  points: number; // of one level
  levels: number;
  /** edges of the plan that belong to one triangle only: wall and channels */
  rim: [number, number][];
  bytes: Map<FieldName, Uint8Array>;
}

/** One number for all points at one place: where the solved part was unfolded, points lie on each other. */
function placesOf(points: number[][]): number[] {
  const first = new Map<string, number>();
  return points.map(([x = 0, y = 0], i) => {
    const key = `${Math.round(x * 1e4)} ${Math.round(y * 1e4)}`;
    if (!first.has(key)) first.set(key, i);
    return first.get(key)!;
  });
}

function rimOf(mesh: Inside): [number, number][] {
  const place = placesOf(mesh.points_m);
  const seen = new Map<string, [number, number] | null>();
  for (const [a, b, c] of mesh.triangles as [number, number, number][]) {
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as [number, number][]) {
      const key = [place[from]!, place[to]!].sort((one, other) => one - other).join(" ");
      seen.set(key, seen.has(key) ? null : [from, to]);
    }
  }
  return [...seen.values()].filter((one): one is [number, number] => one !== null);
}

export async function loadHeap(id: string): Promise<Heap> {
  const mesh = await get<Inside>(`/api/forecasts/${id}/inside`);
  return {
    id,
    mesh,
    points: mesh.points_m.length,
    levels: mesh.levels_m[0]?.length ?? 0,
    rim: rimOf(mesh),
    bytes: new Map(),
  };
}

/** Fetches a field once. */
export async function needField(heap: Heap, name: FieldName): Promise<void> {
  if (!heap.bytes.has(name)) heap.bytes.set(name, await getBytes(`/api/forecasts/${heap.id}/inside/${name}`));
}

/** What one picture shows: a field on one day. */
export interface Shown {
  heap: Heap;
  field: FieldName;
  day: number; // index
}

/** Ends of the colours, the same over vessels and days, so that a colour always means one value. Oxygen ends at fresh
 *  air. */
export const scales: Record<FieldName, readonly [low: number, high: number]> = {
  temperature_c: [heat_scale_c.low, heat_scale_c.high],
  oxygen_share: [0, 0.21],
  moisture_wet: [0, 1],
};

/** Values written beside the key. */
export const ticks: Record<FieldName, readonly number[]> = {
  temperature_c: [0, 20, 40, 55, 70, 85],
  oxygen_share: [0, 0.05, 0.1, 0.15, 0.21],
  moisture_wet: [0, 0.25, 0.4, 0.55, 0.7, 1],
};

/** The one colour of a value, red, green and blue 0..255. */
export function fieldColour(field: FieldName, value: number): [number, number, number] {
  if (field === "temperature_c") return heatColour(value);
  if (field === "moisture_wet") return moistureColour(value);
  const [low, high] = scales.oxygen_share;
  return mapColour("viridis", (value - low) / (high - low));
}

function toSi(heap: Heap, field: FieldName, byte: number): number {
  const about = heap.mesh.fields.find((one) => one.name === field)!;
  return about.low + (byte / 255) * (about.high - about.low);
}

/** Value of a node on the shown day. */
export function valueAt(shown: Shown, node: number): number {
  const { heap, field, day } = shown;
  return toSi(heap, field, heap.bytes.get(field)![day * heap.points * heap.levels + node]!);
}

export interface Extreme {
  value: number;
  height_m: number;
  from_middle_m: number;
}

/** The lowest and the highest place of the shown day. */
export function extremes(shown: Shown): { low: Extreme; high: Extreme } {
  const { heap, day } = shown;
  let [lowest, highest] = [0, 0];
  const count = heap.points * heap.levels;
  const bytes = heap.bytes.get(shown.field)!;
  const from = day * count;
  for (let node = 1; node < count; ++node) {
    if (bytes[from + node]! < bytes[from + lowest]!) lowest = node;
    if (bytes[from + node]! > bytes[from + highest]!) highest = node;
  }
  const place = (node: number): Extreme => {
    const [x = 0, y = 0] = heap.mesh.points_m[node % heap.points]!;
    return {
      value: valueAt(shown, node),
      height_m: heap.mesh.levels_m[day]![Math.floor(node / heap.points)]!,
      from_middle_m: Math.hypot(x, y),
    };
  };
  return { low: place(lowest), high: place(highest) };
}

/** A probe: where it stands, what it read, and what the forecast has there on the shown day. */
export interface Probe {
  words: string;
  x_m: number;
  y_m: number;
  height_m: number;
  celsius: number;
}

/** Where a reading's probe stands: by its numbers, else where such a place is in a vessel. */
export function probeOf(reading: Reading, width_m: number, height_m: number): Probe {
  const { x, y } = placeIn(reading, width_m, height_m);
  const angle = reading.angle_rad ?? 0;
  const radius_m = reading.radius_m;
  const x_m = radius_m === undefined ? x : radius_m * Math.cos(angle);
  const y_m = radius_m === undefined ? 0 : radius_m * Math.sin(angle);
  return { words: reading.place_words ?? reading.place ?? "", x_m, y_m, height_m: y, celsius: reading.value };
}

/** The forecast's value at the node nearest to a place. */
export function valueNear(shown: Shown, x_m: number, y_m: number, height_m: number): number {
  const { heap, day } = shown;
  const levels = heap.mesh.levels_m[day]!;
  const nearest = (count: number, far: (i: number) => number): number => {
    let best = 0;
    for (let i = 1; i < count; ++i) if (far(i) < far(best)) best = i;
    return best;
  };
  const point = nearest(heap.points, (i) =>
    Math.hypot(heap.mesh.points_m[i]![0]! - x_m, heap.mesh.points_m[i]![1]! - y_m),
  );
  const level = nearest(levels.length, (i) => Math.abs(levels[i]! - height_m));
  return valueAt(shown, level * heap.points + point);
}
