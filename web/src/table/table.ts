import {
  type Change,
  type Channel,
  type Design,
  type Draft,
  OutOfReach,
  Refused,
  type Site,
  type SiteProposal,
  plainKey,
  post,
} from "../api/client";
import { theSite, theYard } from "../state";
import { cautionBox } from "../ui/cautions";
import { button, field, h, select } from "../ui/dom";
import { say, sayError } from "../ui/say";
import { sizeOf } from "../ui/vessel-drawing";
import { type Range, limit } from "../units/limits";
import { type Kind, capital, show, typeset, unit } from "../units/units";
import { answerCard, fillCard, waterYear } from "../vessel/cards";
import { forecastLine } from "../vessel/forecast";
import { t } from "../words/words";
import { nextStep, stepLink } from "../yard/next-step";
import { type Hands, bench } from "./bench";
import { brief, curveFiles } from "./brief";
import { type Proposal, comparison, most_kept } from "./compare";
import { gauges } from "./gauges";
import { type Pattern, gridChannels, isRing, patternOf, ringChannels } from "./pattern";
import { proposalPart } from "./proposal";
import { type Shares, percents, whole, withShare } from "./shares";

const pause_ms = 250; // chosen: until the hand rests

interface Table {
  site: Site;
  design: Design;
  change: Change;
  /** one object for as long as the table stands: the fields hold on to it */
  readonly pattern: Pattern;
  /** each lets a field show what was drawn by hand */
  follow: (() => void)[];
}

/** The sliders, and how the blend that the server searched gets onto them. */
interface ShareBox {
  node: HTMLElement;
  set: (shares: Shares) => void;
}

function begin(site: Site, design: Design, from: Change | null): Table {
  const change = from
    ? structuredClone(from)
    : {
        design: design.name,
        shares: { ...site.shares_by_mass },
        fill_height_m: design.fill_height_m,
        moisture_wet: site.moisture_target_wet,
      };
  return { site, design, change, pattern: patternOf(designNow({ design, change })), follow: [] };
}

function layChannels(table: Table): void {
  const { across_m, deep_m } = sizeOf(designNow(table));
  table.change.channels = isRing(table.pattern)
    ? ringChannels(table.pattern)
    : gridChannels(table.pattern, across_m, deep_m);
}

/** A number of the table. With `clear` it may be left empty: nothing is asked for then. */
function number(
  table: Table,
  words: string,
  kind: Kind | "count",
  read: () => number | undefined,
  range: Range,
  step: number,
  put: (si: number) => void,
  hint = "",
  clear?: () => void,
): HTMLElement {
  const one = kind === "count" ? null : unit(kind);
  const digits = one ? Math.max(one.digits, 0) : 0;
  const shown = (): string => {
    const value = read();
    return value === undefined ? "" : (one ? one.fromSi(value) : value).toFixed(digits);
  };
  const input = h("input", {
    type: "number",
    inputmode: "decimal",
    value: shown(),
    min: one ? one.fromSi(range.least).toFixed(digits) : range.least,
    max: one ? one.fromSi(range.most).toFixed(digits) : range.most,
    step: one ? step : 1,
    input: () => {
      if (input.value === "" && clear && !input.validity.badInput) return clear();
      if (input.value === "" || !Number.isFinite(Number(input.value))) return;
      put(one ? one.toSi(Number(input.value)) : Math.round(Number(input.value)));
    },
  });
  table.follow.push(() => input !== document.activeElement && (input.value = shown()));
  return field(one ? `${words}, ${one.sign}` : words, input, hint);
}

function channelFields(table: Table, changed: () => void): HTMLElement {
  const pattern = table.pattern;
  const put = (part: Partial<Pattern>) => (): void => {
    Object.assign(pattern, part);
    layChannels(table);
    changed();
  };
  const width = number(
    table,
    t.table.form,
    "small_length",
    () => pattern.diameter_m,
    limit(table.site, "channel_diameter"),
    1,
    (m) => put({ diameter_m: m })(),
  );
  if (!isRing(pattern)) {
    return h(
      "div",
      {},
      number(
        table,
        t.table.along,
        "count",
        () => pattern.columns,
        limit(table.site, "grid_lines"),
        1,
        (n) => put({ columns: n })(),
      ),
      number(
        table,
        t.table.rows,
        "count",
        () => pattern.rows,
        limit(table.site, "grid_lines"),
        1,
        (n) => put({ rows: n })(),
      ),
      width,
    );
  }
  const centre = h("input", {
    type: "checkbox",
    checked: pattern.centre,
    change: () => put({ centre: centre.checked })(),
  });
  table.follow.push(() => (centre.checked = pattern.centre));
  return h(
    "div",
    {},
    number(
      table,
      t.table.onRing,
      "count",
      () => pattern.count,
      limit(table.site, "channels"),
      1,
      (n) => put({ count: n })(),
    ),
    number(
      table,
      t.table.radius,
      "length",
      () => pattern.radius_m,
      limit(table.site, "ring_radius"),
      0.01,
      (m) => put({ radius_m: m })(),
    ),
    width,
    field(t.table.middle, centre),
  );
}

