import type { EventKind, FillRecord, Readings, Site } from "../api/client";
import { keepAndSend, keepAndSendPicture } from "../queue/keep";
import { type Entry, newId, onQueue, waiting, withdrawalOf } from "../queue/queue";
import { initials } from "../state";
import { type Work, cautionBox } from "../ui/cautions";
import { button, field, h, select } from "../ui/dom";
import { clearForm } from "../ui/keep-place";
import { say, sayError } from "../ui/say";
import { currentSystem, kindOf, show } from "../units/units";
import { timeText } from "../units/when";
import { eventWords, t } from "../words/words";
import { endsBatch } from "../yard/tasks";

interface Line {
  at_s: number;
  what: string;
  by?: string;
  /** what can be taken back */
  entry?: Entry;
}

const most_lines = 60; // chosen

/** A statement of the server as an entry that may be sent again: without what the server added. */
function entryOf(kind: Entry["kind_of_entry"], said: object): Entry {
  const {
    thing: _thing,
    corrects: _corrects,
    reason: _reason,
    withdrawn: _withdrawn,
    place_words: _words,
    ...own
  } = said as Record<string, unknown>;
  return { ...own, kind_of_entry: kind } as Entry;
}

function lines(record: FillRecord, readings: Readings, site: Site): Line[] {
  const words = new Map(site.event_kinds.map((one) => [one.key, eventWords(one.key, one.words)]));
  const all: Line[] = [
    {
      at_s: record.fill.filled_s,
      what: t.record.filled(record.fill.batch),
      by: record.fill.by,
      entry: entryOf("fill", record.fill),
    },
  ];
  for (const one of record.events)
    all.push({
      at_s: one.at_s,
      what: `${words.get(one.kind) ?? one.kind}${one.volume_m3 ? `, ${show("water", one.volume_m3 * 1000)}` : ""}${one.note ? `: ${one.note}` : ""}`,
      by: one.by,
      entry: entryOf("event", one),
    });
  for (const one of record.lab_tests)
    all.push({
      at_s: one.sampled_s,
      what: t.record.lab(one.key, one.value, one.unit),
      by: one.by,
      entry: entryOf("lab_test", one),
    });
  for (const one of record.spreadings)
    all.push({
      at_s: one.at_s,
      what: t.record.spread(one.place ?? t.reading.placeUnknown),
      by: one.by,
      entry: entryOf("spreading", one),
    });
  for (const one of record.photos) all.push({ at_s: one.taken_s, what: t.record.photo(one.note ?? ""), by: one.by });
  const fill = record.fill.thing ?? record.fill.id;
  for (const series of readings.series) {
    for (const [i, at_s] of series.at_s.entries()) {
      const value = show(kindOf(series.measure), series.value[i]);
      const entry = entryOf("reading", {
        id: series.id[i],
        fill,
        measure: series.measure,
        at_s,
        value: series.value[i],
      });
      all.push({ at_s, what: `${t.lower(t.measure[series.measure])} ${value}, ${series.place_words}`, entry });
    }
  }
  return all.sort((a, b) => b.at_s - a.at_s);
}

/** Takes an entry back; what it said stays in the records with the reason. */
async function takeBack(line: Line, redraw: () => void): Promise<void> {
  const reason = window.prompt(t.record.whyWrong(line.what));
  if (!reason?.trim() || !line.entry) return;
  await keepAndSend(t.record.takeBackOf(line.what), [withdrawalOf(line.entry, reason.trim(), initials())], redraw);
  redraw();
}

export function recordList(record: FillRecord, readings: Readings, site: Site, redraw: () => void): HTMLElement {
  const all = lines(record, readings, site);
  const list = h("ul", { class: "record" });
  for (const one of all.slice(0, most_lines)) {
    const back = one.entry
      ? button(t.record.takeBack, () => void takeBack(one, redraw).catch(sayError), "small")
      : null;
    back?.setAttribute("aria-label", t.record.takeBackOf(one.what));
    list.append(
      h(
        "li",
        {},
        h("time", { datetime: new Date(one.at_s * 1000).toISOString() }, timeText(one.at_s)),
        h("span", {}, one.what, one.by ? h("small", {}, ` ${one.by}`) : null),
        back,
      ),
    );
  }
  return h(
    "section",
    { class: "panel", "aria-labelledby": "record-title" },
    h("h2", { id: "record-title" }, t.record.headRecord),
    list,
    all.length > most_lines ? h("p", { class: "why" }, t.record.older(all.length - most_lines)) : null,
    readings.corrected.length ? h("p", { class: "why" }, t.record.corrected(readings.corrected.length)) : null,
    h(
      "p",
      { class: "files" },
      h(
        "a",
        {
          class: "big",
          href: `/api/fills/${record.fill.thing ?? record.fill.id}/batch.pdf?units=${currentSystem()}`,
          download: `${record.fill.batch}.pdf`,
        },
        t.record.pdf,
      ),
      h(
        "a",
        {
          class: "button",
          href: `/api/fills/${record.fill.thing ?? record.fill.id}/batch`,
          download: `${record.fill.batch}.json`,
        },
        t.record.json,
      ),
    ),
  );
}

