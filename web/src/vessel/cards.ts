import type { Forecast, ForecastState } from "../api/client";
import { h } from "../ui/dom";
import { yearBars } from "../ui/year-bars";
import { currentSystem, show, showRange, unit } from "../units/units";
import { t } from "../words/words";

/** Names and values, in two columns. */
export function pairs(rows: [string, string][]): HTMLElement {
  const list = h("dl", { class: "pairs" });
  for (const [name, value] of rows) list.append(h("div", {}, h("dt", {}, name), h("dd", {}, value)));
  return list;
}

type Half = Forecast["water_programme"]["half_months"][number];

const day_ms = 86400_000;
/** Water let out on the mean day of a half-month. */
const meanDay = (one: Half): number =>
  (one.runs * one.run_let_out_kg) / Math.max(1, (Date.parse(one.last_day) - Date.parse(one.first_day)) / day_ms + 1);

/** The most water a day of the programme. */
export const mostWater = (forecast: Forecast): number =>
  Math.max(0, ...forecast.water_programme.half_months.map(meanDay));

/** A date in the page's language, with only those of its parts. */
const dateWords = (iso: string, parts: Intl.DateTimeFormatOptions): string =>
  new Intl.DateTimeFormat(t.language, { ...parts, timeZone: "UTC" }).format(Date.parse(iso));

/** The water programme through the year, half-month by half-month: as bars, and as a table behind them. */
export function waterYear(plan: Pick<ForecastState, "forecast">): HTMLElement {
  const water = unit("water");
  const bars = plan.forecast.water_programme.half_months.map((one, i) => ({
    name: dateWords(one.first_day, { day: "numeric", month: "short" }),
    short: one.first_day.endsWith("-01") || i === 0 ? dateWords(one.first_day, { month: "narrow" }) : "",
    value: water.fromSi(meanDay(one)),
    words: [one.says[currentSystem()], show("water", one.rain_credited_kg)] as [string, string],
  }));
  const heads = [t.water.from, water.sign, t.water.set, t.water.rainKept];
  return yearBars(t.water.year(water.sign), bars, heads, t.water.table);
}

/** How it is filled, by the plan. */
export function fillCard(plan: Pick<ForecastState, "fill" | "blend" | "air_path">): HTMLElement {
  const { fill, blend } = plan;
  const steps = h("ol");
  for (const one of fill.steps) steps.append(h("li", {}, one));
  const parts = blend.parts.map((one) => `${one.name} ${show("mass", one.mass_wet_kg)}`).join(", ");
  return h(
    "section",
    { class: "panel" },
    h("h3", {}, t.card.headFill),
    pairs([
      [t.card.blend, parts],
      [t.card.pails, t.card.inLifts(fill.pails, fill.lifts)],
      [t.card.soak, show("water", fill.soak_water_kg)],
      [t.card.work, fill.people_hours === null ? t.notKnown : t.compare.personHours(fill.people_hours.toFixed(1))],
      [t.card.pail, t.card.lift(show("mass", fill.pail_mass_kg), show("mass", fill.pail_limit_kg))],
      [t.table.soaked, show("share", blend.moisture_wet)],
      [
        t.table.carbon,
        blend.carbon_to_nitrogen === null
          ? t.notKnown
          : t.card.degradable(
              blend.carbon_to_nitrogen.toFixed(0),
              blend.degradable_carbon_to_nitrogen?.toFixed(0) ?? t.notKnown,
            ),
      ],
      [t.card.air, show("share", blend.free_air_space)],
      [t.compare.path, show("length", plan.air_path.length_m)],
    ]),
    h("details", {}, h("summary", {}, t.card.order), steps),
  );
}

/** What water it takes: the programme that the forecast ran with. */
export function waterCard(plan: Pick<ForecastState, "forecast" | "line">): HTMLElement {
  const { water_programme: programme } = plan.forecast;
  const byLine: [string, string][] = [
    [t.card.line, show("flow", plan.line.flow_m3_s)],
    [t.card.even, show("share", plan.line.uniformity)],
  ];
  const { summary } = plan.forecast;
  return h(
    "section",
    { class: "panel" },
    h("h3", {}, t.card.headWater),
    waterYear(plan),
    pairs([
      ...(programme.by === "line" ? byLine : []),
      [t.water.letOut, show("water", programme.let_out_kg)],
      [t.water.reaching, show("water", programme.reaching_kg)],
      [t.card.driest, showRange("share", summary.driest_moisture_wet.low, summary.driest_moisture_wet.high)],
      [t.card.drains, showRange("water", summary.water_drained_kg.low, summary.water_drained_kg.high)],
    ]),
    h("p", { class: "why" }, programme.limits[currentSystem()]),
  );
}

const dayRange = (low: number | null, high: number | null): string =>
  low === null || high === null ? t.table.notWithin : t.card.days(low.toFixed(0), high.toFixed(0));

/** The forecast's answer in words, with its band. */
export function answerCard(plan: Pick<ForecastState, "forecast"> & { grid?: string }, banded: boolean): HTMLElement {
  const { summary, harvest, assumptions } = plan.forecast;
  const range = (
    kind: Parameters<typeof show>[0],
    one: { middle: number | null; low: number | null; high: number | null },
  ): string => (banded ? `${show(kind, one.middle)} (${showRange(kind, one.low, one.high)})` : show(kind, one.middle));
  const list = h("ul");
  for (const one of assumptions)
    list.append(h("li", {}, h("strong", {}, one.topic), `: ${one.value} `, h("small", {}, `(${one.source})`)));
  const cool = summary.cool_day;
  return h(
    "section",
    { class: "panel" },
    h("h3", {}, t.card.headForecast),
    pairs([
      [t.table.hottest, range("temperature", summary.peak_temperature_c)],
      [
        t.card.end,
        cool.middle === null
          ? t.table.notWithin
          : banded
            ? `${t.yard.day(Math.round(cool.middle))} (${dayRange(cool.low, cool.high)})`
            : t.yard.day(Math.round(cool.middle)),
      ],
      [t.card.oxygen, range("share", summary.lowest_oxygen_share)],
      [t.card.anaerobic, range("share", summary.most_mass_below_5_percent_oxygen_share)],
      [t.card.driest, range("share", summary.driest_moisture_wet)],
      [t.card.sinks, range("share", summary.height_lost_share)],
      [t.card.finished, range("volume", summary.finished_volume_m3)],
      [
        t.card.ready,
        `${dayRange(harvest.early_day, harvest.late_day)}${harvest.cooled_in_forecast ? "" : t.card.endsWarm}`,
      ],
    ]),
    plan.forecast.stopped ? h("p", { class: "wrong" }, plan.forecast.stopped) : null,
    h("p", { class: "why" }, t.card.noProof),
    h("details", {}, h("summary", {}, t.card.restsOn(assumptions.length)), list),
  );
}