/** The blend as one bar of its parts and a slider each; whatever is moved, the parts add up to 100 %. */
function shareSliders(table: Table, changed: () => void): ShareBox {
  const { site, change } = table;
  const box = h("fieldset", {}, h("legend", {}, t.table.blend));
  if (!Object.keys(site.shares_by_mass).length) box.append(h("p", { class: "why" }, t.table.searched));
  const bar = h("div", { class: "blend-bar", "aria-hidden": "true" });
  const rows = site.feedstocks.map((one, i) => {
    const out = h("output", {});
    const input = h("input", { id: `share-${one.id}`, type: "range", min: 0, max: 100, step: 1, value: 0 });
    const swatch = h("span", { class: `swatch part${i % 6}` });
    const part = h("span", { class: `part${i % 6}` });
    bar.append(part);
    input.addEventListener("input", () => {
      change.shares = withShare(shares, one.id, Number(input.value) / 100);
      set(change.shares, one.id);
      changed();
    });
    const carbon = one.carbon_to_nitrogen === null ? "" : t.table.carbonOf(one.carbon_to_nitrogen.toFixed(0));
    const label = h(
      "label",
      { for: `share-${one.id}` },
      swatch,
      one.name,
      h("small", {}, ` (${t.table.waterOf(show("share", one.moisture_wet))}${carbon})`),
    );
    box.append(h("div", { class: "share" }, label, input, out));
    return { id: one.id, out, input, part };
  });
  let shares: Shares = {};
  const set = (to: Shares, moved = ""): void => {
    shares = whole(Object.fromEntries(rows.map((row) => [row.id, to[row.id] ?? 0])));
    const shown = percents(shares);
    for (const row of rows) {
      row.out.textContent = `${shown[row.id]} %`;
      row.input.setAttribute("aria-valuetext", `${shown[row.id]} %`);
      if (row.id !== moved) row.input.value = String(shown[row.id]);
      row.part.style.flexGrow = String(shares[row.id]);
    }
  };
  box.querySelector("legend")!.after(bar);
  set(change.shares ?? site.shares_by_mass);
  return { node: box, set: (to) => (change.shares && Object.keys(change.shares).length ? undefined : set(to)) };
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
    h("legend", {}, t.table.vessel),
    round
      ? number(
          table,
          t.table.across,
          "length",
          () => change.diameter_m ?? design.diameter_m,
          limit(table.site, "diameter"),
          0.01,
          put("diameter_m"),
        )
      : null,
    round
      ? null
      : number(
          table,
          t.table.length,
          "length",
          () => change.length_m ?? design.length_m,
          limit(table.site, "side"),
          0.01,
          put("length_m"),
        ),
    round
      ? null
      : number(
          table,
          t.table.width,
          "length",
          () => change.width_m ?? design.width_m,
          limit(table.site, "side"),
          0.01,
          put("width_m"),
        ),
    number(
      table,
      t.table.filledTo,
      "length",
      () => change.fill_height_m ?? design.fill_height_m,
      limit(table.site, "fill_height"),
      0.01,
      put("fill_height_m"),
    ),
  );
}

function waterFields(table: Table, changed: () => void): HTMLElement {
  const { change } = table;
  return h(
    "fieldset",
    {},
    h("legend", {}, t.table.water),
    number(
      table,
      t.table.soaked,
      "share",
      () => change.moisture_wet ?? table.site.moisture_target_wet,
      limit(table.site, "soaked_moisture"),
      1,
      (si) => ((change.moisture_wet = si), changed()),
    ),
    number(
      table,
      t.table.sprinkle,
      "water",
      () => change.most_water_kg_day,
      limit(table.site, "water_a_day"),
      1,
      (si) => ((change.most_water_kg_day = si), changed()),
      t.table.sprinkleHint,
      () => (delete change.most_water_kg_day, changed()),
    ),
  );
}

function betterPattern(draft: Draft, ask: (channels: Channel[]) => void): HTMLElement | null {
  const better = draft.better_channels;
  if (!better) return null;
  const words = t.table.fewest(better.words, show("length", better.longest_air_path_m));
  return h(
    "div",
    { class: "row" },
    h("p", {}, words),
    button(t.table.tryThese, () => ask(better.channels)),
  );
}

const most_warnings = 3; // chosen: a page of red lines is read by nobody

