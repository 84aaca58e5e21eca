import type uPlot from "uplot";
import {
  type FillRecord,
  type FillState,
  type ForecastState,
  type Glance,
  type Learned,
  type Measure,
  OutOfReach,
  type Readings,
  type Site,
  get,
} from "../api/client";
import { coreReading, designOf, theSite, theYard } from "../state";
import { button, h } from "../ui/dom";
import { saveCsv } from "../ui/save-file";
import { sayError } from "../ui/say";
import { sectionFigure } from "../ui/section-figure";
import { currentSystem, show } from "../units/units";
import { ago, dateText, daysBetween } from "../units/when";
import { eventWords, placeWords, t } from "../words/words";
import { heatWord } from "../yard/cards";
import { stepLink } from "../yard/next-step";
import { answerCard, fillCard, waterCard } from "./cards";
import { bandWords, chartWords, drawChart, markerFigure } from "./chart";
import { chartRows, saveChartPicture } from "./chart-files";
import { toldEvents } from "./chart-marks";
import { chartHeadline, outsideBand } from "./chart-words";
import { earlierPanel } from "./earlier";
import { type Grid, forecastLine } from "./forecast";
import { learnPanel } from "./learn";
import { papersPanel } from "./papers";
import { eventForm, photoForm, recordList } from "./record";
import { saysPanel } from "./says";

interface Page {
  glance: Glance;
  site: Site;
  record: FillRecord;
  readings: Readings;
  measure: Measure;
  /** days of the chart; the whole forecast when it is longer than that */
  span_days: number;
  forecast: ForecastState | null;
  /** undefined until the server told whether something was learned */
  learned: Learned | null | undefined;
  chart: uPlot | null;
  over: AbortController;
  /** why there is no forecast yet */
  waits: string;
}

function head(page: Page): HTMLElement {
  const { glance, site, record } = page;
  const core = coreReading(glance);
  const day = Math.max(0, Math.floor(daysBetween(record.fill.filled_s, Date.now() / 1000)));
  return h(
    "header",
    { class: "vessel-head" },
    sectionFigure(designOf(site, glance), glance.last_readings),
    h(
      "div",
      {},
      h("h1", {}, glance.vessel.name),
      h("p", { class: "state" }, t.vessel.filled(record.fill.batch, dateText(record.fill.filled_s), day)),
      h(
        "p",
        { class: "now" },
        core
          ? t.vessel.now(
              show("temperature", core.value),
              heatWord(core.value),
              placeWords(core.place ?? "") || t.reading.placeUnknown,
              ago(core.at_s),
            )
          : t.reading.none,
      ),
      h("a", { class: "big", href: `#/note/${glance.vessel.id}` }, t.vessel.read),
      h("a", { class: "button", href: `#/story/${glance.vessel.id}` }, t.story.open),
    ),
  );
}

function measureTabs(page: Page, redraw: () => void): HTMLElement {
  const row = h("div", { class: "chips", role: "group", "aria-label": t.chart.which });
  const noted = new Set(page.readings.series.map((one) => one.measure));
  for (const { key } of page.site.measures) {
    if (bandWords(key) || noted.has(key)) {
      const one = button(t.measure[key], () => ((page.measure = key), redraw()), "chip");
      one.setAttribute("aria-pressed", String(key === page.measure));
      row.append(one);
    }
  }
  return row;
}

const spans = [14, 60, 365];
/** The shortest span that holds today; the first weeks are looked at closely. */
const spanFor = (day: number): number => spans.find((one) => one > day) ?? 540;

function spanChips(page: Page, redraw: () => void): HTMLElement {
  const row = h("div", { class: "chips", role: "group", "aria-label": t.chart.span });
  for (const days of spans) {
    const one = button(
      days === 365 ? t.chart.year : t.chart.days(days),
      () => ((page.span_days = days), redraw()),
      "chip",
    );
    one.setAttribute("aria-pressed", String(days === page.span_days));
    row.append(one);
  }
  return row;
}

