import type { ForecastState } from "../api/client";
import { h } from "../ui/dom";
import { currentSystem, show, showRange } from "../units/units";

function pairs(rows: [string, string][]): HTMLElement {
  const list = h("dl", { class: "pairs" });
  for (const [name, value] of rows) list.append(h("div", {}, h("dt", {}, name), h("dd", {}, value)));
  return list;
}

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** How it is filled, by the plan. */
export function fillCard(plan: Pick<ForecastState, "fill" | "blend" | "air_path">): HTMLElement {
  const { fill, blend } = plan;
  const steps = h("ol");
  for (const one of fill.steps) steps.append(h("li", {}, one));
  const parts = blend.parts.map((one) => `${one.name} ${show("mass", one.mass_wet_kg)}`).join(", ");
  return h(
    "section",
    { class: "panel" },
    h("h3", {}, "Fill"),
    pairs([
      ["Blend, as delivered", parts],
      ["Pails", `${fill.pails} in ${fill.lifts} lifts`],
      ["Water to soak up", show("water", fill.soak_water_kg)],
      ["Work", fill.people_hours === null ? "not known" : `${fill.people_hours.toFixed(1)} person-hours`],
      [
        "A full pail",
        `${show("mass", fill.pail_mass_kg)}; lift at most ${show("mass", fill.pail_limit_kg)} over the brim`,
      ],
      ["Moisture after soaking", show("share", blend.moisture_wet)],
      [
        "C:N",
        blend.carbon_to_nitrogen === null
          ? "not known"
          : `${blend.carbon_to_nitrogen.toFixed(0)} (degradable carbon alone ${blend.degradable_carbon_to_nitrogen?.toFixed(0) ?? "not known"})`,
      ],
      ["Free air space", show("share", blend.free_air_space)],
      ["Longest air path", show("length", plan.air_path.length_m)],
    ]),
    h("details", {}, h("summary", {}, "Order of work"), steps),
  );
}

/** The water programme, half-month by half-month. */
export function waterCard(plan: Pick<ForecastState, "forecast" | "line">): HTMLElement {
  const { water_programme: programme } = plan.forecast;
  const byLine: [string, string][] = [
    ["Line gives", show("flow", plan.line.flow_m3_s)],
    ["Evenness of the line", show("share", plan.line.uniformity)],
  ];
  const table = h("table", {}, h("caption", {}, "Water programme of one vessel: the forecast ran with exactly this"));
  const head = h(
    "tr",
    {},
    h("th", { scope: "col" }, "From"),
    h("th", { scope: "col" }, "Set"),
    h("th", { scope: "col" }, "Rain kept"),
  );
  table.append(h("thead", {}, head));
  const body = h("tbody");
  for (const one of programme.half_months) {
    const [, month, day] = one.first_day.split("-");
    body.append(
      h(
        "tr",
        {},
        h("th", { scope: "row" }, `${Number(day)} ${months[Number(month) - 1]!}`),
        h("td", {}, one.says[currentSystem()]),
        h("td", {}, show("water", one.rain_credited_kg)),
      ),
    );
  }
  table.append(body);
  const { summary } = plan.forecast;
  return h(
    "section",
    { class: "panel" },
    h("h3", {}, "Water"),
    pairs([
      ...(programme.by === "line" ? byLine : []),
      ["Let out in all", show("water", programme.let_out_kg)],
      ["Of it into the heap", show("water", programme.reaching_kg)],
      ["Moisture, driest place", showRange("share", summary.driest_moisture_wet.low, summary.driest_moisture_wet.high)],
      ["Drains in all", showRange("water", summary.water_drained_kg.low, summary.water_drained_kg.high)],
    ]),
    h("p", { class: "why" }, programme.limits[currentSystem()]),
    table,
  );
}

const dayRange = (low: number | null, high: number | null): string =>
  low === null || high === null ? "not within the forecast" : `day ${low.toFixed(0)} to ${high.toFixed(0)}`;

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
    h("h3", {}, "What the forecast says"),
    pairs([
      ["Hottest place", range("temperature", summary.peak_temperature_c)],
      [
        "End of self-heating",
        cool.middle === null
          ? "not within the forecast"
          : banded
            ? `day ${cool.middle.toFixed(0)} (${dayRange(cool.low, cool.high)})`
            : `day ${cool.middle.toFixed(0)}`,
      ],
      ["Lowest oxygen anywhere", range("share", summary.lowest_oxygen_share)],
      ["Most mass below 5 % oxygen at once", range("share", summary.most_mass_below_5_percent_oxygen_share)],
      ["Moisture, driest place", range("share", summary.driest_moisture_wet)],
      ["Height lost", range("share", summary.height_lost_share)],
      ["Compost at the end", range("volume", summary.finished_volume_m3)],
      [
        "Ready",
        `${dayRange(harvest.early_day, harvest.late_day)}${harvest.cooled_in_forecast ? "" : "; the forecast ends warm, so this is common practice alone"}`,
      ],
    ]),
    plan.forecast.stopped ? h("p", { class: "wrong" }, plan.forecast.stopped) : null,
    h(
      "p",
      { class: "why" },
      "The first week's readings count for more than this line. A forecast is no proof of hygiene.",
    ),
    h("details", {}, h("summary", {}, `What it rests on (${assumptions.length})`), list),
  );
}
