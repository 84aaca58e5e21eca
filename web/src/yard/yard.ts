import { type Site, type Today, type Yard, get } from "../api/client";
import { keepAndSend } from "../queue/keep";
import { newId, waiting } from "../queue/queue";
import { beginRound, keptRound } from "../round/round";
import { initials, keep, theSite, theYard } from "../state";
import { storeLine } from "../store/store";
import { button, field, h } from "../ui/dom";
import { sayError } from "../ui/say";
import { stateIcon } from "../ui/state-icon";
import { currentSystem, typeset } from "../units/units";
import { t } from "../words/words";
import { foundWords, vesselList } from "./cards";
import { nextStep, stepLink } from "./next-step";
import { answered } from "./tasks";
import { pressingPart, todayPanel } from "./today";
import { type Standing, countOf, fillOf, standings } from "./verdict";
import { awaitWater } from "./water-wait";

const named = 2; // chosen: more names than that are a list, which stands below

function pressingLine(one: Standing): HTMLElement {
  return h(
    "li",
    { class: one.level },
    stateIcon(one.level),
    h("span", {}, `${one.glance.vessel.name} ${foundWords(one)}`),
  );
}

/** The answer to the one question: is the yard all right? The most dangerous first. */
function verdictPanel(all: readonly Standing[], known: boolean, first: HTMLElement | null): HTMLElement {
  const urgent = all.filter((one) => one.level === "danger" || one.level === "warning");
  const filled = all.length - countOf(all, "empty");
  const fine = countOf(all, "fine");
  const rest: string[] = [];
  if (urgent.length > named) rest.push(t.verdict.others(urgent.length - named));
  if (fine && (fine < filled || urgent.length)) rest.push(t.verdict.fine(fine));
  if (countOf(all, "unread") && known) rest.push(t.verdict.unread(countOf(all, "unread")));
  if (countOf(all, "empty") && filled) rest.push(t.verdict.empty(countOf(all, "empty")));
  const whole = !filled
    ? t.round.headNone
    : !known
      ? t.verdict.unknown
      : fine === filled
        ? t.verdict.allFine(fine)
        : "";
  const level = urgent[0]?.level ?? (whole && fine === filled && filled ? "fine" : filled ? "unread" : "empty");
  return h(
    "section",
    { class: `verdict ${level}`, "aria-labelledby": "verdict-title" },
    h(
      "h1",
      { id: "verdict-title" },
      h("span", { class: "sr" }, `${t.level[level]}. `),
      urgent.length
        ? h("ul", { class: "urgent" }, ...urgent.slice(0, named).map(pressingLine))
        : whole
          ? h("span", { class: "whole" }, stateIcon(level), whole)
          : null,
      rest.length
        ? h("span", { class: "rest" }, urgent.length || whole ? "" : stateIcon(level), rest.join(", "))
        : null,
    ),
    first,
  );
}

function addVessels(site: Site, redraw: () => void): void {
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
  void keepAndSend(t.yard.added(entries.length), entries, redraw).then(redraw).catch(sayError);
}

function emptyYard(site: Site, redraw: () => void): HTMLElement {
  const count = site.designs.reduce((sum, one) => sum + Math.max(1, one.count), 0);
  const who = h("input", {
    value: initials(),
    maxlength: 8,
    required: true,
    autocapitalize: "characters",
    autocomplete: "off",
  });
  let over = false;
  const begin = (event: Event): void => {
    event.preventDefault();
    if (over) return;
    over = true;
    keep("initials", who.value.trim());
    addVessels(site, redraw);
  };
  return h(
    "section",
    { class: "empty" },
    h("h2", {}, t.yard.headNone),
    h("p", {}, t.yard.none(count)),
    h(
      "form",
      { submit: begin },
      field(t.yard.initials, who, t.yard.initialsHint),
      h("button", { class: "big" }, t.yard.add(count)),
    ),
    h("p", {}, h("a", { class: "button", href: "#/table" }, t.linkPlanning)),
  );
}

function roundButton(yard: Yard): HTMLElement | null {
  const filled = yard.vessels.filter((one) => one.fill).length;
  if (!filled) return null;
  const going = keptRound();
  if (going)
    return h("a", { class: "big round-start", href: "#/round" }, t.yard.resume(going.at + 1, going.stops.length));
  return button(t.yard.round(filled), () => beginRound(yard), "big round-start");
}

/** The yard at a glance: the verdict, what to do, the vessels. */
export async function yardView(redraw: () => void): Promise<HTMLElement> {
  const [site, yard, today, unsent] = await Promise.all([
    theSite(),
    theYard(),
    get<Today>(`/api/today?units=${currentSystem()}`).catch(() => null),
    waiting().catch(() => []),
  ]);
  document.title = site.name;
  awaitWater(today, redraw);
  const root = h("main", { id: "main", tabindex: "-1", class: "yard" });
  if (!yard.vessels.length) {
    root.append(h("h1", {}, site.name), emptyYard(site, redraw));
    return root;
  }
  const panel = { site, yard, redraw };
  const step = nextStep(yard.vessels);
  const all = standings(yard.vessels, today, yard.now_s);
  const tasks = (today?.tasks ?? []).filter((one) => !answered(one, unsent));
  // the most pressing task stands with the verdict that names it
  const worst =
    all[0]?.cause && tasks.find((one) => one.fill === fillOf(all[0]!.glance) && one.id === all[0]!.cause!.id);
  const act = worst
    ? h("div", {}, h("p", { class: "verdict-act" }, typeset(all[0]!.cause!.act)), pressingPart(worst, panel))
    : all[0]?.cause?.unsent
      ? h("p", { class: "verdict-act" }, t.verdict.unsent)
      : null;
  root.append(
    h("p", { class: "site-name" }, site.name),
    h(
      "div",
      { class: "lead" },
      verdictPanel(all, today !== null, act),
      step ? stepLink(step) : roundButton(yard),
      today
        ? todayPanel(
            tasks.filter((one) => one !== worst),
            today.water_waits,
            panel,
          )
        : null,
    ),
    h(
      "div",
      { class: "below" },
      vesselList(all, site, today),
      h(
        "p",
        { class: "files" },
        h("a", { class: "button", href: "#/intake/" }, t.yard.loggers),
        h("a", { class: "button", href: "/api/calendar.ics", download: "yard.ics" }, t.yard.calendar),
      ),
      storeLine(),
    ),
  );
  return root;
}
