import type { Glance, Measure, Reading, Site } from "../api/client";
import { newId, note } from "../queue/queue";
import { initials, keep, keepPlace, lastPlace, theSite, theYard } from "../state";
import { cautionBox } from "../ui/cautions";
import { button, field, h } from "../ui/dom";
import { say, sayError } from "../ui/say";
import { kindOf, measureWords, show, unit } from "../units/units";
import { ago } from "../units/when";

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

const rungs = 15; // chosen: three or five in a row, each larger than a gloved thumb

interface Form {
  measure: Measure;
  place: string;
  value: number | null; // as shown
  middle: number; // of the ladder
}

function lastOf(glance: Glance, measure: Measure, place: string): Reading | undefined {
  const all = glance.last_readings.filter((one) => one.measure === measure);
  return all.find((one) => one.place === place) ?? all[0];
}

function middleFor(glance: Glance, measure: Measure, place: string): number {
  const last = lastOf(glance, measure, place);
  const ladder = ladderOf(measure);
  const value = last ? unit(kindOf(measure)).fromSi(last.value) : ladder.start;
  return Math.round(value / ladder.step) * ladder.step;
}

const places = ["core", "top", "side", "base"];

function chips(words: string, names: [string, string][], chosen: string, pick: (name: string) => void): HTMLElement {
  const row = h("div", { class: "chips", role: "group", "aria-label": words });
  for (const [name, shown] of names) {
    const one = button(shown, () => pick(name), "chip");
    one.setAttribute("aria-pressed", String(name === chosen));
    row.append(one);
  }
  return row;
}

function ladder(form: Form, redraw: () => void): HTMLElement {
  const { step } = ladderOf(form.measure);
  const { digits, sign } = unit(kindOf(form.measure));
  const grid = h("div", { class: "ladder", role: "group", "aria-label": `Value in ${sign}` });
  for (let i = 0; i < rungs; ++i) {
    const value = form.middle + (i - Math.floor(rungs / 2)) * step;
    const one = button(value.toFixed(digits), () => ((form.value = value), redraw()), "rung");
    one.setAttribute("aria-pressed", String(form.value !== null && Math.abs(form.value - value) < step / 2));
    grid.append(one);
  }
  return grid;
}

function shifts(form: Form, redraw: () => void): HTMLElement {
  const far = ladderOf(form.measure).step * rungs;
  const move = (by: number) => (): void => {
    form.middle += by;
    redraw();
  };
  const typed = h("input", {
    type: "number",
    inputmode: "decimal",
    step: "any",
    value: form.value ?? "",
    change: () => {
      form.value = typed.value === "" ? null : Number(typed.value);
      if (form.value !== null) form.middle = form.value;
      redraw();
    },
  });
  return h("div", { class: "shifts" }, button("Lower", move(-far)), field("Or type it", typed), button("Higher", move(far)));
}

function entryOf(glance: Glance, form: Form): Parameters<typeof note>[0] {
  const { toSi, sign } = unit(kindOf(form.measure));
  const now_s = Math.floor(Date.now() / 1000);
  return {
    kind_of_entry: "reading",
    id: newId(),
    fill: glance.fill!.id,
    measure: form.measure,
    place: form.place,
    value: toSi(form.value!),
    written: sign === "pH" ? String(form.value) : `${form.value} ${sign.replace("°", "deg")}`,
    at_s: now_s,
    noted_at_s: now_s,
    by: initials(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
  };
}

async function save(glance: Glance, form: Form): Promise<void> {
  if (form.value === null) return say("Choose a value first", true);
  if (!initials()) return say("Give your initials first; they stay in this phone", true);
  keepPlace(glance.vessel.id, form.place);
  const words = `${glance.vessel.name}, ${form.place}: ${show(kindOf(form.measure), unit(kindOf(form.measure)).toSi(form.value))}`;
  const sent = await note(entryOf(glance, form));
  location.hash = "#/yard";
  say(sent ? `${words}. Noted.` : `${words}. Kept in this phone; it is sent when the server is in reach.`);
}

function draw(root: HTMLElement, glance: Glance, site: Site, form: Form): void {
  const redraw = (): void => draw(root, glance, site, form);
  const change = (part: Partial<Form>): void => {
    Object.assign(form, part, { value: null });
    form.middle = middleFor(glance, form.measure, form.place);
    redraw();
  };
  const last = lastOf(glance, form.measure, form.place);
  const known = new Set([...places, ...glance.last_readings.map((one) => one.place ?? "").filter(Boolean)]);
  const who = h("input", { value: initials(), maxlength: 8, autocapitalize: "characters", autocomplete: "off", change: () => keep("initials", who.value.trim()) });
  const words = form.value === null ? "Choose a value" : `Save ${show(kindOf(form.measure), unit(kindOf(form.measure)).toSi(form.value))}, ${form.place}`;
  const saver = button(words, () => void save(glance, form).catch(sayError), "big save");
  saver.disabled = form.value === null;
  const focused = document.activeElement?.textContent;
  root.replaceChildren(
    h("h1", {}, `${glance.vessel.name}: ${measureWords[form.measure].toLowerCase()}`),
    h("p", { class: "why" }, last ? `Last: ${show(kindOf(last.measure), last.value)}, ${last.place || "place not noted"}, ${ago(last.at_s)}` : "No such reading yet"),
    initials() ? "" : field("Your initials", who, "Asked once; they stay in this phone."),
    ladder(form, redraw),
    shifts(form, redraw),
    saver,
    h("h2", {}, "Place"),
    chips("Place of the probe", [...known].map((one) => [one, one]), form.place, (place) => change({ place })),
    h("h2", {}, "What"),
    chips("What is measured", site.measures.map((one) => [one.key, measureWords[one.key]]), form.measure, (measure) => change({ measure: measure as Measure })),
    cautionBox(site, "hot phase"),
  );
  for (const one of root.querySelectorAll("button")) if (one.textContent === focused) one.focus();
}

/** Entry of a reading: the value and Save, the rest is remembered. */
export async function noteView(vessel: string): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const glance = yard.vessels.find((one) => one.vessel.id === vessel);
  const root = h("main", { id: "main", tabindex: "-1", class: "note" });
  if (!glance?.fill) {
    root.append(h("h1", {}, "This vessel is not filled"), h("a", { href: `#/fill/${vessel}`, class: "big" }, "Note its filling"));
    return root;
  }
  document.title = `Reading: ${glance.vessel.name}`;
  const place = lastPlace(vessel);
  draw(root, glance, site, { measure: "temperature", place, value: null, middle: middleFor(glance, "temperature", place) });
  return root;
}
