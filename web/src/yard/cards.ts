import { type Readings, type Site, type Today, get } from "../api/client";
import { coreReading, designOf } from "../state";
import { button, h } from "../ui/dom";
import { heatName } from "../ui/heat";
import { sectionFigure } from "../ui/section-figure";
import { dailyPeaks, sparkline } from "../ui/sparkline";
import { stateIcon } from "../ui/state-icon";
import { show, unit } from "../units/units";
import { ago, daysBetween } from "../units/when";
import { t } from "../words/words";
import { type Level, type Standing, fillOf, levels } from "./verdict";

/** From this number on, a list is easier to look over than pictures. Chosen. */
export const many_vessels = 12;

export const heatWord = (celsius: number): string => t.yard.heat[heatName(celsius)];

export const foundWords = (one: Standing): string =>
  one.cause ? (t.found[one.cause.id] ?? t.needsLook) : t.lower(t.level[one.level]);

function dayAndPhase(one: Standing, today: Today | null): string {
  const fill = one.glance.fill;
  if (!fill) return t.yard.empty;
  const phase = today?.phases.find((other) => other.fill === fillOf(one.glance))?.phase;
  return phase && phase !== "unknown"
    ? (t.phases[phase] ?? phase)
    : t.yard.day(Math.max(0, Math.floor(daysBetween(fill.filled_s, Date.now() / 1000))));
}

/** Degrees of the unit that is chosen; the sentence behind the picture names it. */
const temperature = (one: Standing): string => {
  const core = one.glance.fill && coreReading(one.glance);
  return core ? `${unit("temperature").fromSi(core.value).toFixed(0)}°` : "–";
};

/** The sentence behind a picture, for those who do not see it. */
function spoken(one: Standing): string {
  const core = one.glance.fill && coreReading(one.glance);
  const last = core
    ? `${t.yard.shownAs(show("temperature", core.value))}, ${heatWord(core.value)}, ${ago(core.at_s)}`
    : t.yard.noReading;
  return `${one.glance.vessel.name}: ${foundWords(one)}; ${last}`;
}

/** The way to note something; in the list it is a sign, for words would repeat on every line. */
function act(one: Standing, dense: boolean): HTMLElement {
  const { vessel, fill } = one.glance;
  return fill
    ? h(
        "a",
        { class: "card-act", href: `#/note/${vessel.id}`, "aria-label": t.yard.read(vessel.name) },
        dense ? "+" : t.yard.readShort,
      )
    : h(
        "a",
        { class: "card-act", href: `#/fill/${vessel.id}`, "aria-label": t.yard.fill(vessel.name) },
        t.yard.fillShort,
      );
}

const lines = new Map<string, Readings>();

/** Draws a vessel's month once its card comes into view. */
function lazySpark(fill: string, place: HTMLElement): void {
  const draw = (readings: Readings): void =>
    void place.replaceChildren(sparkline(dailyPeaks(readings, Date.now() / 1000)));
  const known = lines.get(fill);
  if (known) draw(known);
  const watch = new IntersectionObserver((seen) => {
    if (!seen.some((one) => one.isIntersecting)) return;
    watch.disconnect();
    get<Readings>(`/api/fills/${fill}/readings`)
      .then((readings) => (lines.set(fill, readings), draw(readings)))
      .catch(() => undefined);
  });
  watch.observe(place);
}

function card(one: Standing, site: Site, today: Today | null): HTMLElement {
  const { vessel, fill } = one.glance;
  const spark = h("div", { class: "spark-place" });
  if (fill && !fill.id.startsWith("unsent")) lazySpark(fillOf(one.glance), spark);
  return h(
    "li",
    { class: `card ${one.level}` },
    h(
      "a",
      { href: `#/vessel/${vessel.id}`, class: "card-main", "aria-label": spoken(one) },
      h(
        "div",
        { class: "figure" },
        sectionFigure(designOf(site, one.glance), fill ? one.glance.last_readings : null),
        fill ? h("div", { class: "number" }, temperature(one)) : null,
      ),
      h(
        "div",
        { class: "card-words" },
        stateIcon(one.level),
        h("h3", {}, vessel.name),
        h("p", { class: "state" }, one.cause ? foundWords(one) : dayAndPhase(one, today)),
      ),
      spark,
    ),
    act(one, false),
  );
}

function row(one: Standing): HTMLElement {
  const { vessel } = one.glance;
  return h(
    "li",
    { class: `line ${one.level}` },
    h(
      "a",
      { href: `#/vessel/${vessel.id}`, class: "line-main", "aria-label": spoken(one) },
      stateIcon(one.level),
      h("h3", {}, vessel.name),
      h("span", { class: "line-number" }, temperature(one)),
      one.cause ? h("span", { class: "state" }, foundWords(one)) : null,
    ),
    act(one, true),
  );
}

interface Kept {
  dense: boolean | null;
  level: Level | null;
  text: string;
}
const chosen: Kept = { dense: null, level: null, text: "" };

/** All vessels: pictures or a list, the most dangerous first, filtered by state or name. */
export function vesselList(all: readonly Standing[], site: Site, today: Today | null): HTMLElement {
  const place = h("div");
  const dense = (): boolean => chosen.dense ?? all.length > many_vessels;
  const draw = (): void => {
    const wanted = all.filter(
      (one) =>
        (!chosen.level || one.level === chosen.level) &&
        one.glance.vessel.name.toLowerCase().includes(chosen.text.toLowerCase()),
    );
    if (!wanted.length) return place.replaceChildren(h("p", {}, t.yard.noMatch));
    const list = h("ul", { class: dense() ? "lines" : "cards" });
    for (const one of wanted) list.append(dense() ? row(one) : card(one, site, today));
    place.replaceChildren(list);
  };
  const find = h("input", {
    type: "search",
    value: chosen.text,
    "aria-label": t.yard.filter,
    placeholder: t.yard.filter,
    input: () => ((chosen.text = find.value), draw()),
  });
  const present = levels.filter((level) => all.some((one) => one.level === level));
  const chips = h("div", { class: "chips states", role: "group", "aria-label": t.yard.filter });
  const press = (level: Level | null) => (): void => {
    chosen.level = level;
    for (const [i, one] of [...chips.children].entries())
      one.setAttribute("aria-pressed", String([null, ...present][i] === level));
    draw();
  };
  for (const level of [null, ...present]) {
    const one = button("", press(level), "chip");
    one.setAttribute("aria-pressed", String(chosen.level === level));
    if (level)
      one.append(
        stateIcon(level),
        h("span", { class: "sr" }, t.level[level]),
        ` ${all.filter((other) => other.level === level).length}`,
      );
    else one.append(t.yard.all);
    chips.append(one);
  }
  const views = h("div", { class: "chips", role: "group", "aria-label": t.yard.view });
  for (const [words, value] of [
    [t.yard.cards, false],
    [t.yard.dense, true],
  ] as const) {
    const one = button(
      words,
      () => {
        chosen.dense = value;
        for (const other of views.children) other.setAttribute("aria-pressed", String(other === one));
        draw();
      },
      "chip",
    );
    one.setAttribute("aria-pressed", String(dense() === value));
    views.append(one);
  }
  draw();
  const tools =
    all.length > 4
      ? h("div", { class: "tools" }, present.length > 1 ? chips : null, all.length > many_vessels ? find : null, views)
      : null;
  return h(
    "section",
    { "aria-labelledby": "vessels-title", class: "vessels" },
    h("h2", { id: "vessels-title" }, t.yard.headVessels),
    tools,
    place,
  );
}
