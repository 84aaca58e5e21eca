import {
  type Change,
  type Channel,
  type Design,
  type Draft,
  OutOfReach,
  Refused,
  type Site,
  post,
  remove,
} from "../api/client";
import { theSite } from "../state";
import { cautionBox } from "../ui/cautions";
import { button, field, h, select } from "../ui/dom";
import { planFigure } from "../ui/plan-figure";
import { problemList, say, sayError } from "../ui/say";
import { type Kind, show, unit } from "../units/units";
import { answerCard, fillCard, waterCard } from "../vessel/cards";
import { forecastOf } from "../vessel/forecast";
import { type Pattern, gridChannels, isRing, patternOf, ringChannels } from "./pattern";

const pause_ms = 250; // chosen: until the hand rests

interface Table {
  site: Site;
  design: Design;
  change: Change;
  pattern: Pattern;
}

function begin(site: Site, design: Design): Table {
  return {
    site,
    design,
    change: {
      design: design.name,
      shares: { ...site.shares_by_mass },
      fill_height_m: design.fill_height_m,
      moisture_wet: site.moisture_target_wet,
    },
    pattern: patternOf(design),
  };
}

const sizeOf = (table: Table): { across_m: number; deep_m: number } => {
  const { design, change } = table;
  return design.shape === "round"
    ? { across_m: change.diameter_m ?? design.diameter_m, deep_m: change.diameter_m ?? design.diameter_m }
    : { across_m: change.length_m ?? design.length_m, deep_m: change.width_m ?? design.width_m };
};

function layChannels(table: Table): void {
  const { across_m, deep_m } = sizeOf(table);
  table.change.channels = isRing(table.pattern)
    ? ringChannels(table.pattern)
    : gridChannels(table.pattern, across_m, deep_m);
}

function number(
  words: string,
  kind: Kind | "count",
  si: number,
  min: number,
  max: number,
  step: number,
  put: (si: number) => void,
  hint = "",
): HTMLElement {
  const one = kind === "count" ? null : unit(kind);
  const shown = one ? one.fromSi(si) : si;
  const digits = one ? Math.max(one.digits, 0) : 0;
  const input = h("input", {
    type: "number",
    inputmode: "decimal",
    value: shown.toFixed(digits),
    min: one ? one.fromSi(min).toFixed(digits) : min,
    max: one ? one.fromSi(max).toFixed(digits) : max,
    step: one ? step : 1,
    input: () => {
      if (input.value === "" || !Number.isFinite(Number(input.value))) return;
      put(one ? one.toSi(Number(input.value)) : Math.round(Number(input.value)));
    },
  });
  return field(one ? `${words}, ${one.sign}` : words, input, hint);
}

function channelFields(table: Table, changed: () => void): HTMLElement {
  const pattern = table.pattern;
  const put = (part: Partial<Pattern>) => (): void => {
    Object.assign(pattern, part);
    layChannels(table);
    changed();
  };
  const width = number("Width of a form", "small_length", pattern.diameter_m, 0.02, 0.5, 1, (m) =>
    put({ diameter_m: m })(),
  );
  if (!isRing(pattern)) {
    return h(
      "div",
      {},
      number("Channels along the length", "count", pattern.columns, 0, 12, 1, (n) => put({ columns: n })()),
      number("Rows across the width", "count", pattern.rows, 0, 6, 1, (n) => put({ rows: n })()),
      width,
    );
  }
  const centre = h("input", {
    type: "checkbox",
    checked: pattern.centre,
    change: () => put({ centre: centre.checked })(),
  });
  return h(
    "div",
    {},
    number("Channels on the ring", "count", pattern.count, 0, 24, 1, (n) => put({ count: n })()),
    number("Radius of the ring", "length", pattern.radius_m, 0, 4, 0.01, (m) => put({ radius_m: m })()),
    width,
    field("One in the middle", centre),
  );
}

