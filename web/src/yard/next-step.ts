import type { Glance } from "../api/client";
import { h } from "../ui/dom";
import { t } from "../words/words";

/** What leads a new yard on, as one button. */
export interface Step {
  words: string;
  href: string;
}

type Seen = Pick<Glance, "vessel" | "fill" | "last_readings">;

/** From vessels to the first filling to the first reading; nothing once a vessel was read. `vessels`: by name. */
export function nextStep(vessels: readonly Seen[]): Step | null {
  const filled = vessels.filter((one) => one.fill);
  const [first] = filled.length ? filled : vessels;
  if (!first) return { words: t.next.vessels, href: "#/yard" };
  const { id, name } = first.vessel;
  if (!filled.length) return { words: t.next.fill(name), href: `#/fill/${id}` };
  return filled.length > 1 || first.last_readings.length
    ? null
    : { words: t.next.read(name), href: `#/note/${id}/temperature` };
}

export const stepLink = ({ words, href }: Step): HTMLElement => h("a", { class: "big next-step", href }, words);
