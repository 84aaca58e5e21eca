import { get, type FillRecord, type Lot, type Site } from "../api/client";
import { newId, note } from "../queue/queue";
import { initials } from "../state";
import { cautionBox } from "../ui/cautions";
import { field, h, select } from "../ui/dom";
import { say, sayError } from "../ui/say";
import { show, unit } from "../units/units";
import { isoDay } from "../units/when";

const now = (): number => Math.floor(Date.now() / 1000);
/** Noon of a date input; now for today, so that nothing lies in the future. */
const momentOf = (day: string): number => (day === isoDay(Date.now() / 1000) ? now() : Math.floor(new Date(`${day}T12:00`).getTime() / 1000));
const dayField = (): HTMLInputElement => h("input", { type: "date", value: isoDay(now()), max: isoDay(now()), required: true });
const marks = (): { id: string; by: string; noted_at_s: number } => ({ id: newId(), by: initials(), noted_at_s: now() });
const told = (sent: boolean, words: string): void => say(sent ? words : "Kept in this phone; it is sent when the server is in reach.");

/** A form that is folded away until it is wanted. */
function folded(words: string, body: HTMLElement[], save: () => Promise<void>, ...below: HTMLElement[]): HTMLElement {
  const submit = (event: Event): void => {
    event.preventDefault();
    void save().catch(sayError);
  };
  return h("details", { class: "entry" }, h("summary", {}, words), h("form", { class: "row", submit }, ...body, h("button", { class: "big" }, "Save")), ...below);
}

function labForm(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  const units = new Map(site.lab_keys.map((one) => [one.key, one.unit]));
  const what = select([...site.lab_keys.map((one): [string, string] => [one.key, one.key.replaceAll("_", " ")]), ["", "another"]], "conductivity", (key) => {
    other.parentElement!.hidden = key !== "";
    if (units.has(key)) sign.value = units.get(key)!;
  });
  const of = select([["", "this fill"]], "", () => undefined);
  void get<{ lots: Lot[] }>("/api/lots")
    .then((all) => of.append(...all.lots.map((one) => h("option", { value: one.thing ?? one.id }, `the lot ${one.name}`))))
    .catch(() => undefined);
  const other = h("input", { maxlength: 60 });
  const value = h("input", { type: "number", step: "any", inputmode: "decimal", required: true });
  const sign = h("input", { value: units.get("conductivity") ?? "", maxlength: 40, required: true });
  const laboratory = h("input", { maxlength: 100 });
  const method = h("input", { maxlength: 100 });
  const day = dayField();
  const save = async (): Promise<void> => {
    const key = what.value || other.value.trim().toLowerCase().replaceAll(" ", "_");
    if (!key) return say("Name what was tested", true);
    const sent = await note({ kind_of_entry: "lab_test", ...marks(), ...(of.value ? { lot: of.value } : { fill: record.fill.id }), key, value: Number(value.value), unit: sign.value.trim(), laboratory: laboratory.value.trim() || undefined, method: method.value.trim() || undefined, sampled_s: momentOf(day.value) });
    await redraw();
    told(sent, "The laboratory value is noted.");
  };
  const named = field("Its name", other);
  named.hidden = true;
  return folded("A laboratory value", [field("Sample of", of), field("What was tested", what), named, field("Value", value), field("Unit and basis", sign, "As on the laboratory's sheet; values in another unit than the standard's are kept but not judged."), field("Laboratory", laboratory), field("Method", method), field("Sampled on", day)], save);
}

function lotForm(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  const mass = unit("mass");
  const known = h("div", {});
  const name = h("input", { maxlength: 60, required: true, list: "lots-known" });
  const list = h("datalist", { id: "lots-known" });
  const feedstock = select([["", "not named"], ...site.feedstocks.map((one): [string, string] => [one.id, one.name])], "", () => undefined);
  const supplier = h("input", { maxlength: 100 });
  const used = h("input", { type: "number", step: "any", min: 0, inputmode: "decimal", required: true });
  const day = dayField();
  let lots: Lot[] = [];
  void get<{ lots: Lot[] }>("/api/lots")
    .then((all) => {
      lots = all.lots;
      list.replaceChildren(...lots.map((one) => h("option", { value: one.name })));
      known.replaceChildren(...record.lot_uses.map((one) => h("p", {}, `${lots.find((lot) => lot.thing === one.lot)?.name ?? "a lot"}: ${show("mass", one.mass_wet_kg)} went in`)));
    })
    .catch(() => undefined);
  const save = async (): Promise<void> => {
    const wanted = name.value.trim();
    const old = lots.find((one) => one.name === wanted);
    const lot = marks();
    const use = { kind_of_entry: "lot_use" as const, ...marks(), fill: record.fill.id, lot: old?.thing ?? lot.id, mass_wet_kg: mass.toSi(Number(used.value)) };
    const fresh = { kind_of_entry: "lot" as const, ...lot, name: wanted, feedstock: feedstock.value || undefined, supplier: supplier.value.trim() || undefined, received_s: momentOf(day.value) };
    const sent = old ? await note(use) : await note(fresh, { ...use, noted_at_s: use.noted_at_s + 1 });
    await redraw();
    told(sent, `${wanted} is noted.`);
  };
  return folded("A lot of feedstock that went in", [field("Lot", name, "Its label. A name that is known already means that delivery; the fields below then change nothing."), field("Feedstock", feedstock), field("From", supplier), field("Received on", day), field(`Used as delivered, ${mass.sign}`, used), list], save, known);
}

function spreadingForm(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  const volume = unit("volume");
  const area = unit("area");
  const where = h("input", { maxlength: 100, required: true });
  const much = h("input", { type: "number", step: "any", min: 0, inputmode: "decimal" });
  const ground = h("input", { type: "number", step: "any", min: 0, inputmode: "decimal" });
  const day = dayField();
  const words = h("input", { maxlength: 200 });
  const save = async (): Promise<void> => {
    const si = (input: HTMLInputElement, of: typeof volume): number | undefined => (input.value ? of.toSi(Number(input.value)) : undefined);
    const sent = await note({ kind_of_entry: "spreading", ...marks(), fill: record.fill.id, at_s: momentOf(day.value), place: where.value.trim(), volume_m3: si(much, volume), area_m2: si(ground, area), note: words.value.trim() || undefined });
    await redraw();
    told(sent, "The spreading is noted.");
  };
  return folded("Where the compost was spread", [field("Where", where, "Bed, field or plot."), field(`How much, ${volume.sign}`, much), field(`On what area, ${area.sign}`, ground), field("On", day), field("Words, if wanted", words)], save, cautionBox(site, "spreading"));
}

/** What comes on paper: laboratory values, deliveries, spreading. */
export function papersPanel(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  return h("section", { class: "panel", "aria-labelledby": "papers-title" }, h("h2", { id: "papers-title" }, "Laboratory, lots, spreading"), labForm(record, site, redraw), lotForm(record, site, redraw), spreadingForm(record, site, redraw));
}
