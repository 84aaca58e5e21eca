import type uPlot from "uplot";
import {
  type FillRecord,
  type FillState,
  type Forecast,
  type Glance,
  type Readings,
  type Series,
  type Site,
  get,
} from "../api/client";
import { coreReading, designOf, theSite, theYard } from "../state";
import { button, h } from "../ui/dom";
import { sectionFigure } from "../ui/section-figure";
import { applyTheme } from "../ui/theme";
import { currentSystem, show, typeset } from "../units/units";
import { ago, dateText, daysBetween } from "../units/when";
import { eventWords, placeWords, t } from "../words/words";
import { heatWord } from "../yard/cards";
import { pairs } from "./cards";
import { bandWords, drawChart, markerFigure } from "./chart";
import { toldEvents } from "./chart-marks";
import { chartHeadline } from "./chart-words";
import { forecastLine } from "./forecast";

/** What a fill's story is told from. */
interface Story {
  glance: Glance;
  site: Site;
  record: FillRecord;
  readings: Readings;
  state: FillState | null;
}

const day_s = 86400;
const paper_px = 680; // chosen: the width of A4 and US letter within their margins, at 96 px an inch
const most_events = 12; // chosen: with the chart they fill one page

interface Read {
  value: number;
  at_s: number;
  place: string;
}

/** The highest temperature that was read. */
export function hottestRead(series: readonly Series[]): Read | null {
  const all = series
    .filter((one) => one.measure === "temperature")
    .flatMap((one) => one.at_s.map((at_s, i): Read => ({ value: one.value[i]!, at_s, place: one.place_words })));
  return all.reduce<Read | null>((best, one) => (best && best.value >= one.value ? best : one), null);
}

function facts({ glance, site, record, readings }: Story): HTMLElement {
  const { fill } = record;
  const design = designOf(site, glance);
  const hottest = hottestRead(readings.series);
  const count = readings.series.reduce((sum, one) => sum + one.count, 0);
  const sprinkled = record.events.filter((one) => one.kind === "sprinkled");
  const water_kg = sprinkled.reduce((sum, one) => sum + 1000 * (one.volume_m3 ?? 0), 0);
  return pairs([
    [t.compare.volume, show("volume", fill.volume_m3 ?? design?.material_m3)],
    [t.table.soaked, show("share", fill.moisture_wet)],
    [t.table.channels, design ? String(design.channels.length) : t.notKnown],
    [
      t.story.hottest,
      hottest
        ? t.story.hottestAt(show("temperature", hottest.value), hottest.place, dateText(hottest.at_s))
        : t.notKnown,
    ],
    [t.story.readings, String(count)],
    [t.story.water, t.story.sprinkled(sprinkled.length, show("water", water_kg))],
  ]);
}

/** What was done, without the daily sprinkling, which the facts count. */
function eventTable({ record, site }: Story): HTMLElement {
  const words = (kind: string): string => eventWords(kind, site.event_kinds.find((one) => one.key === kind)?.words);
  const all = record.events.filter((one) => one.kind !== "sprinkled").sort((a, b) => a.at_s - b.at_s);
  const rows = all
    .slice(-most_events)
    .map((one) =>
      h(
        "tr",
        {},
        h("td", {}, t.yard.day(Math.floor(daysBetween(record.fill.filled_s, one.at_s)))),
        h("td", {}, dateText(one.at_s)),
        h("td", {}, words(one.kind), one.note ? `: ${one.note}` : ""),
      ),
    );
  return h(
    "section",
    {},
    h("h2", {}, t.story.headDone),
    rows.length ? h("table", {}, h("tbody", {}, ...rows)) : h("p", {}, t.says.none),
    all.length > most_events ? h("p", { class: "why" }, t.story.earlier(all.length - most_events)) : null,
  );
}

function saysPart(state: FillState | null): HTMLElement | "" {
  if (!state) return "";
  const all = [state.phase.statement, ...state.alerts];
  return h(
    "section",
    {},
    h("h2", {}, t.says.headSays),
    ...all.map((one) => h("p", {}, typeset(one.text), one.next ? ` ${typeset(t.says.act(one.next))}` : "")),
  );
}

