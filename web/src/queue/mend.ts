import type { Measure } from "../api/client";
import { draftOf, readingForm } from "../note/reading-form";
import { theSite, theYard } from "../state";
import { button, field, h } from "../ui/dom";
import { sayError } from "../ui/say";
import { kindOf, unit } from "../units/units";
import { kindWords, t } from "../words/words";
import { keepAndSend } from "./keep";
import { type Entry, type Waiting, drop, sendAgain, waitingOne } from "./queue";

const fixed = new Set([
  "id",
  "kind_of_entry",
  "fill",
  "vessel",
  "lot",
  "thing",
  "corrects",
  "withdrawn",
  "zone",
  "by",
  "noted_at_s",
  "measure",
  "kind",
  "written",
]);

/** Every field of an entry that a hand may have got wrong. Moments are seconds, told as a date. */
function fields(entry: Entry): { nodes: HTMLElement[]; read: () => Entry } {
  const inputs = Object.entries(entry)
    .filter(([key, value]) => !fixed.has(key) && (typeof value === "string" || typeof value === "number"))
    .map(([key, value]) => {
      const moment = key.endsWith("_s") && key !== "duration_s";
      const shown = moment ? new Date(Number(value) * 1000).toISOString().slice(0, 16) : String(value);
      return {
        key,
        value,
        moment,
        input: h("input", {
          type: moment ? "datetime-local" : "text",
          inputmode: typeof value === "number" && !moment ? "decimal" : null,
          value: shown,
        }),
      };
    });
  const read = (): Entry => {
    const made: Entry = { ...entry };
    for (const { key, value, moment, input } of inputs) {
      if (moment) made[key] = Math.floor(Date.parse(`${input.value}Z`) / 1000);
      else made[key] = typeof value === "number" ? Number(input.value.replace(",", ".")) : input.value.trim();
    }
    return made;
  };
  return {
    nodes: inputs.map(({ key, input, moment }) =>
      field(
        key === "batch" ? t.fill.batch : (t.mend.fields[key] ?? key.replaceAll("_", " ")),
        input,
        moment ? t.mend.utc : "",
      ),
    ),
    read,
  };
}

function plainForm(one: Waiting, back: () => void): HTMLElement {
  const { nodes, read } = fields(one.entry);
  const save = (event: Event): void => {
    event.preventDefault();
    void keepAndSend(t.mend.what(kindWords(one.entry.kind_of_entry)), [read()])
      .then(back)
      .catch(sayError);
  };
  return h("form", { submit: save }, ...nodes, h("button", { class: "big save" }, t.mend.again));
}

async function readingPart(one: Waiting, back: () => void): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const { fill, measure, place, value } = one.entry as {
    fill?: string;
    measure?: Measure;
    place?: string;
    value?: number;
  };
  const glance = yard.vessels.find((other) => other.fill && (other.fill.id === fill || other.fill.thing === fill));
  if (!glance || !measure) return plainForm(one, back);
  const draft = draftOf(glance, measure, place ?? "");
  draft.value = Number(
    unit(kindOf(measure))
      .fromSi(value ?? Number.NaN)
      .toFixed(1),
  );
  return readingForm({
    glance,
    site,
    draft,
    mended: one.entry,
    saved: (entry, words) => void keepAndSend(words, [entry]).then(back).catch(sayError),
  });
}

/** Sends what is unlikely again, as meant. */
function meant(one: Waiting, back: () => void): void {
  void keepAndSend(t.mend.what(kindWords(one.entry.kind_of_entry)), [{ ...one.entry, sure: true }])
    .then(back)
    .catch(sayError);
}

/** An entry that the server refused: what was wrong, its fields to change, and sending it again. */
export async function mendView(id: string): Promise<HTMLElement> {
  const one = await waitingOne(id);
  document.title = t.mend.headMend;
  const root = h("main", { id: "main", tabindex: "-1", class: "note" }, h("h1", {}, t.mend.headMend));
  const back = (): void => void (location.hash = "#/setup");
  if (!one) return root.append(h("p", {}, t.mend.gone), h("a", { class: "big", href: "#/yard" }, t.round.toYard)), root;
  if (one.refused) root.append(h("p", { class: "wrong" }, one.refused));
  if (one.unlikely) root.append(button(t.mend.sure, () => meant(one, back), "big"));
  if (one.picture) root.append(button(t.mend.again, () => void sendAgain(one).then(back).catch(sayError), "big"));
  else
    root.append(
      one.entry.kind_of_entry === "reading" && !one.entry["withdrawn"]
        ? await readingPart(one, back)
        : plainForm(one, back),
    );
  root.append(
    h(
      "p",
      {},
      button(t.mend.away, () => void drop(id).then(back).catch(sayError), "small"),
    ),
  );
  return root;
}
