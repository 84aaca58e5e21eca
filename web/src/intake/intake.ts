import { type ImportPreview, type Logger, type Mapping, type Measure, Refused, get, post } from "../api/client";
import { initials, keep, theSite, theYard } from "../state";
import { button, field, h, select } from "../ui/dom";
import { problemList, say, sayError } from "../ui/say";
import { kindOf, show, unit } from "../units/units";
import { timeText } from "../units/when";
import { t } from "../words/words";
import { type Columns, columnsOf, guess } from "./columns";

/** Units a logger writes, by measure; the first is taken unless its header says otherwise. */
const unitsOf: Record<Measure, string[]> = {
  temperature: ["degC", "degF"],
  moisture: ["%"],
  oxygen: ["%"],
  carbon_dioxide: ["%"],
  conductivity: ["dS/m", "mS/cm"],
  acidity: ["pH"],
};

interface Probe {
  column: string;
  taken: boolean;
  measure: Measure;
  unit: string;
  place: string;
  /** below the top of the heap, m */
  depth?: number;
}

interface Intake {
  text: string;
  file: string;
  columns: Columns;
  probes: Probe[];
  time: string;
  date: string;
  pattern: string;
  zone: string;
  comma: boolean;
}

const patterns: [string, string][] = [
  ["iso", "2026-05-03 14:05 (ISO 8601)"],
  ["%m/%d/%Y %H:%M", "05/03/2026 14:05"],
  ["%m/%d/%Y %H:%M:%S", "05/03/2026 14:05:00"],
  ["%m/%d/%Y %I:%M:%S %p", "05/03/2026 02:05:00 PM"],
  ["%d/%m/%Y %H:%M", "03/05/2026 14:05"],
  ["%d/%m/%Y %H:%M:%S", "03/05/2026 14:05:00"],
  ["%d.%m.%Y %H:%M", "03.05.2026 14:05"],
  ["%d.%m.%Y %H:%M:%S", "03.05.2026 14:05:00"],
];

function mappingOf(one: Intake): Mapping {
  return {
    time: one.time,
    date: one.date || undefined,
    pattern: one.pattern,
    zone: one.zone,
    delimiter: one.columns.delimiter,
    decimal_comma: one.comma,
    header_line: one.columns.header_line,
    probes: one.probes
      .filter((probe) => probe.taken)
      .map((probe) => ({
        column: probe.column,
        measure: probe.measure,
        unit: probe.unit,
        place: { name: probe.place, depth_m: probe.depth },
      })),
  };
}

function probeRow(probe: Probe, redraw: () => void): HTMLElement {
  const taken = h("input", {
    type: "checkbox",
    checked: probe.taken,
    "aria-label": t.intake.take(probe.column),
    change: () => ((probe.taken = taken.checked), redraw()),
  });
  const head = h("label", { class: "take" }, taken, h("strong", {}, probe.column));
  if (!probe.taken) return h("fieldset", { class: "probe" }, head);
  const measures = (Object.keys(t.measure) as Measure[]).map((key): [string, string] => [key, t.measure[key]]);
  const measure = select(
    measures,
    probe.measure,
    (key) => ((probe.measure = key as Measure), (probe.unit = unitsOf[probe.measure][0]!), redraw()),
  );
  const sign = select(
    unitsOf[probe.measure].map((one): [string, string] => [one, one.replace("deg", "°")]),
    probe.unit,
    (chosen) => (probe.unit = chosen),
  );
  const place = h("input", { value: probe.place, maxlength: 60, change: () => (probe.place = place.value.trim()) });
  const length = unit("small_length");
  const depth = h("input", {
    type: "number",
    step: "any",
    min: 0,
    inputmode: "decimal",
    value: probe.depth === undefined ? "" : String(Number(length.fromSi(probe.depth).toFixed(1))),
    change: () => (probe.depth = depth.value ? length.toSi(Number(depth.value)) : undefined),
  });
  return h(
    "fieldset",
    { class: "probe" },
    head,
    h(
      "div",
      { class: "row" },
      field(t.intake.what, measure),
      field(t.intake.unit, sign),
      field(t.reading.placeOf, place),
      field(t.intake.depth(length.sign), depth),
    ),
  );
}

