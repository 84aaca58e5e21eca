import type { EventKind, Measure, Task } from "../api/client";
import type { Waiting } from "../queue/queue";
import { byName } from "../ui/order";
import { pressing } from "./verdict";

/** The same work on several vessels, told once. */
export interface TaskGroup {
  key: string;
  tasks: Task[]; // never empty, in the order of the vessels' names
}

const weights: readonly Task["weight"][] = ["danger", "warning", "due", "note"];

/** What is noted when a task is done; a task without one is answered by a reading. */
const events: Record<string, EventKind> = {
  "due-forms-out": "forms_out",
  "due-sprinkle": "sprinkled",
  "due-planned": "other",
  dry: "sprinkled",
  "channel-blocked": "channel_cleared",
  "ready-worms": "worms_in",
  "ready-harvest": "harvested",
};
const measures: Record<string, Measure> = {
  "due-reading": "temperature",
  "fire-risk": "temperature",
  "too-hot": "temperature",
  "not-heating": "temperature",
  "cooling-fast": "temperature",
  "hot-too-short": "moisture",
  dry: "moisture",
  soaked: "moisture",
  "oxygen-low": "oxygen",
  "channel-blocked": "oxygen",
};

export const eventOf = (task: Task): EventKind | undefined => events[task.id];
export const measureOf = (task: Task): Measure | undefined => measures[task.id];
export const keyOf = (task: Task): string => `${task.id}|${task.fill || task.vessel}|${task.entry}`;

/** Work that ends a batch is asked back. */
export const endsBatch = (kind: EventKind | undefined): boolean => kind === "harvested" || kind === "emptied";

/** Whether what waits on this phone already answers the task. */
export function answered(task: Task, unsent: readonly Waiting[]): boolean {
  return unsent.some(({ entry, refused }) => {
    if (refused || entry["withdrawn"] || entry["fill"] !== task.fill) return false;
    if (entry.kind_of_entry === "event") return entry["kind"] === eventOf(task);
    return entry.kind_of_entry === "reading" && task.id === "due-reading" && entry["measure"] === "temperature";
  });
}

/** Tasks with the same words become one line; dangers and warnings stay one line a vessel. */
export function grouped(tasks: readonly Task[]): TaskGroup[] {
  const groups = new Map<string, TaskGroup>();
  for (const task of tasks) {
    const alone = task.weight === "danger" || task.weight === "warning";
    const key = alone ? keyOf(task) : `${task.id}|${task.what}`;
    const group = groups.get(key) ?? { key, tasks: [] };
    group.tasks.push(task);
    groups.set(key, group);
  }
  for (const one of groups.values()) one.tasks.sort((a, b) => byName(a.vessel, b.vessel));
  return [...groups.values()].sort(
    (a, b) =>
      weights.indexOf(a.tasks[0]!.weight) - weights.indexOf(b.tasks[0]!.weight) ||
      pressing(a.tasks[0]!.id) - pressing(b.tasks[0]!.id),
  );
}
