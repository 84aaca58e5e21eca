import type { Due, Glance, Site } from "../api/client";
import { newId, note } from "../queue/queue";
import { coreReading, designOf, initials, keep, theSite, theYard } from "../state";
import { css, inkOn, mapColour } from "../ui/colour";
import { field, h } from "../ui/dom";
import { planFigure } from "../ui/plan-figure";
import { say, sayError } from "../ui/say";
import { show } from "../units/units";
import { ago, daysBetween } from "../units/when";

/** Shares of the colour map from 0 to 80 degC. */
const heat = (celsius: number): [number, number, number] => mapColour("inferno", celsius / 80);

/** In words what a temperature means for the hand that reads it; the limits are those of the records' rules. */
export function heatWord(celsius: number): string {
  if (celsius >= 70) return "very hot: watch for fire";
  if (celsius >= 55) return "hot";
  if (celsius >= (80 - 32) / 1.8) return "warm";
  return "cool";
}

function dueList(due: Due[], site: Site): HTMLElement {
  const list = h("ul", { class: "due" });
  for (const one of due) {
    const vessel = one.vessel || site.name;
    list.append(
      h("li", {}, h("strong", {}, `${vessel}: ${one.what}`), h("span", { class: "why" }, `${one.why}; since ${ago(one.since_s)}`)),
    );
  }
  return h("section", { "aria-labelledby": "due-title" }, h("h2", { id: "due-title" }, due.length ? "Due now" : "Nothing is due"), list);
}

function cardState(glance: Glance): string {
  if (!glance.fill) return "empty";
  const day = Math.floor(daysBetween(glance.fill.filled_s, Date.now() / 1000));
  return `${glance.fill.batch}, day ${Math.max(day, 0)}`;
}

function lastLine(glance: Glance): string {
  if (!glance.fill) return "Not filled";
  const core = coreReading(glance);
  if (!core) return "No reading yet";
  return `${heatWord(core.value)}; ${core.place || "place not noted"}, ${core.unsent ? "in the phone, not sent yet" : ago(core.at_s)}`;
}

function card(glance: Glance, site: Site): HTMLElement {
  const core = glance.fill ? coreReading(glance) : undefined;
  const colour = core ? heat(core.value) : null;
  const name = glance.vessel.name;
  const figure = h("div", { class: "figure" }, planFigure(designOf(site, glance), colour && css(colour)));
  const number = h("div", { class: "number" }, core ? show("temperature", core.value) : "—");
  if (colour) number.style.setProperty("--ink-on", inkOn(colour));
  if (core) number.classList.add("on-colour");
  figure.append(number);
  return h(
    "li",
    { class: "card" },
    h("a", { href: `#/vessel/${glance.vessel.id}`, class: "card-main" }, figure, h("div", {}, h("h3", {}, name), h("p", { class: "state" }, cardState(glance)), h("p", {}, lastLine(glance)))),
    glance.fill
      ? h("a", { class: "big", href: `#/note/${glance.vessel.id}`, "aria-label": `Note a reading of ${name}` }, "Note a reading")
      : h("a", { class: "big quiet", href: `#/fill/${glance.vessel.id}`, "aria-label": `Note the filling of ${name}` }, "Note its filling"),
  );
}

async function setUp(site: Site, redraw: () => void): Promise<void> {
  const now_s = Math.floor(Date.now() / 1000);
  const entries = site.designs.flatMap((design) =>
    Array.from({ length: Math.max(1, design.count) }, (_, i) => ({
      kind_of_entry: "vessel" as const,
      id: newId(),
      by: initials(),
      noted_at_s: now_s,
      name: design.count > 1 || site.designs.length > 1 ? `${design.name} ${i + 1}` : design.name,
      design: design.name,
    })),
  );
  const sent = await note(...entries);
  say(sent ? `${entries.length} vessels noted` : "Kept in this phone; it is sent when the server is in reach.");
  redraw();
}

function emptyYard(site: Site, redraw: () => void): HTMLElement {
  const count = site.designs.reduce((sum, one) => sum + Math.max(1, one.count), 0);
  const who = h("input", { value: initials(), maxlength: 8, required: true, autocapitalize: "characters", autocomplete: "off" });
  const begin = (event: Event): void => {
    event.preventDefault();
    keep("initials", who.value.trim());
    void setUp(site, redraw).catch(sayError);
  };
  return h(
    "section",
    { class: "empty" },
    h("h2", {}, "No vessel is in the records yet"),
    h("p", {}, `The site file names ${count}. Take them into the records to begin, or look at the plan first.`),
    h("form", { submit: begin }, field("Your initials", who, "They stand beside everything you note, and stay in this phone."), h("button", { class: "big" }, `Take in ${count} vessels`)),
  );
}

/** The yard at a glance. */
export async function yardView(redraw: () => void): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  document.title = site.name;
  const cards = h("ul", { class: "cards" });
  for (const one of yard.vessels) cards.append(card(one, site));
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, site.name),
    yard.vessels.length ? dueList(yard.due, site) : null,
    yard.vessels.length ? h("section", { "aria-labelledby": "vessels-title" }, h("h2", { id: "vessels-title" }, "Vessels"), cards) : emptyYard(site, redraw),
  );
}