const eventOf = (page: Page, kind: string): string =>
  eventWords(kind, page.site.event_kinds.find((one) => one.key === kind)?.words);

/** Goes to the learning without leaving the vessel: the hash names the view. */
function toLearning(event: Event): void {
  event.preventDefault();
  document.querySelector("#learn-title")?.scrollIntoView({ block: "start" });
}

function chartPanel(page: Page): HTMLElement {
  const panel = h("section", { class: "panel", "aria-labelledby": "chart-title" });
  const redraw = (): void => {
    page.chart?.destroy();
    const forecast = page.forecast?.forecast ?? null;
    const { series } = page.readings;
    const { filled_s } = page.record.fill;
    const shown = series.filter((one) => one.measure === page.measure);
    const headline = chartHeadline(series, forecast, page.measure, filled_s);
    const fileName = `${page.glance.vessel.name} ${page.record.fill.batch} ${t.measure[page.measure]}`;
    const told = [
      `${page.glance.vessel.name}, ${page.record.fill.batch}`,
      ...(forecast ? [bandWords(page.measure) ?? ""] : []),
    ];
    const readout = h("p", { class: "readout", role: "status" }, t.chart.walk);
    const picture = h("div", { role: "img", "aria-label": chartWords(series, forecast, page.measure) });
    const root = h("div", { class: "chart", role: "group", tabindex: "0", "aria-label": t.chart.walk }, picture);
    const legend = h(
      "ul",
      { class: "legend" },
      ...shown.map((one, i) => h("li", {}, markerFigure(i), one.place_words)),
    );
    panel.replaceChildren(
      h("h2", { id: "chart-title" }, t.chart.headChart),
      h("p", { class: "now" }, headline),
      page.measure === "temperature" && outsideBand(series, forecast, filled_s) && !page.learned
        ? h("p", {}, h("a", { href: "#learn-title", click: toLearning }, t.chart.learn))
        : "",
      measureTabs(page, redraw),
      root,
      readout,
      shown.length ? legend : "",
      spanChips(page, redraw),
      h("p", { class: "why" }, forecast ? (bandWords(page.measure) ?? "") : page.waits),
      h(
        "p",
        { class: "files" },
        button(t.files.csv, () => saveCsv(fileName, chartRows(series, forecast, page.measure, filled_s))),
        button(t.files.picture, () => page.chart && saveChartPicture(page.chart, headline, told, fileName)),
      ),
    );
    page.chart = drawChart(
      picture,
      series,
      forecast,
      page.learned ?? null,
      page.measure,
      filled_s,
      filled_s + page.span_days * 86400,
      toldEvents(page.record.events).map((one) => ({ at_s: one.at_s, words: eventOf(page, one.kind) })),
      (words) => (readout.textContent = words),
    );
  };
  panel.addEventListener("redraw", redraw);
  const widths = new ResizeObserver(() =>
    page.chart?.setSize({ width: Math.max(240, panel.clientWidth), height: page.chart.height }),
  );
  widths.observe(panel);
  page.over.signal.addEventListener("abort", () => (widths.disconnect(), page.chart?.destroy()));
  requestAnimationFrame(redraw);
  return panel;
}

const again_s = 15; // chosen: a server that was started again is found soon

/** The forecast's part of the page: asked for quickly first, thoroughly at a press. Says when the server is gone, and
 *  tries again. */