function shareSliders(table: Table, changed: () => void): HTMLElement {
  const box = h("fieldset", {}, h("legend", {}, "Blend, parts by mass as delivered"));
  const found = !Object.keys(table.site.shares_by_mass).length;
  if (found)
    box.append(
      h("p", { class: "why" }, "The site file lets the cheapest blend be searched. Set parts here to try your own."),
    );
  for (const one of table.site.feedstocks) {
    const now = Math.round(100 * (table.change.shares?.[one.id] ?? 0));
    const out = h("output", {}, String(now));
    const id = `share-${one.id}`;
    const input = h("input", {
      id,
      type: "range",
      min: 0,
      max: 100,
      step: 1,
      value: now,
      input: () => {
        out.textContent = input.value;
        (table.change.shares ??= {})[one.id] = Number(input.value) / 100;
        changed();
      },
    });
    const carbon = one.carbon_to_nitrogen === null ? "" : `, C:N ${one.carbon_to_nitrogen.toFixed(0)}`;
    box.append(
      h(
        "div",
        { class: "share" },
        h("label", { for: id }, `${one.name}`, h("small", {}, ` (${show("share", one.moisture_wet)} water${carbon})`)),
        input,
        out,
      ),
    );
  }
  return box;
}

function sizeFields(table: Table, changed: () => void): HTMLElement {
  const { design, change } = table;
  const put =
    (key: keyof Change) =>
    (si: number): void => {
      Object.assign(change, { [key]: si });
      if (!isRing(table.pattern)) layChannels(table);
      changed();
    };
  const round = design.shape === "round";
  return h(
    "fieldset",
    {},
    h("legend", {}, "Vessel"),
    round ? number("Across, inside", "length", design.diameter_m, 0.3, 12, 0.01, put("diameter_m")) : null,
    round ? null : number("Length, inside", "length", design.length_m, 0.3, 12, 0.01, put("length_m")),
    round ? null : number("Width, inside", "length", design.width_m, 0.3, 12, 0.01, put("width_m")),
    number("Filled to a height of", "length", design.fill_height_m, 0.2, 4, 0.01, put("fill_height_m")),
  );
}

function waterFields(table: Table, changed: () => void): HTMLElement {
  const { change } = table;
  return h(
    "fieldset",
    {},
    h("legend", {}, "Water"),
    number(
      "Moisture after soaking",
      "share",
      change.moisture_wet ?? 0.65,
      0.3,
      0.85,
      1,
      (si) => ((change.moisture_wet = si), changed()),
    ),
    number(
      "Sprinkle at most a day",
      "water",
      change.most_water_kg_day ?? 40,
      0,
      500,
      1,
      (si) => ((change.most_water_kg_day = si), changed()),
      "The forecast puts on what the heap lost, up to this.",
    ),
  );
}

/** The longest air path beside the wanted one, in words. */
function pathLine(draft: Draft, site: Site): HTMLElement {
  const path = draft.air_path.length_m;
  const within = path !== null && path <= site.wanted_air_path_m * (1 + 1e-9);
  return h(
    "p",
    { class: "now" },
    `Longest air path ${show("length", path)}: ${within ? "within" : "longer than"} the wanted ${show("length", site.wanted_air_path_m)}`,
  );
}

function betterPattern(draft: Draft, ask: (channels: Channel[]) => void): HTMLElement | null {
  const better = draft.better_channels;
  if (!better) return null;
  const words = `Fewest channels that stay within: ${better.words} (${show("length", better.longest_air_path_m)})`;
  return h(
    "div",
    { class: "row" },
    h("p", {}, words),
    button("Try these", () => ask(better.channels)),
  );
}

function drawDraft(
  root: HTMLElement,
  table: Table,
  draft: Draft,
  took_ms: number,
  ask: (channels: Channel[]) => void,
): void {
  const { x_m, y_m } = draft.air_path;
  const mark = x_m === null || y_m === null ? null : { x_m, y_m };
  const warnings = h("ul");
  for (const one of draft.blend.warnings)
    warnings.append(h("li", {}, `${one.where}: ${one.what} `, h("small", {}, `(${one.source})`)));
  for (const one of draft.notes) warnings.append(h("li", {}, one));
  root.replaceChildren(
    pathLine(draft, table.site),
    h(
      "figure",
      {},
      planFigure(draft.design, null, mark),
      h("figcaption", { class: "why" }, "From above; the coloured dot is farthest from air."),
    ),
    betterPattern(draft, ask) ?? "",
    warnings.childElementCount ? h("section", {}, h("h3", {}, "Look at this"), warnings) : "",
    answerCard(draft, false),
    h(
      "p",
      { class: "why" },
      `Draft grid with daily weather, middle line without a band; ${(took_ms / 1000).toFixed(1)} s.`,
    ),
    fillCard(draft),
    waterCard(draft),
  );
}