/** What the blend and the vessel should be looked at for, each once; the first few in the open. */
function warningsPart(draft: Draft): HTMLElement | "" {
  const all = [...new Map(draft.blend.warnings.map((one) => [one.what, one])).values()];
  const items = [
    ...all.map((one) => h("li", {}, `${capital(typeset(one.what))} `, h("small", {}, `(${one.source})`))),
    ...draft.notes.map((one) => h("li", {}, typeset(one))),
  ];
  if (!items.length) return "";
  const rest = items.slice(most_warnings);
  return h(
    "section",
    {},
    h("h3", {}, t.table.headLook),
    h("ul", {}, ...items.slice(0, most_warnings)),
    rest.length ? h("details", {}, h("summary", {}, t.table.moreToLookAt(rest.length)), h("ul", {}, ...rest)) : null,
  );
}

/** The design as it is tried now. */
function designNow({ design, change }: Pick<Table, "design" | "change">): Design {
  return {
    ...design,
    diameter_m: change.diameter_m ?? design.diameter_m,
    length_m: change.length_m ?? design.length_m,
    width_m: change.width_m ?? design.width_m,
    fill_height_m: change.fill_height_m ?? design.fill_height_m,
    channels: change.channels ?? design.channels,
  };
}

const within = (m: number, { least, most }: Range): number =>
  Math.round(Math.min(Math.max(m, least), most) * 100) / 100;

/** What the hands on the drawing do to the change. */
function handsOf(table: Table, moved: () => void): Hands {
  const put = (sizes: Partial<Pick<Change, "diameter_m" | "length_m" | "width_m" | "fill_height_m">>): void => {
    Object.assign(table.change, sizes);
    if (!isRing(table.pattern)) layChannels(table);
    moved();
  };
  const side = (m: number): number => within(m, limit(table.site, "side"));
  return {
    design: () => designNow(table),
    wall: (across_m, deep_m) =>
      table.design.shape === "round"
        ? put({ diameter_m: within(across_m, limit(table.site, "diameter")) })
        : put({ length_m: side(across_m), ...(deep_m === undefined ? {} : { width_m: side(deep_m) }) }),
    high: (m) => put({ fill_height_m: within(m, limit(table.site, "fill_height")) }),
    channel: (i, x_m, y_m) => {
      const all = designNow(table).channels;
      const was = all[i];
      if (!was) return;
      if (isRing(table.pattern)) {
        // the whole ring follows the one that is held
        const turned = Math.atan2(y_m, x_m) - Math.atan2(was.y_m, was.x_m);
        const furthest = designNow(table).diameter_m / 2 - was.diameter_m / 2;
        table.pattern.radius_m = Math.round(Math.min(Math.hypot(x_m, y_m), furthest) * 1000) / 1000;
        table.pattern.first_angle_rad += turned;
        layChannels(table);
      } else table.change.channels = all.map((one, k) => (k === i ? { ...one, x_m, y_m } : one));
      moved();
    },
  };
}

function drawDraft(root: HTMLElement, draft: Draft, took_ms: number, ask: (channels: Channel[]) => void): void {
  root.replaceChildren(
    betterPattern(draft, ask) ?? "",
    curveFiles(draft, () => document.querySelector<SVGElement>(".brief .curve")),
    waterYear(draft),
    warningsPart(draft),
    answerCard(draft, false),
    h("p", { class: "why" }, t.table.quick((took_ms / 1000).toFixed(1))),
    h("details", {}, h("summary", {}, t.table.fillAndWater), fillCard(draft)),
  );
}

/** What does not work, each once, without the names of keys. */
function refusal(error: Refused): HTMLElement {
  const all = [
    ...new Set(
      error.problems.map((one) => `${capital(plainKey(one.where))} ${typeset(one.what)}: ${typeset(one.mend)}.`),
    ),
  ];
  const list = (some: string[]): HTMLElement => h("ul", { class: "wrong" }, ...some.map((one) => h("li", {}, one)));
  const rest = all.slice(most_warnings);
  return h(
    "div",
    {},
    h("h2", {}, t.table.headNo),
    list(all.slice(0, most_warnings)),
    rest.length ? h("details", {}, h("summary", {}, t.table.moreToLookAt(rest.length)), list(rest)) : null,
  );
}

/** The thorough forecast of the same change, in the background. */
function fullForecast(table: Table, over: AbortSignal): HTMLElement {
  const line = forecastLine(t.table.headThorough);
  const answer = h("div");
  const run = async (): Promise<void> => {
    start.disabled = true;
    try {
      const state = await line.run({ change: structuredClone(table.change) }, "standard", over);
      const { insidePanel } = await import("../inside/inside");
      answer.replaceChildren(answerCard(state, true), await insidePanel(state, over));
    } catch (error) {
      line.tell(error);
    } finally {
      start.disabled = false;
    }
  };
  const start = button(t.table.thorough, () => void run(), "big");
  return h(
    "section",
    { class: "panel", "aria-labelledby": "full-title" },
    h("h2", { id: "full-title" }, t.table.headThorough),
    start,
    h("div", { class: "row" }, line.bar, line.stop),
    line.words,
    answer,
  );
}