function mappingForm(one: Intake, redraw: () => void): HTMLElement {
  const names = one.columns.names.filter(Boolean).map((name): [string, string] => [name, name]);
  const zone = h("input", { value: one.zone, change: () => (one.zone = zone.value.trim()) });
  const comma = h("input", { type: "checkbox", checked: one.comma, change: () => (one.comma = comma.checked) });
  return h(
    "div",
    {},
    h(
      "div",
      { class: "row" },
      field(
        t.intake.time,
        select(names, one.time, (name) => ((one.time = name), redraw())),
      ),
      field(
        t.intake.date,
        select([["", t.intake.noDate], ...names], one.date, (name) => ((one.date = name), redraw())),
      ),
      field(
        t.intake.pattern,
        select(patterns, one.pattern, (pattern) => (one.pattern = pattern)),
      ),
      field(t.intake.zone, zone, t.intake.zoneHint),
    ),
    h("label", { class: "take" }, comma, t.intake.comma),
    h("h3", {}, t.intake.headColumns),
    ...one.probes.map((probe) => probeRow(probe, redraw)),
  );
}

type Cell = ImportPreview["refused"][number];

/** Cells that do not go in, each with the reason. */
function cellTable(words: string, cells: readonly Cell[], count: number): HTMLElement | string {
  if (!count) return "";
  const head = h(
    "tr",
    {},
    ...[t.intake.line, t.intake.column, t.intake.cell, t.intake.whyNot].map((one) => h("th", { scope: "col" }, one)),
  );
  const rows = cells.map((cell) =>
    h("tr", {}, h("td", {}, cell.line), h("td", {}, cell.column), h("td", {}, cell.value), h("td", {}, cell.why)),
  );
  return h(
    "details",
    { open: true },
    h("summary", {}, t.intake.cells(words, count, cells.length)),
    h("div", { class: "wide" }, h("table", {}, h("thead", {}, head), h("tbody", {}, ...rows))),
  );
}

function previewPart(one: ImportPreview): HTMLElement {
  const list = h("ul");
  for (const reading of one.first)
    list.append(
      h(
        "li",
        {},
        `${timeText(reading.at_s)}: ${show(kindOf(reading.measure as Measure), reading.value)}, ${reading.place_words}`,
      ),
    );
  return h(
    "div",
    {},
    h("p", { class: "now" }, t.intake.wouldGo(one.good, one.known, one.nothing, one.held_count, one.refused_count)),
    ...one.notes.map((words) => h("p", { class: "why" }, words)),
    one.first.length ? h("div", {}, h("h3", {}, t.intake.headFirst), list) : "",
    cellTable(t.intake.held, one.held, one.held_count),
    cellTable(t.intake.refused, one.refused, one.refused_count),
  );
}

