import { postBytes, type EventKind, type FillRecord, type Readings, type Site } from "../api/client";
import { newId, note } from "../queue/queue";
import { initials } from "../state";
import { cautionBox, type Work } from "../ui/cautions";
import { button, field, h, select } from "../ui/dom";
import { say, sayError } from "../ui/say";
import { currentSystem, kindOf, measureWords, show } from "../units/units";
import { timeText } from "../units/when";

interface Line {
  at_s: number;
  what: string;
  by?: string;
  /** a reading that can be corrected */
  reading?: { id: string; fill: string };
}

const most_lines = 60; // chosen

function lines(record: FillRecord, readings: Readings, site: Site): Line[] {
  const words = new Map(site.event_kinds.map((one) => [one.key, one.words]));
  const all: Line[] = [{ at_s: record.fill.filled_s, what: `filled, batch ${record.fill.batch}`, by: record.fill.by }];
  for (const one of record.events) all.push({ at_s: one.at_s, what: `${words.get(one.kind) ?? one.kind}${one.note ? `: ${one.note}` : ""}`, by: one.by });
  for (const one of record.lab_tests) all.push({ at_s: one.sampled_s, what: `laboratory: ${one.key} ${one.value} ${one.unit}`, by: one.by });
  for (const one of record.spreadings) all.push({ at_s: one.at_s, what: `spread: ${one.place ?? "place not noted"}`, by: one.by });
  for (const one of record.photos) all.push({ at_s: one.taken_s, what: `photo${one.note ? `: ${one.note}` : ""}`, by: one.by });
  for (const series of readings.series) {
    for (const [i, at_s] of series.at_s.entries()) {
      const value = show(kindOf(series.measure), series.value[i]);
      all.push({ at_s, what: `${measureWords[series.measure].toLowerCase()} ${value}, ${series.place_words}`, reading: { id: series.id[i]!, fill: record.fill.id } });
    }
  }
  return all.sort((a, b) => b.at_s - a.at_s);
}

/** Takes a reading back; the old one stays in the records with the reason. */
async function takeBack(line: Line, readings: Readings, redraw: () => void): Promise<void> {
  const reason = window.prompt(`Why is "${line.what}" wrong? It stays in the records with this reason.`);
  if (!reason || !line.reading) return;
  const id = line.reading.id;
  const series = readings.series.find((one) => one.id.includes(id))!;
  const i = series.id.indexOf(id);
  const sent = await note({
    kind_of_entry: "reading",
    id: newId(),
    corrects: id,
    reason,
    withdrawn: true,
    fill: line.reading.fill,
    measure: series.measure,
    at_s: series.at_s[i]!,
    value: series.value[i]!,
    by: initials(),
    noted_at_s: Math.floor(Date.now() / 1000),
  });
  say(sent ? "Taken back; the old value stays in the records." : "Kept in this phone; it is sent when the server is in reach.");
  redraw();
}

export function recordList(record: FillRecord, readings: Readings, site: Site, redraw: () => void): HTMLElement {
  const all = lines(record, readings, site);
  const list = h("ul", { class: "record" });
  for (const one of all.slice(0, most_lines)) {
    const back = one.reading ? button("Take back", () => void takeBack(one, readings, redraw).catch(sayError), "small") : null;
    back?.setAttribute("aria-label", `Take back: ${one.what}`);
    list.append(h("li", {}, h("time", { datetime: new Date(one.at_s * 1000).toISOString() }, timeText(one.at_s)), h("span", {}, one.what, one.by ? h("small", {}, ` ${one.by}`) : null), back));
  }
  return h(
    "section",
    { class: "panel", "aria-labelledby": "record-title" },
    h("h2", { id: "record-title" }, "Record"),
    list,
    all.length > most_lines ? h("p", { class: "why" }, `and ${all.length - most_lines} older; the whole is in the file below.`) : null,
    readings.corrected.length ? h("p", { class: "why" }, `${readings.corrected.length} readings were corrected; the old values stay in the records.`) : null,
    h(
      "p",
      { class: "files" },
      h("a", { class: "big", href: `/api/fills/${record.fill.thing ?? record.fill.id}/batch.pdf?units=${currentSystem()}`, download: `${record.fill.batch}.pdf` }, "Batch record to print (PDF)"),
      h("a", { class: "button", href: `/api/fills/${record.fill.thing ?? record.fill.id}/batch`, download: `${record.fill.batch}.json` }, "The same as data (JSON)"),
    ),
  );
}

/** A photo goes straight to the server: it is too large for the queue of a phone. */
export function photoForm(record: FillRecord, redraw: () => void): HTMLElement {
  const file = h("input", { type: "file", accept: "image/jpeg,image/png,image/webp" });
  const send = async (): Promise<void> => {
    const picture = file.files?.[0];
    if (!picture) return say("Choose a picture first", true);
    const query = new URLSearchParams({ id: newId(), fill: record.fill.thing ?? record.fill.id, taken_at: new Date(picture.lastModified).toISOString(), by: initials() });
    await postBytes(`/api/photos?${query.toString()}`, picture);
    say("The photo is kept.");
    redraw();
  };
  return h(
    "section",
    { class: "panel", "aria-labelledby": "photo-title" },
    h("h2", { id: "photo-title" }, "Photos"),
    h("div", { class: "photos" }, ...record.photos.map((one) => h("img", { src: `/api/photos/${one.sha256}`, loading: "lazy", alt: `${record.fill.batch} on ${timeText(one.taken_s)}${one.note ? `: ${one.note}` : ""}` }))),
    h("form", { class: "row", submit: (event) => (event.preventDefault(), void send().catch(sayError)) }, field("Add a picture", file, "Needs the server in reach."), h("button", {}, "Keep it")),
  );
}

/** Which cautions stand beside an event. */
const workOf: Partial<Record<EventKind, Work>> = { forms_out: "hot phase", sprinkled: "watering", covered: "hot phase", channel_cleared: "hot phase", sampled: "hot phase", harvested: "harvest", emptied: "harvest" };

/** Noting what was done: sprinkled, forms out, worms in, harvested. */
export function eventForm(record: FillRecord, site: Site, redraw: () => void): HTMLElement {
  const cautions = h("div");
  let kind: EventKind = record.events.some((one) => one.kind === "forms_out") ? "sprinkled" : "forms_out";
  const showCaution = (): void => cautions.replaceChildren(cautionBox(site, workOf[kind] ?? "hot phase"));
  const what = select(site.event_kinds.map((one) => [one.key, one.words]), kind, (chosen) => ((kind = chosen as EventKind), showCaution()));
  const words = h("input", { maxlength: 200 });
  const save = async (): Promise<void> => {
    const now_s = Math.floor(Date.now() / 1000);
    const sent = await note({ kind_of_entry: "event", id: newId(), fill: record.fill.id, kind, at_s: now_s, noted_at_s: now_s, by: initials(), note: words.value.trim() || undefined });
    say(sent ? "Noted." : "Kept in this phone; it is sent when the server is in reach.");
    redraw();
  };
  showCaution();
  return h(
    "section",
    { class: "panel", "aria-labelledby": "done-title" },
    h("h2", { id: "done-title" }, "Note what was done"),
    h("form", { class: "row", submit: (event) => (event.preventDefault(), void save().catch(sayError)) }, field("What", what), field("Words, if wanted", words), h("button", { class: "big" }, "Save")),
    cautions,
  );
}