/** What lives as long as the view: the place, and what was kept to compare. */
interface Room {
  root: HTMLElement;
  site: Site;
  /** names the design that is on the table */
  choose: HTMLSelectElement;
  kept: Proposal[];
  over: AbortSignal;
  next: number;
}

/** What is tried, kept beside others or written into the site file. `last`: the change that was answered last. */
function keptPart(room: Room, last: () => { change: Change; draft: Draft } | null): HTMLElement {
  const compared = h("div");
  const proposal = h("div", { role: "status" });
  const draw = (): void =>
    compared.replaceChildren(
      comparison(
        room.kept,
        (one) => build(room, room.site.designs.find((other) => other.name === one.change.design)!, one.change),
        draw,
      ),
    );
  const keep = (): void => {
    const now = last();
    if (!now) return;
    if (room.kept.length >= most_kept) return void say(t.compare.full(most_kept), { bad: true });
    room.kept.push({ number: ++room.next, change: structuredClone(now.change), draft: now.draft });
    draw();
  };
  const write = async (): Promise<void> => {
    const now = last();
    if (!now) return;
    const found = await post<SiteProposal>("/api/site/proposal", now.change).catch((error: unknown) => {
      if (!(error instanceof Refused)) throw error;
      proposal.replaceChildren(refusal(error));
      return null;
    });
    if (found) proposal.replaceChildren(proposalPart(found));
  };
  draw();
  return h(
    "div",
    {},
    h(
      "p",
      { class: "files" },
      button(t.compare.keep, keep),
      button(t.proposal.show, () => void write().catch(sayError)),
    ),
    proposal,
    compared,
  );
}

function build(room: Room, design: Design, from: Change | null = null): void {
  const { root, site, over } = room;
  room.choose.value = design.name;
  const table = begin(site, design, from);
  let last: { change: Change; draft: Draft } | null = null;
  const answer = h("div", { class: "answer", "aria-busy": "false" });
  const short = h("div", { class: "brief-place", "aria-live": "polite" });
  let asked = new AbortController();
  let timer = 0;
  let before: Draft | null = null;
  const ask = async (): Promise<void> => {
    asked.abort();
    asked = new AbortController();
    answer.setAttribute("aria-busy", "true");
    const began = performance.now();
    try {
      const change = structuredClone(cleaned(table.change));
      const draft = await post<Draft>("/api/drafts", change, asked.signal);
      last = { change, draft };
      short.replaceChildren(brief(draft, before, site));
      drawing.answered(draft);
      dials.replaceChildren(gauges(draft));
      blend.set(Object.fromEntries(draft.blend.parts.map((one) => [one.id, one.mass_wet_kg])));
      drawDraft(answer, draft, performance.now() - began, take);
      before ??= draft;
    } catch (error) {
      if (error instanceof Refused) short.replaceChildren(refusal(error));
      else if (error instanceof OutOfReach) short.replaceChildren(h("p", {}, t.table.outOfReach));
      else sayError(error);
    }
    answer.setAttribute("aria-busy", "false");
  };
  const changed = (): void => {
    drawing.moved();
    for (const follow of table.follow) follow();
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void ask(), pause_ms);
  };
  const drawing = bench(handsOf(table, changed));
  const dials = h("div");
  const take = (channels: Channel[]): void => {
    table.change.channels = channels;
    Object.assign(table.pattern, patternOf(designNow(table)));
    say(t.table.taken);
    changed();
  };
  const blend = shareSliders(table, changed);
  over.addEventListener("abort", () => (asked.abort(), window.clearTimeout(timer)));
  const fields = h(
    "form",
    { submit: (event) => event.preventDefault() },
    sizeFields(table, changed),
    h("fieldset", {}, h("legend", {}, t.table.channels), channelFields(table, changed)),
    blend.node,
    waterFields(table, changed),
  );
  blend.node.append(dials);
  root.replaceChildren(
    h("div", { class: "table" }, short, drawing.node, fields, answer),
    keptPart(room, () => last),
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
  document.title = t.linkPlanning;
  const [site, yard] = await Promise.all([theSite(), theYard().catch(() => null)]);
  const step = yard && nextStep(yard.vessels);
  const place = h("div");
  const first = site.designs[0]!;
  const choose = select(
    site.designs.map((one) => [one.name, one.name]),
    first.name,
    (name) => build(room, site.designs.find((one) => one.name === name)!),
  );
  const room: Room = { root: place, site, choose, kept: [], over, next: 0 };
  build(room, first);
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, t.linkPlanning),
    h("p", {}, t.table.nothingChanges),
    site.designs.length > 1 ? field(t.table.vessel, choose) : null,
    place,
    step ? stepLink(step) : null,
  );
}
