import type { Site } from "../api/client";
import { h } from "./dom";

export type Work = "building" | "filling" | "hot phase" | "watering" | "winter" | "harvest" | "spreading";

/** The cautions that belong to a piece of work, shown where it is done. They defer to local codes. */
export function cautionBox(site: Site, ...works: Work[]): HTMLElement {
  const mine = site.cautions.filter((one) => works.includes(one.work as Work));
  if (!mine.length) return h("div", { hidden: true });
  const list = h("ul");
  for (const one of mine) list.append(h("li", {}, one.text, " ", h("small", {}, `(${one.source})`)));
  const words = works[0] === "hot phase" ? "Hot heap and spores: before you open it" : works[0] === "watering" ? "Water: before you connect or sprinkle" : `Before ${works[0]}`;
  return h("details", { class: "caution" }, h("summary", {}, words), list);
}
