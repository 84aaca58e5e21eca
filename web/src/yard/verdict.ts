import type { Glance, Reading, Task, Today } from "../api/client";
import { heatLimits } from "../ui/heat";
import { byName } from "../ui/order";

export type Level = "danger" | "warning" | "unread" | "fine" | "empty";
/** Most pressing first. */
export const levels: readonly Level[] = ["danger", "warning", "unread", "fine", "empty"];

/** A reading that is still on the phone has no statement of the server's yet. */
export type SeenGlance = Omit<Glance, "last_readings"> & { last_readings: (Reading & { unsent?: boolean })[] };

export interface Standing {
  glance: SeenGlance;
  level: Level;
  /** the statement that makes it so; of a reading on the phone there is only the rule's id */
  cause: { id: string; act: string; unsent: boolean } | null;
}

const day_s = 86400;
const late_days = 2; // chosen: a reading due since then says nothing about today

export const fillOf = (glance: Pick<Glance, "fill">): string => glance.fill?.thing ?? glance.fill?.id ?? "";

/** "Read again today. Then daily." -> "Read again today." */
export const firstSentence = (text: string): string => /^.*?[.;](?=\s|$)/.exec(text)?.[0].replace(/;$/, ".") ?? text;

const temperatures = (glance: SeenGlance): SeenGlance["last_readings"] =>
  glance.last_readings.filter((one) => one.measure === "temperature");

/** The hottest reading that waits on the phone, judged by the same limits until the server has it. */
function unsentHeat(glance: SeenGlance): "fire-risk" | "too-hot" | null {
  const hottest = Math.max(
    -300,
    ...temperatures(glance)
      .filter((one) => one.unsent)
      .map((one) => one.value),
  );
  if (hottest >= heatLimits().fire) return "fire-risk";
  return hottest >= heatLimits().too_hot ? "too-hot" : null;
}

/** Rules in the order of what can hurt: heat, then air, then water. Rules not named here come after these. */
const pressing_order = ["fire-risk", "too-hot", "oxygen-low", "channel-blocked", "dry", "soaked"];
export const pressing = (id: string): number =>
  pressing_order.includes(id) ? pressing_order.indexOf(id) : pressing_order.length;

function standingOf(glance: SeenGlance, tasks: readonly Task[], known: boolean, now_s: number): Standing {
  if (!glance.fill) return { glance, level: "empty", cause: null };
  const mine = tasks.filter((one) => one.fill === fillOf(glance)).sort((a, b) => pressing(a.id) - pressing(b.id));
  const heat = unsentHeat(glance);
  const danger = mine.find((one) => one.weight === "danger");
  if (danger)
    return { glance, level: "danger", cause: { id: danger.id, act: firstSentence(danger.what), unsent: false } };
  if (heat === "fire-risk") return { glance, level: "danger", cause: { id: heat, act: "", unsent: true } };
  const warning = mine.find((one) => one.weight === "warning");
  if (warning)
    return { glance, level: "warning", cause: { id: warning.id, act: firstSentence(warning.what), unsent: false } };
  if (heat) return { glance, level: "warning", cause: { id: heat, act: "", unsent: true } };
  const reading = mine.find((one) => one.id === "due-reading");
  const late = reading !== undefined && now_s - Date.parse(reading.since) / 1000 > late_days * day_s;
  const fresh = temperatures(glance).some((one) => one.unsent);
  if (!known || (!fresh && (late || !temperatures(glance).length))) return { glance, level: "unread", cause: null };
  return { glance, level: "fine", cause: null };
}

/** How each vessel stands, the most dangerous first, then by name. A vessel is fine only when it was read. */
export function standings(vessels: readonly SeenGlance[], today: Today | null, now_s: number): Standing[] {
  const all = vessels.map((glance) => standingOf(glance, today?.tasks ?? [], today !== null, now_s));
  return all.sort(
    (a, b) =>
      levels.indexOf(a.level) - levels.indexOf(b.level) ||
      pressing(a.cause?.id ?? "") - pressing(b.cause?.id ?? "") ||
      byName(a.glance.vessel.name, b.glance.vessel.name),
  );
}

export const countOf = (all: readonly Standing[], level: Level): number =>
  all.filter((one) => one.level === level).length;
