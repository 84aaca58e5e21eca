import type { Glance, Measure, Reading, Site } from "../api/client";
import { type Entry, newId } from "../queue/queue";
import { initials, keep } from "../state";
import { cautionText } from "../ui/cautions";
import { button, field, h } from "../ui/dom";
import { say } from "../ui/say";
import { kindOf, show, unit } from "../units/units";
import { ago } from "../units/when";
import { placeWords, t } from "../words/words";
import { type Finding, judge } from "./check";

interface Ladder {
  /** between two buttons, as shown */
  step: number;
  /** of the first reading, as shown; a fresh heap is warm, moist and airy */
  start: number;
}

/** One button a step around the last reading. Steps are chosen: what a probe in the yard can tell apart. */
function ladderOf(measure: Measure): Ladder {
  const us = unit("temperature").sign === "°F";
  const ladders: Record<Measure, Ladder> = {
    temperature: us ? { step: 2, start: 130 } : { step: 1, start: 55 },
    moisture: { step: 2, start: 60 },
    oxygen: { step: 1, start: 12 },
    carbon_dioxide: { step: 1, start: 8 },
    conductivity: { step: 0.2, start: 2 },
    acidity: { step: 0.2, start: 7 },
  };
  return ladders[measure];
}

/** How many values are offered: three or five in a row, each larger than a gloved thumb, and Save and what leads on in
 *  sight below them. Chosen. */
const rungCount = (): number => {
  if (window.innerHeight < low_px) return window.innerHeight < lowest_px ? 6 : 9;
  return window.innerWidth < 600 ? 12 : 15;
};
const low_px = 780;
const lowest_px = 620;
const scalds_c = 45; // chosen: below it a hand pulls back in time
export const usual_places = ["core", "top", "side", "base"];

/** What is being noted. Values are as shown until they are saved. */
export interface Draft {
  measure: Measure;
  place: string;
  value: number | null;
  middle: number; // of the ladder
  /** the value that was asked back and said to be right */
  sure: number | null;
}

export function lastOf(glance: Glance, measure: Measure, place: string): Reading | undefined {
  return glance.last_readings.find((one) => one.measure === measure && (one.place ?? "") === place);
}

export function draftOf(glance: Glance, measure: Measure, place: string): Draft {
  const last = lastOf(glance, measure, place) ?? glance.last_readings.find((one) => one.measure === measure);
  const { step, start } = ladderOf(measure);
  const value = last ? unit(kindOf(measure)).fromSi(last.value) : start;
  return { measure, place, value: null, middle: Math.round(value / step) * step, sure: null };
}

interface Asked {
  glance: Glance;
  site: Site;
  draft: Draft;
  /** called once with what is to be kept */
  saved: (entry: Entry, words: string) => void;
  /** what stands above the ladder, as a round's progress */
  above?: (HTMLElement | string)[];
  /** below Save */
  below?: (HTMLElement | string)[];
  /** an entry that is corrected before it is sent: it keeps its id and moment */
  mended?: Entry;
  /** whether place and measure can be chosen; a round sets them */
  fixed?: boolean;
}

const shownValue = (draft: Draft): string =>
  show(kindOf(draft.measure), unit(kindOf(draft.measure)).toSi(draft.value!));

function chips(
  words: string,
  key: string,
  names: [string, string][],
  chosen: string,
  pick: (name: string) => void,
): HTMLElement {
  const row = h("div", { class: "chips", role: "group", "aria-label": words });
  for (const [name, shown] of names) {
    const one = button(shown, () => pick(name), "chip");
    one.dataset["key"] = `${key}:${name}`;
    one.setAttribute("aria-pressed", String(name === chosen));
    row.append(one);
  }
  return row;
}

function ladder(draft: Draft, change: (part: Partial<Draft>) => void): HTMLElement {
  const { step } = ladderOf(draft.measure);
  const { digits, sign } = unit(kindOf(draft.measure));
  const grid = h("div", { class: "ladder", role: "group", "aria-label": t.reading.valueIn(sign) });
  const rungs = rungCount();
  for (let i = 0; i < rungs; ++i) {
    const value = draft.middle + (i - Math.floor(rungs / 2)) * step;
    const one = button(value.toFixed(digits), () => change({ value }), "rung");
    one.dataset["key"] = `rung:${i}`;
    one.setAttribute("aria-pressed", String(draft.value !== null && Math.abs(draft.value - value) < step / 2));
    grid.append(one);
  }
  return grid;
}

