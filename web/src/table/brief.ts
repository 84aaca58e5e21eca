import type { Draft, Forecast, Site } from "../api/client";
import { button, h, svg } from "../ui/dom";
import { heatLimits } from "../ui/heat";
import { saveDrawing } from "../ui/picture";
import { type Cell, saveCsv } from "../ui/save-file";
import { sayError } from "../ui/say";
import { show, unit } from "../units/units";
import { t } from "../words/words";

const [wide, high] = [320, 90];

function path(forecast: Forecast, last_day: number): string {
  const { day, hottest_c } = forecast.history;
  let d = "";
  for (const [i, at] of day.entries()) {
    const celsius = hottest_c[i];
    if (at === null || celsius === null || celsius === undefined) continue;
    d += `${d ? "L" : "M"}${((at / last_day) * wide).toFixed(1)} ${(high - (Math.min(Math.max(celsius, 0), 90) / 90) * high).toFixed(1)}`;
  }
  return d;
}

/** The hottest place over the days, with the curve before the change behind it and the limit of a too hot heap. */
function curve(now: Forecast, before: Forecast | null): SVGElement {
  const last_day = Math.max(1, now.history.day.at(-1) ?? 1);
  const limit = high - (heatLimits().too_hot / 90) * high;
  const figure = svg("svg", {
    viewBox: `0 0 ${wide} ${high}`,
    class: "curve",
    preserveAspectRatio: "none",
    "aria-hidden": "true",
  });
  figure.append(svg("path", { d: `M0 ${limit}H${wide}`, class: "limit" }));
  if (before) figure.append(svg("path", { d: path(before, last_day), class: "before" }));
  figure.append(svg("path", { d: path(now, last_day), class: "line" }));
  return figure;
}

/** The curve's values, day by day. */
export function curveRows(forecast: Forecast): Cell[][] {
  const { fromSi, sign } = unit("temperature");
  const shown = (celsius: number | null | undefined): Cell =>
    celsius === null || celsius === undefined ? null : Number(fromSi(celsius).toFixed(2));
  const { day, hottest_c, core_c } = forecast.history;
  return [
    [t.inside.dayName, `${t.table.hottest}, ${sign}`, `${t.table.core}, ${sign}`],
    ...day.map((at, i) => [at, shown(hottest_c[i]), shown(core_c[i])]),
  ];
}

/** The curve to keep: as values and as a picture. `drawn`: the one that is in sight. */
export function curveFiles(draft: Draft, drawn: () => SVGElement | null): HTMLElement {
  const days = Math.round(draft.forecast.history.day.at(-1) ?? 0);
  const picture = (): void => {
    const figure = drawn();
    if (figure) void saveDrawing(figure, t.table.curve(days, false), [], t.table.headCurve).catch(sayError);
  };
  return h(
    "section",
    {},
    h("h3", {}, t.table.headCurve),
    h(
      "p",
      { class: "files" },
      button(t.files.csv, () => saveCsv(t.table.headCurve, curveRows(draft.forecast))),
      button(t.files.picture, picture),
    ),
  );
}

/** One figure now and, where it differs, before. */
function pair(name: string, now: string, before: string | null): HTMLElement {
  return h(
    "div",
    {},
    h("dt", {}, name),
    h("dd", {}, now, before && before !== now ? h("small", {}, ` ${t.table.was(before)}`) : null),
  );
}

const cool = (draft: Draft): string => {
  const day = draft.forecast.summary.cool_day.middle;
  return day === null ? t.table.notWithin : t.yard.day(Math.round(day));
};

/** What comes of the change in five lines and a curve: it stays in sight on a phone while the fields below are changed. */
export function brief(draft: Draft, before: Draft | null, site: Site): HTMLElement {
  const length = draft.air_path.length_m;
  const within = length !== null && length <= site.wanted_air_path_m * (1 + 1e-9);
  const hottest = (one: Draft): string => show("temperature", one.forecast.summary.peak_temperature_c.middle);
  return h(
    "div",
    { class: "brief" },
    h("p", { class: "now" }, t.table.path(show("length", length), within, show("length", site.wanted_air_path_m))),
    curve(draft.forecast, before?.forecast ?? null),
    h("p", { class: "why" }, t.table.curve(Math.round(draft.forecast.history.day.at(-1) ?? 0), before !== null)),
    h(
      "dl",
      { class: "brief-pairs" },
      pair(t.table.hottest, hottest(draft), before && hottest(before)),
      pair(t.table.cool, cool(draft), before && cool(before)),
      pair(t.table.soaked, show("share", draft.blend.moisture_wet), before && show("share", before.blend.moisture_wet)),
      pair(
        t.table.carbon,
        draft.blend.carbon_to_nitrogen?.toFixed(0) ?? "–",
        before && (before.blend.carbon_to_nitrogen?.toFixed(0) ?? "–"),
      ),
    ),
  );
}
