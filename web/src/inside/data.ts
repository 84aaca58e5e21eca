import { type Inside, get, getBytes } from "../api/client";

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

/** What one picture shows: a field on one day, with the range of its colours. */
export interface Shown {
  heap: Heap;
  field: FieldName;
  day: number; // index
  low: number; // of the colours, in SI
  high: number;
}

const step: Record<FieldName, number> = { temperature_c: 5, oxygen_share: 0.03, moisture_wet: 0.1 };

/** The colours' range: all of the forecast, to the next round number, so that days can be compared. */
export function rangeOf(heap: Heap, field: FieldName): [number, number] {
  const bytes = heap.bytes.get(field)!;
  let [low, high] = [255, 0];
  for (const one of bytes) {
    if (one < low) low = one;
    if (one > high) high = one;
  }
  const size = step[field];
  return [
    Math.floor(toSi(heap, field, low) / size + 1e-6) * size,
    Math.ceil(toSi(heap, field, high) / size - 1e-6) * size,
  ];
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

export const shareOf = (shown: Shown, value: number): number =>
  (value - shown.low) / Math.max(1e-9, shown.high - shown.low);

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