function shifts(draft: Draft, change: (part: Partial<Draft>) => void): HTMLElement {
  const far = ladderOf(draft.measure).step * rungCount();
  const typed = h("input", {
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    maxlength: 8,
    value: draft.value ?? "",
    "data-key": "typed",
  });
  typed.addEventListener("input", () => {
    const text = typed.value.trim().replace(",", ".");
    change({ value: text === "" ? null : Number(text) });
  });
  const lower = button(t.reading.lower, () => change({ middle: draft.middle - far }));
  const higher = button(t.reading.higher, () => change({ middle: draft.middle + far }));
  lower.dataset["key"] = "lower";
  higher.dataset["key"] = "higher";
  return h("div", { class: "shifts" }, lower, field(t.reading.type, typed), higher);
}

function entryOf({ glance, draft, mended }: Asked): Entry {
  const { toSi, sign } = unit(kindOf(draft.measure));
  const now_s = Math.floor(Date.now() / 1000);
  const told = {
    measure: draft.measure,
    place: draft.place || undefined,
    value: toSi(draft.value!),
    written: sign === "pH" ? String(draft.value) : `${draft.value} ${sign.replace("°", "deg")}`,
    by: initials(),
  };
  const sure = draft.sure === draft.value ? { sure: true } : {};
  if (mended) return { ...mended, ...told, ...sure };
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return {
    kind_of_entry: "reading",
    id: newId(),
    fill: glance.fill!.thing ?? glance.fill!.id,
    ...told,
    ...sure,
    at_s: now_s,
    noted_at_s: now_s,
    zone,
  };
}

function find({ glance, site, draft }: Asked): Finding | "no number" {
  if (!Number.isFinite(draft.value!)) return "no number";
  const si = unit(kindOf(draft.measure)).toSi(draft.value!);
  return judge(draft.measure, si, site.measures, lastOf(glance, draft.measure, draft.place), Date.now() / 1000);
}

/** What stands in Save's place when the value is impossible. */
function refusal(asked: Asked, finding: Finding | "no number"): HTMLElement | null {
  if (finding === "no number") return h("p", { class: "wrong answerback", role: "alert" }, t.reading.noNumber);
  if (finding.kind !== "outside") return null;
  const kind = kindOf(asked.draft.measure);
  return h(
    "p",
    { class: "wrong answerback", role: "alert" },
    t.reading.outside(shownValue(asked.draft), show(kind, finding.least), show(kind, finding.most)),
  );
}

/** Asks back where a slip is likelier than the value. */
function question(asked: Asked, because: string, go: () => void, redraw: () => void): HTMLElement {
  const { draft, glance } = asked;
  const last = lastOf(glance, draft.measure, draft.place);
  const yes = button(t.reading.sureYes(shownValue(draft)), () => ((draft.sure = draft.value), go()), "big");
  const no = button(t.reading.sureNo, () => ((draft.value = null), redraw()), "big quiet");
  return h(
    "div",
    { class: "answerback", role: "alert" },
    h("p", { class: "now" }, t.reading.sure(shownValue(draft))),
    because === "step" && last ? h("p", {}, t.reading.sureLast(show(kindOf(draft.measure), last.value))) : null,
    because === "high" ? h("p", {}, t.reading.sureHigh) : null,
    h("div", { class: "pair" }, no, yes),
  );
}

/** What can hurt at a hot heap stands above the value, in one line; the rest of it below. */
function hazard({ glance, site }: Asked): HTMLElement[] {
  const temperatures = glance.last_readings.filter((one) => one.measure === "temperature").map((one) => one.value);
  const first = site.cautions.find((one) => one.work === "hot phase");
  const cool = temperatures.length > 0 && Math.max(...temperatures) < scalds_c;
  return first && !cool ? [h("p", { class: "hazard" }, ...cautionText(first.text))] : [];
}

/** Save stays in sight on a low screen, unless the text is set so large that it would cover what it saves. */
function pin(saver: HTMLElement, asks: boolean): void {
  const most = asks ? 0.6 : 0.25; // chosen: of the screen's height
  saver.classList.toggle("pinned", window.innerHeight < low_px && saver.offsetHeight < most * window.innerHeight);
}

