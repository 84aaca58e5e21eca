import { get, type Glance, type Site, type Task, type Today } from "../api/client";
import { newId, note } from "../queue/queue";
import { coreReading, designOf, initials, keep, theSite, theYard } from "../state";
import { css, mapColour } from "../ui/colour";
import { field, h } from "../ui/dom";
import { storeLine } from "../store/store";
import { planFigure } from "../ui/plan-figure";
import { say, sayError } from "../ui/say";
import { currentSystem, show, typeset } from "../units/units";
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

const weightWords: Record<Task["weight"], string> = { danger: "Danger", warning: "Warning", due: "Due", note: "Note" };

/** One thing to do, with the reading and the rule behind it. */
function taskItem(one: Task, site: Site): HTMLElement {
  const where = one.vessel || site.name;
  const behind = [one.rule && `Rule: ${one.rule} (${one.source}).`, one.caution && `Caution: ${one.caution}`].filter(Boolean).join(" ");
  return h(
    "li",
    { class: one.weight === "due" ? "due-work" : one.weight },
    h("strong", {}, typeset(`${weightWords[one.weight]}: ${where}, ${one.what}`)),
    h("span", { class: "why" }, typeset(`${one.why.charAt(0).toUpperCase()}${one.why.slice(1).replace(/\.?$/, ".")} Since ${ago(Date.parse(one.since) / 1000)}. ${behind}`)),
  );
}

function taskList(tasks: Task[], site: Site): HTMLElement {
  const list = h("ul", { class: "due" });
  for (const one of tasks) list.append(taskItem(one, site));
  return h("section", { "aria-labelledby": "due-title" }, h("h2", { id: "due-title" }, tasks.length ? "To do today" : "Nothing is due"), list);
}

function cardState(glance: Glance, today: Today): string {
  if (!glance.fill) return "empty";
  const fill = glance.fill.thing ?? glance.fill.id;
  const phase = today.phases.find((one) => one.fill === fill)?.phase;
  const day = Math.floor(daysBetween(glance.fill.filled_s, Date.now() / 1000));
  return `${glance.fill.batch}, day ${Math.max(day, 0)}${phase && phase !== "unknown" ? `, ${phase}` : ""}`;
}

function lastLine(glance: Glance): string {
  if (!glance.fill) return "Not filled";
  const core = coreReading(glance);
  if (!core) return "No reading yet";
  return `${heatWord(core.value)}; ${core.place || "place not noted"}, ${core.unsent ? "in the phone, not sent yet" : ago(core.at_s)}`;
}

function card(glance: Glance, site: Site, today: Today): HTMLElement {
  const core = glance.fill ? coreReading(glance) : undefined;
  const colour = core ? heat(core.value) : null;
  const name = glance.vessel.name;
  const figure = h("div", { class: "figure" }, planFigure(designOf(site, glance), colour && css(colour)));
  if (core) figure.append(h("div", { class: "number" }, show("temperature", core.value)));
  return h(
    "li",
    { class: "card" },
    h("a", { href: `#/vessel/${glance.vessel.id}`, class: "card-main" }, figure, h("div", {}, h("h3", {}, name), h("p", { class: "state" }, cardState(glance, today)), h("p", {}, lastLine(glance)))),
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
  const nothing: Today = { tasks: [], phases: [] };
  const [site, yard, today] = await Promise.all([theSite(), theYard(), get<Today>(`/api/today?units=${currentSystem()}`).catch(() => nothing)]);
  document.title = site.name;
  const cards = h("ul", { class: "cards" });
  for (const one of yard.vessels) cards.append(card(one, site, today));
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, site.name),
    yard.vessels.length ? taskList(today.tasks, site) : null,
    yard.vessels.length ? h("section", { "aria-labelledby": "vessels-title" }, h("h2", { id: "vessels-title" }, "Vessels"), cards) : emptyYard(site, redraw),
    yard.vessels.length ? h("p", { class: "files" }, h("a", { class: "button", href: "#/intake/" }, "Take in a logger's file"), h("a", { class: "button", href: "/api/calendar.ics", download: "yard.ics" }, "What is due, for a calendar")) : null,
    storeLine(),
  );
}