function forecastPart(page: Page, chart: HTMLElement): HTMLElement {
  const line = forecastLine(t.forecast.label);
  const cards = h("div", { class: "panels" });
  const inside = h("div");
  const finer = button(t.forecast.thorough, () => void ask("standard"));
  const root = h(
    "div",
    {},
    h("div", { class: "panel row" }, line.bar, line.words, line.stop, finer),
    inside,
    h("details", {}, h("summary", {}, t.forecast.more), cards),
  );
  const put = async (state: ForecastState): Promise<void> => {
    page.forecast = state;
    chart.dispatchEvent(new Event("redraw"));
    cards.replaceChildren(answerCard(state, true), fillCard(state), waterCard(state));
    const { insidePanel } = await import("../inside/inside");
    const today = { day: daysBetween(page.record.fill.filled_s, Date.now() / 1000), probes: page.glance.last_readings };
    if (!page.over.signal.aborted) inside.replaceChildren(await insidePanel(state, page.over.signal, today));
  };
  const ask = async (grid: Grid): Promise<void> => {
    finer.hidden = true;
    try {
      const state = await line.run({ fill: page.record.fill.thing ?? page.record.fill.id }, grid, page.over.signal);
      finer.hidden = grid === "standard";
      await put(state);
    } catch (error) {
      if (page.over.signal.aborted) return;
      const away = error instanceof OutOfReach;
      finer.hidden = away;
      line.tell(away ? t.forecast.gone : error);
      if (!page.forecast) page.waits = line.words.textContent ?? "";
      chart.dispatchEvent(new Event("redraw"));
      if (away) window.setTimeout(() => page.over.signal.aborted || void ask(grid), again_s * 1000);
      else sayError(error);
    }
  };
  chart.addEventListener("learned", () => void ask("draft"));
  void ask("draft");
  return root;
}

/** The chart gets what was learned, and loses it when it is learned anew. The forecast is asked for again when it was
 *  learned while one looked on; what was there before it follows already. */
function learnedTold(page: Page, chart: HTMLElement, learned: Learned | null | undefined): void {
  const watched = page.learned === null;
  if (page.learned === (learned ?? null)) return;
  page.learned = learned ?? null;
  chart.dispatchEvent(new Event("redraw"));
  if (watched && learned?.used) chart.dispatchEvent(new Event("learned"));
}

const intakeLink = (glance: Glance): HTMLElement =>
  h("p", { class: "files" }, h("a", { class: "button", href: `#/intake/${glance.vessel.id}` }, t.yard.loggers));

/** One vessel: readings over the forecast, its inside, fill and water, record. */
export async function vesselView(vessel: string, redraw: () => void, over: AbortController): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const glance = yard.vessels.find((one) => one.vessel.id === vessel);
  const root = h("main", { id: "main", tabindex: "-1" });
  document.title = glance?.vessel.name ?? t.vessel.title;
  if (!glance?.fill) {
    root.append(h("h1", {}, glance ? t.vessel.empty(glance.vessel.name) : t.reading.headUnknown));
    if (glance)
      root.append(
        h("div", { class: "vessel-empty" }, sectionFigure(designOf(site, glance), null)),
        stepLink({ words: t.next.fill(glance.vessel.name), href: `#/fill/${vessel}` }),
        await earlierPanel(glance, site),
      );
    return root;
  }
  const fill = glance.fill.thing ?? glance.fill.id;
  const [record, readings, state, earlier] = await Promise.all([
    get<FillRecord>(`/api/fills/${fill}`),
    get<Readings>(`/api/fills/${fill}/readings`),
    get<FillState>(`/api/fills/${fill}/state?units=${currentSystem()}`).catch(() => null),
    earlierPanel(glance, site),
  ]);
  const page: Page = {
    glance,
    site,
    record,
    readings,
    measure: "temperature",
    span_days: spanFor(daysBetween(record.fill.filled_s, Date.now() / 1000)),
    forecast: null,
    learned: undefined,
    chart: null,
    over,
    waits: t.chart.waits,
  };
  const chart = chartPanel(page);
  root.append(
    head(page),
    state ? saysPanel(state) : "",
    chart,
    forecastPart(page, chart),
    learnPanel(fill, (learned) => learnedTold(page, chart, learned), over.signal),
    eventForm(record, site, redraw),
    papersPanel(record, site, redraw),
    photoForm(record, redraw),
    intakeLink(glance),
    recordList(record, readings, site, redraw),
    earlier,
  );
  return root;
}