/** Photos of this fill that are still on the phone. */
async function waitingPictures(fills: readonly string[]): Promise<HTMLElement[]> {
  const all = await waiting().catch(() => []);
  return all
    .filter((one) => one.picture && fills.includes(String(one.entry["fill"])))
    .map(({ picture }) => {
      const src = URL.createObjectURL(picture!);
      const free = (): void => URL.revokeObjectURL(src);
      return h(
        "figure",
        {},
        h("img", { src, alt: t.record.photoWaits, load: free }),
        h("figcaption", {}, t.record.photoWaits),
      );
    });
}

/** Photos, kept in the phone until the server has them. */
export function photoForm(record: FillRecord, redraw: () => void): HTMLElement {
  const file = h("input", { type: "file", accept: "image/jpeg,image/png,image/webp" });
  const fill = record.fill.thing ?? record.fill.id;
  const keepIt = async (): Promise<void> => {
    const picture = file.files?.[0];
    if (!picture) return void say(t.record.pictureFirst, { bad: true });
    if (!initials()) return void say(t.kept.initialsFirst, { bad: true });
    const about = { id: newId(), fill, taken_s: Math.floor(picture.lastModified / 1000), by: initials() };
    const bytes = new Blob([await picture.arrayBuffer()], { type: picture.type }); // the file itself may go away
    if (await keepAndSendPicture(t.record.thePhoto, about, bytes)) form.reset();
  };
  const shown = h(
    "div",
    { class: "photos" },
    ...record.photos.map((one) =>
      h("img", {
        src: `/api/photos/${one.sha256}`,
        loading: "lazy",
        alt: t.record.on(record.fill.batch, timeText(one.taken_s), one.note ?? ""),
      }),
    ),
  );
  const stillHere = h("div", { class: "photos" });
  const follow = async (): Promise<void> => {
    const all = await waitingPictures([record.fill.id, fill]);
    const sent = all.length < stillHere.childElementCount;
    stillHere.replaceChildren(...all);
    if (sent && stillHere.isConnected) redraw();
  };
  const leave = onQueue(() => void follow());
  window.addEventListener("hashchange", leave, { once: true });
  void follow();
  const form = h(
    "form",
    { class: "row", submit: (event) => (event.preventDefault(), void keepIt().catch(sayError)) },
    field(t.record.picture, file, t.record.pictureHint),
    h("button", {}, t.record.keepPicture),
  );
  return h(
    "section",
    { class: "panel", "aria-labelledby": "photo-title" },
    h("h2", { id: "photo-title" }, t.record.headPhotos),
    shown,
    stillHere,
    form,
  );
}

/** Which cautions stand beside an event. */
const workOf: Partial<Record<EventKind, Work>> = {
  forms_out: "hot phase",
  sprinkled: "watering",
  covered: "hot phase",
  channel_cleared: "hot phase",
  sampled: "hot phase",
  harvested: "harvest",
  emptied: "harvest",
};

/** Noting what was done: sprinkled, forms out, worms in, harvested. */
export function eventForm(record: FillRecord, site: Site, redraw: () => void): HTMLElement {
  const cautions = h("div");
  const ask = h("div", { role: "alert" });
  let kind: EventKind = record.events.some((one) => one.kind === "forms_out") ? "sprinkled" : "forms_out";
  const showCaution = (): void => cautions.replaceChildren(cautionBox(site, workOf[kind] ?? "hot phase"));
  const what = select(
    site.event_kinds.map((one) => [one.key, eventWords(one.key, one.words)]),
    kind,
    (chosen) => ((kind = chosen as EventKind), ask.replaceChildren(), showCaution()),
  );
  const words = h("input", { maxlength: 200 });
  let over = false;
  const save = async (): Promise<void> => {
    if (over) return;
    if (!initials()) return void say(t.kept.initialsFirst, { bad: true });
    over = true;
    const now_s = Math.floor(Date.now() / 1000);
    const told = eventWords(kind, site.event_kinds.find((one) => one.key === kind)?.words);
    const entry: Entry = {
      kind_of_entry: "event",
      id: newId(),
      fill: record.fill.thing ?? record.fill.id,
      kind,
      at_s: now_s,
      noted_at_s: now_s,
      by: initials(),
      note: words.value.trim() || undefined,
    };
    over = await keepAndSend(`${record.vessel?.name ?? record.fill.batch}: ${told}`, [entry], redraw);
    if (!over) return;
    clearForm(form);
    window.setTimeout(() => (over = false), 1000); // a second tap notes nothing
  };
  const go = (): void => void save().catch(sayError);
  const submit = (event: Event): void => {
    event.preventDefault();
    if (!endsBatch(kind)) return go();
    ask.replaceChildren(
      h("p", { class: "now" }, t.task.ends(record.vessel?.name ?? record.fill.batch)),
      h(
        "div",
        { class: "pair" },
        button(t.task.no, () => ask.replaceChildren(), "big quiet"),
        button(t.task.endsYes, go, "big"),
      ),
    );
  };
  showCaution();
  const form = h(
    "form",
    { class: "row", submit },
    field(t.record.what, what),
    field(t.record.note, words),
    h("button", { class: "big" }, t.record.save),
  );
  return h(
    "section",
    { class: "panel", "aria-labelledby": "done-title" },
    h("h2", { id: "done-title" }, t.record.headDone),
    cautions,
    form,
    ask,
  );
}