/** A logger's file into the records: its columns named once, a preview, then all of it or nothing. */
export async function intakeView(vessel: string): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const loggers = (await get<{ loggers: Logger[] }>("/api/loggers").catch(() => ({ loggers: [] as Logger[] }))).loggers;
  document.title = t.intake.headFile;
  const filled = yard.vessels.filter((one) => one.fill);
  const root = h("main", { id: "main", tabindex: "-1" }, h("h1", {}, t.intake.headFile));
  if (!filled.length) {
    root.append(h("p", {}, t.intake.none), h("a", { class: "big", href: "#/yard" }, t.round.toYard));
    return root;
  }
  const into = select(
    filled.map((one): [string, string] => [one.fill!.thing ?? one.fill!.id, `${one.vessel.name}: ${one.fill!.batch}`]),
    filled.find((one) => one.vessel.id === vessel)?.fill?.thing ?? "",
    () => clear(),
  );
  const source = h("input", {
    value: loggers[0]?.name ?? "",
    maxlength: 60,
    required: true,
    list: "loggers-known",
    change: () => named(),
  });
  const who = h("input", {
    value: initials(),
    maxlength: 8,
    required: true,
    change: () => keep("initials", who.value.trim()),
  });
  const file = h("input", {
    type: "file",
    accept: ".csv,.txt,text/csv,text/plain",
    change: () => void read().catch(sayError),
  });
  const below = h("div");
  const shown = h("div", { role: "status" });
  let one: Intake | null = null;
  let again = false; // the columns are named anew although they are known
  const clear = (): void => shown.replaceChildren();
  let shownFor = ""; // the known logger that the part below was drawn for
  const knownLogger = (): Logger | undefined => loggers.find((logger) => logger.name === source.value.trim());

  const read = async (): Promise<void> => {
    const picked = file.files?.[0];
    if (!picked) return;
    const text = await picked.text();
    const columns = columnsOf(text);
    one = {
      text,
      file: picked.name,
      columns,
      ...guess(columns, site.units === "us"),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    };
    draw();
  };
  const body = (take_good: boolean, sure = false): Record<string, unknown> => ({
    text: one!.text,
    source: source.value.trim(),
    fill: into.value,
    by: who.value.trim(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    mapping: knownLogger() && !again ? undefined : mappingOf(one!),
    take_good,
    sure,
  });
  const look = async (): Promise<void> => {
    if (!source.value.trim() || !who.value.trim()) return void say(t.intake.nameFirst, { bad: true });
    keep("initials", who.value.trim());
    try {
      const preview = await post<ImportPreview>("/api/imports/preview", body(false));
      const store = button(
        preview.refused_count ? t.intake.storeGood(preview.good) : t.intake.store(preview.good),
        () => void put(false).catch(sayError),
        "big",
      );
      const all = button(t.intake.storeHeld(preview.held_count), () => void put(true).catch(sayError));
      shown.replaceChildren(
        previewPart(preview),
        preview.good ? store : h("p", {}, t.intake.nothing),
        preview.held_count ? all : "",
      );
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      shown.replaceChildren(h("h3", {}, t.intake.headUnread), problemList(error));
    }
  };
  const put = async (sure: boolean): Promise<void> => {
    const done = await post<ImportPreview>("/api/imports", body(true, sure));
    say(t.intake.stored(done.stored ?? 0));
    const at = filled.find((glance) => (glance.fill!.thing ?? glance.fill!.id) === into.value);
    location.hash = `#/vessel/${at?.vessel.id ?? ""}`;
  };
  /** Redraws only when it matters: whoever tabs on from the name must not lose the field they tab to. */
  const named = (): void => {
    clear();
    if ((knownLogger()?.name ?? "") !== shownFor) draw();
  };
  const draw = (): void => {
    clear();
    shownFor = knownLogger()?.name ?? "";
    if (!one) return below.replaceChildren();
    const known = knownLogger();
    const parts: HTMLElement[] = [];
    if (known && !again)
      parts.push(
        h("p", {}, t.intake.known(known.name, known.mapping.probes.length)),
        button(t.intake.anew, () => ((again = true), draw())),
      );
    else parts.push(mappingForm(one, draw));
    parts.push(
      h(
        "p",
        {},
        button(t.intake.look, () => void look().catch(sayError), "big"),
      ),
    );
    below.replaceChildren(...parts);
  };
  root.append(
    h("p", {}, t.intake.about),
    h(
      "section",
      { class: "panel" },
      h(
        "div",
        { class: "row" },
        field(t.intake.into, into),
        field(t.intake.logger, source),
        field(t.yard.initials, who),
        field(t.intake.file, file, t.intake.fileHint),
      ),
      h("datalist", { id: "loggers-known" }, ...loggers.map((logger) => h("option", { value: logger.name }))),
    ),
    below,
    shown,
  );
  return root;
}