/** The standard grid for the same change, in the background. */
function fullForecast(table: Table, over: AbortSignal): HTMLElement {
  const bar = h("progress", { max: 1, value: 0, "aria-label": "Forecast on the standard grid", hidden: true });
  const line = h("p", { role: "status", class: "why" });
  const answer = h("div");
  let running = "";
  const stop = button("Stop", () => running && void remove(`/api/forecasts/${running}`).catch(sayError), "small");
  stop.hidden = true;
  const run = async (): Promise<void> => {
    bar.hidden = stop.hidden = false;
    start.disabled = true;
    try {
      const state = await forecastOf(
        { change: structuredClone(table.change) },
        "standard",
        (share, doing, id) => ((running = id), (bar.value = share), (line.textContent = doing)),
        over,
      );
      line.textContent = `Standard grid, ${state.forecast.solved.members} runs for the band.`;
      const { insidePanel } = await import("../inside/inside");
      answer.replaceChildren(answerCard(state, true), await insidePanel(state, over));
    } catch (error) {
      line.textContent = error instanceof Error && !(error instanceof DOMException) ? error.message : "";
    } finally {
      bar.hidden = stop.hidden = true;
      start.disabled = false;
    }
  };
  const start = button("Work this out with its band", () => void run(), "big");
  return h(
    "section",
    { class: "panel", "aria-labelledby": "full-title" },
    h("h2", { id: "full-title" }, "On the standard grid"),
    start,
    h("div", { class: "row" }, bar, stop),
    line,
    answer,
  );
}

function build(root: HTMLElement, site: Site, design: Design, over: AbortSignal): void {
  const table = begin(site, design);
  const answer = h("div", { class: "answer", "aria-live": "polite", "aria-busy": "false" });
  let asked = new AbortController();
  let timer = 0;
  const ask = async (): Promise<void> => {
    asked.abort();
    asked = new AbortController();
    answer.setAttribute("aria-busy", "true");
    const began = performance.now();
    try {
      const draft = await post<Draft>("/api/drafts", cleaned(table.change), asked.signal);
      drawDraft(answer, table, draft, performance.now() - began, take);
    } catch (error) {
      if (error instanceof Refused) answer.replaceChildren(h("h2", {}, "This cannot be"), problemList(error));
      else if (error instanceof OutOfReach)
        answer.replaceChildren(h("p", {}, "Planning needs the server, which is out of reach."));
      else if (!(error instanceof DOMException)) sayError(error);
    }
    answer.setAttribute("aria-busy", "false");
  };
  const changed = (): void => {
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void ask(), pause_ms);
  };
  const take = (channels: Channel[]): void => {
    table.change.channels = channels;
    say("These channels are on the table; change the fields to lay your own again.");
    void ask();
  };
  over.addEventListener("abort", () => (asked.abort(), window.clearTimeout(timer)));
  const fields = h(
    "form",
    { submit: (event) => event.preventDefault() },
    sizeFields(table, changed),
    h("fieldset", {}, h("legend", {}, "Channels"), channelFields(table, changed)),
    shareSliders(table, changed),
    waterFields(table, changed),
  );
  root.replaceChildren(
    h("div", { class: "table" }, fields, answer),
    cautionBox(site, "building"),
    fullForecast(table, over),
  );
  void ask();
}

/** Shares that are all 0 mean: let the blend be searched. */
function cleaned(change: Change): Change {
  const shares = Object.values(change.shares ?? {}).some((one) => one > 0) ? change.shares : undefined;
  return { ...change, shares };
}

/** Planning: try another blend, other channels, size and water, and see what comes of it. */
export async function tableView(over: AbortSignal): Promise<HTMLElement> {
  document.title = "Planning";
  const site = await theSite();
  const place = h("div");
  const first = site.designs[0]!;
  const choose = select(
    site.designs.map((one) => [one.name, one.name]),
    first.name,
    (name) => build(place, site, site.designs.find((one) => one.name === name)!, over),
  );
  build(place, site, first, over);
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, "Planning"),
    h("p", {}, "Nothing here changes the site file. Try things, then write down what you want to keep."),
    site.designs.length > 1 ? field("Vessel", choose) : null,
    place,
  );
}
