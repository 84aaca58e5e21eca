import type { Change, Draft } from "../api/client";
import { button, h } from "../ui/dom";
import { saveCsv } from "../ui/save-file";
import { say } from "../ui/say";
import { show } from "../units/units";
import { mostWater } from "../vessel/cards";
import { t } from "../words/words";
import { sectionOf } from "./bench";

/** Something that was tried and is worth another look. */
export interface Proposal {
  number: number;
  change: Change;
  draft: Draft;
}

export const most_kept = 3; // chosen: more do not stand side by side on a desk

const day = (value: number | null): string => (value === null ? t.table.notWithin : t.yard.day(Math.round(value)));

/** What is compared, a line each. */
const lines: [name: string, value: (one: Draft) => string][] = [
  [
    t.compare.vessel,
    ({ design }) =>
      t.compare.filledTo(
        design.shape === "round"
          ? show("length", design.diameter_m)
          : `${show("length", design.length_m)} × ${show("length", design.width_m)}`,
        show("length", design.fill_height_m),
      ),
  ],
  [t.compare.channels, ({ design }) => String(design.channels.length)],
  [t.compare.path, ({ air_path }) => show("length", air_path.length_m)],
  [t.table.hottest, ({ forecast }) => show("temperature", forecast.summary.peak_temperature_c.middle)],
  [t.table.cool, ({ forecast }) => day(forecast.summary.cool_day.middle)],
  [t.table.soaked, ({ blend }) => show("share", blend.moisture_wet)],
  [t.table.carbon, ({ blend }) => blend.carbon_to_nitrogen?.toFixed(0) ?? "–"],
  [t.compare.volume, ({ blend }) => show("volume", blend.volume_m3)],
  [
    t.compare.hours,
    ({ fill }) => (fill.people_hours === null ? t.notKnown : t.compare.personHours(fill.people_hours.toFixed(1))),
  ],
  [t.compare.water, ({ forecast }) => show("water", mostWater(forecast))],
];

/** Two or three proposals side by side; each can be gone on from, and the table kept as a file. */
export function comparison(kept: Proposal[], goOn: (one: Proposal) => void, changed: () => void): HTMLElement {
  if (!kept.length) return h("div");
  const heads = kept.map((one) =>
    h(
      "th",
      { scope: "col" },
      sectionOf(one.draft),
      t.compare.name(one.number),
      button(t.compare.again, () => (say(t.compare.restored(t.compare.name(one.number))), goOn(one)), "small"),
      button(t.compare.away, () => (kept.splice(kept.indexOf(one), 1), changed()), "small"),
    ),
  );
  const rows = lines.map(([name, value]) =>
    h("tr", {}, h("th", { scope: "row" }, name), ...kept.map((one) => h("td", {}, value(one.draft)))),
  );
  const csv = (): void =>
    saveCsv(t.compare.headCompare, [
      ["", ...kept.map((one) => t.compare.name(one.number))],
      ...lines.map(([name, value]) => [name, ...kept.map((one) => value(one.draft))]),
    ]);
  return h(
    "section",
    { class: "panel compare", "aria-labelledby": "compare-title" },
    h("h2", { id: "compare-title" }, t.compare.headCompare),
    h(
      "div",
      { class: "scrolls", tabindex: "0", role: "group", "aria-labelledby": "compare-title" },
      h("table", {}, h("thead", {}, h("tr", {}, h("td"), ...heads)), h("tbody", {}, ...rows)),
    ),
    h("p", { class: "files" }, button(t.files.csv, csv)),
  );
}