/** The value and Save; place and measure where they are not set. What is saved went through the server's ranges. */
export function readingForm(asked: Asked): HTMLElement {
  const root = h("div", { class: "reading" });
  const saver = h("div", { class: "saver" });
  let over = false;
  let asking: string | null = null;
  const { glance, site, draft } = asked;
  const go = (): void => {
    if (over || draft.value === null) return;
    if (!initials()) return void say(t.kept.initialsFirst, { bad: true });
    const finding = find(asked);
    if (finding === "no number" || finding.kind === "outside") return drawSaver();
    if (finding.kind === "sure" && draft.sure !== draft.value) {
      asking = finding.because;
      return drawSaver();
    }
    over = true; // a second tap saves nothing
    asked.saved(
      entryOf(asked),
      `${glance.vessel.name}, ${placeWords(draft.place) || t.reading.placeUnknown}: ${shownValue(draft)}`,
    );
  };
  const drawSaver = (): void => {
    const wrong = draft.value === null ? null : refusal(asked, find(asked));
    const words =
      draft.value === null || wrong
        ? t.reading.choose
        : t.reading.save(shownValue(draft), placeWords(draft.place) || t.reading.placeUnknown);
    const save = button(words, go, "big save");
    save.disabled = draft.value === null || wrong !== null;
    saver.replaceChildren(...(asking && !wrong ? [question(asked, asking, go, draw)] : [wrong ?? "", save]));
    requestAnimationFrame(() => pin(saver, Boolean(asking)));
  };
  const change = (part: Partial<Draft>): void => {
    Object.assign(draft, part, { sure: null });
    asking = null;
    if ("middle" in part) return draw();
    for (const one of root.querySelectorAll<HTMLElement>(".rung"))
      one.setAttribute(
        "aria-pressed",
        String(draft.value !== null && one.textContent === draft.value.toFixed(unit(kindOf(draft.measure)).digits)),
      );
    const typed = root.querySelector<HTMLInputElement>("[data-key=typed]");
    if (typed && document.activeElement !== typed) typed.value = String(draft.value ?? "");
    drawSaver();
  };
  const choose = (part: Partial<Draft>): void => {
    Object.assign(draft, draftOf(glance, part.measure ?? draft.measure, part.place ?? draft.place));
    asking = null;
    draw();
  };
  function draw(): void {
    const key = (document.activeElement as HTMLElement | null)?.dataset["key"];
    const last = lastOf(glance, draft.measure, draft.place);
    const who = h("input", {
      value: initials(),
      maxlength: 8,
      autocapitalize: "characters",
      autocomplete: "off",
      change: () => keep("initials", who.value.trim()),
    });
    const known = [
      ...new Set(
        [...usual_places, ...glance.last_readings.map((one) => one.place ?? "").filter(Boolean), draft.place].filter(
          Boolean,
        ),
      ),
    ];
    const other = h("input", {
      maxlength: 60,
      autocomplete: "off",
      "data-key": "place",
      change: () => other.value.trim() && choose({ place: other.value.trim() }),
    });
    drawSaver();
    root.replaceChildren(
      ...(asked.above ?? []),
      ...hazard(asked),
      h(
        "p",
        { class: "why" },
        last
          ? t.reading.last(
              show(kindOf(last.measure), last.value),
              placeWords(last.place ?? "") || t.reading.placeUnknown,
              ago(last.at_s),
            )
          : t.reading.none,
      ),
      initials() ? "" : field(t.yard.initials, who, t.reading.initialsHint),
      h(
        "form",
        { submit: (event) => (event.preventDefault(), go()) },
        ladder(draft, change),
        // on a low screen Save comes first: what it needs is one of the values above
        ...(window.innerHeight < low_px ? [saver, shifts(draft, change)] : [shifts(draft, change), saver]),
      ),
      ...(asked.below ?? []),
      ...(asked.fixed
        ? []
        : [
            h("h2", {}, t.reading.headPlace),
            chips(
              t.reading.placeOf,
              "place",
              known.map((one) => [one, placeWords(one)]),
              draft.place,
              (place) => choose({ place }),
            ),
            h("details", {}, h("summary", {}, t.reading.otherPlace), field(t.reading.otherPlace, other)),
            h("h2", {}, t.reading.headWhat),
            chips(
              t.reading.whatOf,
              "what",
              site.measures.map((one) => [one.key, t.measure[one.key]]),
              draft.measure,
              (measure) => choose({ measure: measure as Measure }),
            ),
          ]),
    );
    if (key) root.querySelector<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)?.focus();
  }
  draw();
  return root;
}
