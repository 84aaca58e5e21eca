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
import { planFigure } from "../ui/plan-figure";
import { sayError } from "../ui/say";
import { currentSystem, measureWords, show } from "../units/units";
import { ago, dateText, daysBetween } from "../units/when";
import { heatWord } from "../yard/cards";
import { answerCard, fillCard, waterCard } from "./cards";
import { bandWords, chartWords, drawChart } from "./chart";
import { earlierPanel } from "./earlier";
import { type Grid, forecastOf } from "./forecast";
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
  learned: Learned | null;
  chart: uPlot | null;
  over: AbortController;
}

function head(page: Page): HTMLElement {
  const { glance, site, record } = page;
  const core = coreReading(glance);
  const day = Math.max(0, Math.floor(daysBetween(record.fill.filled_s, Date.now() / 1000)));
  return h(
    "header",
    { class: "vessel-head" },
    planFigure(designOf(site, glance), null),
    h(
      "div",
      {},
      h("h1", {}, glance.vessel.name),
      h("p", { class: "state" }, `${record.fill.batch}; filled ${dateText(record.fill.filled_s)}, day ${day}`),
      h(
        "p",
        { class: "now" },
        core
          ? `${show("temperature", core.value)}, ${heatWord(core.value)} (${core.place || "place not noted"}, ${ago(core.at_s)})`
          : "No reading yet",
      ),
      h("a", { class: "big", href: `#/note/${glance.vessel.id}` }, "Note a reading"),
    ),
  );
}

function measureTabs(page: Page, redraw: () => void): HTMLElement {
  const row = h("div", { class: "chips", role: "group", "aria-label": "What the chart shows" });
  const noted = new Set(page.readings.series.map((one) => one.measure));
  for (const { key } of page.site.measures) {
    if (key in bandWords || noted.has(key)) {
      const one = button(measureWords[key], () => ((page.measure = key), redraw()), "chip");
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
  const row = h("div", { class: "chips", role: "group", "aria-label": "How long a time the chart shows" });
  for (const days of spans) {
    const one = button(days === 365 ? "a year" : `${days} days`, () => ((page.span_days = days), redraw()), "chip");
    one.setAttribute("aria-pressed", String(days === page.span_days));
    row.append(one);
  }
  return row;
}

function chartPanel(page: Page): HTMLElement {
  const panel = h("section", { class: "panel", "aria-labelledby": "chart-title" });
  const redraw = (): void => {
    page.chart?.destroy();
    const forecast = page.forecast?.forecast ?? null;
    const root = h("div", {
      class: "chart",
      role: "img",
      "aria-label": chartWords(page.readings.series, forecast, page.measure),
    });
    panel.replaceChildren(
      h("h2", { id: "chart-title" }, "Readings over the forecast"),
      measureTabs(page, redraw),
      root,
      spanChips(page, redraw),
      h("p", { class: "why" }, forecast ? (bandWords[page.measure] ?? "") : "The forecast is being worked out."),
    );
    page.chart = drawChart(
      root,
      page.readings.series,
      forecast,
      page.learned,
      page.measure,
      page.record.fill.filled_s,
      page.record.fill.filled_s + page.span_days * 86400,
    );
  };
  panel.addEventListener("redraw", redraw);
  const widths = new ResizeObserver(() =>
    page.chart?.setSize({ width: Math.max(280, panel.clientWidth - 32), height: page.chart.height }),
  );
  widths.observe(panel);
  page.over.signal.addEventListener("abort", () => (widths.disconnect(), page.chart?.destroy()));
  requestAnimationFrame(redraw);
  return panel;
}

/** The forecast's part of the page: asked for as a draft first, on the standard grid at a press. */
function forecastPart(page: Page, chart: HTMLElement): HTMLElement {
  const line = h("p", { class: "why", role: "status" });
  const bar = h("progress", { max: 1, value: 0, "aria-label": "Forecast" });
  const cards = h("div", { class: "panels" });
  const inside = h("div");
  const finer = button("Work it out on the standard grid", () => void ask("standard"));
  const root = h("div", {}, h("div", { class: "panel row" }, bar, line, finer), cards, inside);
  const put = async (state: ForecastState): Promise<void> => {
    page.forecast = state;
    chart.dispatchEvent(new Event("redraw"));
    cards.replaceChildren(answerCard(state, true), fillCard(state), waterCard(state));
    const { insidePanel } = await import("../inside/inside");
    if (!page.over.signal.aborted) inside.replaceChildren(await insidePanel(state, page.over.signal));
  };
  const ask = async (grid: Grid): Promise<void> => {
    finer.disabled = bar.hidden = false;
    finer.hidden = true;
    try {
      const state = await forecastOf(
        { fill: page.record.fill.thing ?? page.record.fill.id },
        grid,
        (share, doing) => ((bar.value = share), (line.textContent = doing)),
        page.over.signal,
      );
      bar.hidden = true;
      finer.hidden = grid === "standard";
      line.textContent = `Forecast on the ${grid} grid, ${state.forecast.solved.members} runs for the band.`;
      await put(state);
    } catch (error) {
      bar.hidden = true;
      line.textContent =
        error instanceof OutOfReach ? "The forecast is worked out by the server, which is out of reach." : "";
      if (!(error instanceof OutOfReach)) sayError(error);
    }
  };
  void ask("draft");
  return root;
}

/** The chart gets what was learned, and loses it when it is learned anew. */
function learnedTold(page: Page, chart: HTMLElement, learned: Learned | null | undefined): void {
  if (page.learned === (learned ?? null)) return;
  page.learned = learned ?? null;
  chart.dispatchEvent(new Event("redraw"));
}

const intakeLink = (glance: Glance): HTMLElement =>
  h(
    "p",
    { class: "files" },
    h("a", { class: "button", href: `#/intake/${glance.vessel.id}` }, "Take in a logger's file"),
  );

/** One vessel: readings over the forecast, its inside, fill and water, record. */
export async function vesselView(vessel: string, redraw: () => void, over: AbortController): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const glance = yard.vessels.find((one) => one.vessel.id === vessel);
  const root = h("main", { id: "main", tabindex: "-1" });
  document.title = glance?.vessel.name ?? "Vessel";
  if (!glance?.fill) {
    root.append(h("h1", {}, glance ? `${glance.vessel.name} is empty` : "This vessel is not in the records"));
    if (glance)
      root.append(
        h("a", { class: "big", href: `#/fill/${vessel}` }, "Note its filling"),
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
    learned: null,
    chart: null,
    over,
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
