import type { Site } from "../api/client";
import { typeset } from "../units/units";
import { cautionWords, t } from "../words/words";
import { h } from "./dom";

export type Work = "building" | "filling" | "hot phase" | "watering" | "winter" | "harvest" | "spreading";

const open_ones = 2; // chosen: what can hurt at once is read without a tap; a page of cautions is read by nobody

/** A caution in the shown language. Until a native maker has read the translation the English one stands behind it. */
export function cautionText(english: string): (HTMLElement | string)[] {
  const words = cautionWords(english);
  return words ? [words, " ", h("small", { lang: "en" }, typeset(english))] : [typeset(english)];
}

/** The cautions that belong to a piece of work, shown where it is done: the first in the open, the others and all
 *  sources behind a fold. They defer to local codes. */
export function cautionBox(site: Site, ...works: Work[]): HTMLElement {
  const mine = site.cautions.filter((one) => works.includes(one.work as Work));
  if (!mine.length) return h("div", { hidden: true });
  const more = h("ul");
  for (const one of mine) more.append(h("li", {}, ...cautionText(one.text), " ", h("small", {}, `(${one.source})`)));
  return h(
    "aside",
    { class: "caution", "aria-label": t.task.caution },
    ...mine.slice(0, open_ones).map((one) => h("p", {}, ...cautionText(one.text))),
    h("details", {}, h("summary", {}, t.cautions.all(mine.length)), more),
  );
}