/** The chart of the temperatures; on paper in the light theme and as wide as the page. */
function chartPart(story: Story, over: AbortSignal): { node: HTMLElement; draw: (forecast: Forecast | null) => void } {
  const { record, readings, site } = story;
  const { filled_s } = record.fill;
  const { series } = readings;
  const headline = h("p", { class: "now" });
  const picture = h("div", { class: "chart" });
  const band = h("p", { class: "why" });
  const shown = series.filter((one) => one.measure === "temperature");
  const legend = h("ul", { class: "legend" }, ...shown.map((one, i) => h("li", {}, markerFigure(i), one.place_words)));
  let chart: uPlot | null = null;
  let known: Forecast | null = null;
  const last_s = Math.max(Date.now() / 1000, ...shown.map((one) => one.at_s.at(-1) ?? 0));
  const events = toldEvents(record.events).map((one) => ({
    at_s: one.at_s,
    words: eventWords(one.kind, site.event_kinds.find((kind) => kind.key === one.kind)?.words),
  }));
  const draw = (forecast: Forecast | null): void => {
    known = forecast;
    chart?.destroy();
    headline.textContent = chartHeadline(series, forecast, "temperature", filled_s);
    band.textContent = forecast ? (bandWords("temperature") ?? "") : "";
    const until_s = Math.max(filled_s + 14 * day_s, last_s + 3 * day_s);
    chart = drawChart(picture, [...series], forecast, null, "temperature", filled_s, until_s, events, () => undefined);
  };
  const print = (begins: boolean) => (): void => {
    if (begins) document.documentElement.dataset["theme"] = "light";
    else applyTheme();
    draw(known);
    if (begins) chart?.setSize({ width: paper_px, height: 280 });
  };
  window.addEventListener("beforeprint", print(true), { signal: over });
  window.addEventListener("afterprint", print(false), { signal: over });
  over.addEventListener("abort", () => chart?.destroy());
  const node = h("section", {}, h("h2", {}, t.chart.headChart), headline, picture, shown.length ? legend : null, band);
  return { node, draw };
}

async function storyOf(vessel: string): Promise<Story | null> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const glance = yard.vessels.find((one) => one.vessel.id === vessel);
  if (!glance?.fill) return null;
  const fill = glance.fill.thing ?? glance.fill.id;
  const [record, readings, state] = await Promise.all([
    get<FillRecord>(`/api/fills/${fill}`),
    get<Readings>(`/api/fills/${fill}/readings`),
    get<FillState>(`/api/fills/${fill}/state?units=${currentSystem()}`).catch(() => null),
  ]);
  return { glance, site, record, readings, state };
}

/** The story of what is in a vessel, on one page to print: how it was filled, how warm it got, what was done. */
export async function storyView(vessel: string, over: AbortSignal): Promise<HTMLElement> {
  const story = await storyOf(vessel);
  const root = h("main", { id: "main", tabindex: "-1", class: "story" });
  if (!story) {
    root.append(h("h1", {}, t.reading.headNotFilled), h("a", { class: "big", href: "#/yard" }, t.round.toYard));
    return root;
  }
  const { glance, site, record, state } = story;
  const { fill } = record;
  const core = coreReading(glance);
  document.title = `${glance.vessel.name} ${fill.batch}`;
  const day = Math.max(0, Math.floor(daysBetween(fill.filled_s, Date.now() / 1000)));
  const chart = chartPart(story, over);
  const line = forecastLine(t.forecast.label);
  const print = button(t.story.print, () => window.print(), "big");
  root.append(
    h("p", { class: "site-name" }, site.name),
    h("h1", {}, glance.vessel.name),
    h("p", { class: "state" }, t.vessel.filled(fill.batch, dateText(fill.filled_s), day)),
    core
      ? h(
          "p",
          { class: "now" },
          t.vessel.now(
            show("temperature", core.value),
            heatWord(core.value),
            placeWords(core.place ?? ""),
            ago(core.at_s),
          ),
        )
      : "",
    h("div", { class: "story-top" }, sectionFigure(designOf(site, glance), glance.last_readings), facts(story)),
    chart.node,
    h("div", { class: "off-paper" }, line.bar, line.words),
    saysPart(state),
    eventTable(story),
    h("p", { class: "why" }, t.story.printed(dateText(Date.now() / 1000))),
    h(
      "p",
      { class: "files" },
      print,
      h("a", { class: "button", href: `#/vessel/${vessel}` }, t.earlier.to(glance.vessel.name)),
    ),
  );
  requestAnimationFrame(() => chart.draw(null));
  line
    .run({ fill: fill.thing ?? fill.id }, "draft", over)
    .then(({ forecast }) => over.aborted || chart.draw(forecast))
    .catch((error: unknown) => over.aborted || line.tell(error));
  return root;
}
