import { type FillRecord, type Lot, type Site, get } from "../api/client";
import { keepAndSend } from "../queue/keep";
import { newId } from "../queue/queue";
import { initials } from "../state";
import { cautionBox } from "../ui/cautions";
import { field, h, select } from "../ui/dom";
import { clearForm } from "../ui/keep-place";
import { say, sayError } from "../ui/say";
import { show, unit } from "../units/units";
import { isoDay } from "../units/when";
import { t } from "../words/words";

const now = (): number => Math.floor(Date.now() / 1000);
/** Noon of a date input; now for today, so that nothing lies in the future. */
const momentOf = (day: string): number =>
  day === isoDay(Date.now() / 1000) ? now() : Math.floor(new Date(`${day}T12:00`).getTime() / 1000);
const dayField = (): HTMLInputElement =>
  h("input", { type: "date", value: isoDay(now()), max: isoDay(now()), required: true });
const marks = (): { id: string; by: string; noted_at_s: number } => ({
  id: newId(),
  by: initials(),
  noted_at_s: now(),
});

/** A form that is folded away until it is wanted, and again once it was kept; `save` tells whether it was. */
function folded(
  words: string,
  body: HTMLElement[],
  save: () => Promise<boolean>,
  ...below: HTMLElement[]
): HTMLElement {
  let over = false; // a second tap saves nothing; once kept, the form is empty, and what it needs is asked for again
  const submit = (event: Event): void => {
    event.preventDefault();
    if (over) return;
    if (!initials()) return void say(t.kept.initialsFirst, { bad: true });
    over = true;
    void save()
      .then((good) => {
        if (!good) return;
        clearForm(form);
        fold.open = false;
      })
      .catch(sayError)
      .finally(() => (over = false));
  };
  const form = h("form", { class: "row", submit }, ...body, h("button", { class: "big" }, t.record.save));
  const fold = h("details", { class: "entry" }, h("summary", {}, words), form, ...below);
  return fold;
}

function labForm(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  const units = new Map(site.lab_keys.map((one) => [one.key, one.unit]));
  const what = select(
    [...site.lab_keys.map((one): [string, string] => [one.key, one.key.replaceAll("_", " ")]), ["", t.papers.another]],
    "conductivity",
    (key) => {
      other.parentElement!.hidden = key !== "";
      if (units.has(key)) sign.value = units.get(key)!;
    },
  );
  const of = select([["", t.papers.thisFill]], "", () => undefined);
  void get<{ lots: Lot[] }>("/api/lots")
    .then((all) =>
      of.append(...all.lots.map((one) => h("option", { value: one.thing ?? one.id }, t.papers.theLot(one.name)))),
    )
    .catch(() => undefined);
  const other = h("input", { maxlength: 60 });
  const value = h("input", { type: "number", step: "any", inputmode: "decimal", required: true });
  const sign = h("input", { value: units.get("conductivity") ?? "", maxlength: 40, required: true });
  const laboratory = h("input", { maxlength: 100 });
  const method = h("input", { maxlength: 100 });
  const day = dayField();
  const save = async (): Promise<boolean> => {
    const key = what.value || other.value.trim().toLowerCase().replaceAll(" ", "_");
    if (!key) {
      say(t.papers.nameIt, { bad: true });
      return false;
    }
    return keepAndSend(
      t.papers.labDone,
      [
        {
          kind_of_entry: "lab_test",
          ...marks(),
          ...(of.value ? { lot: of.value } : { fill: record.fill.id }),
          key,
          value: Number(value.value),
          unit: sign.value.trim(),
          laboratory: laboratory.value.trim() || undefined,
          method: method.value.trim() || undefined,
          sampled_s: momentOf(day.value),
        },
      ],
      redraw,
    );
  };
  const named = field(t.papers.itsName, other);
  named.hidden = true;
  return folded(
    t.papers.labTitle,
    [
      field(t.papers.labOf, of),
      field(t.papers.tested, what),
      named,
      field(t.papers.value, value),
      field(t.papers.unit, sign, t.papers.unitHint),
      field(t.papers.laboratory, laboratory),
      field(t.papers.method, method),
      field(t.papers.sampled, day),
    ],
    save,
  );
}

function lotForm(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  const mass = unit("mass");
  const known = h("div", {});
  const name = h("input", { maxlength: 60, required: true, list: "lots-known" });
  const list = h("datalist", { id: "lots-known" });
  const feedstock = select(
    [["", t.papers.notNamed], ...site.feedstocks.map((one): [string, string] => [one.id, one.name])],
    "",
    () => undefined,
  );
  const supplier = h("input", { maxlength: 100 });
  const used = h("input", { type: "number", step: "any", min: 0, inputmode: "decimal", required: true });
  const day = dayField();
  let lots: Lot[] = [];
  void get<{ lots: Lot[] }>("/api/lots")
    .then((all) => {
      lots = all.lots;
      list.replaceChildren(...lots.map((one) => h("option", { value: one.name })));
      known.replaceChildren(
        ...record.lot_uses.map((one) =>
          h(
            "p",
            {},
            t.papers.wentIn(
              lots.find((lot) => lot.thing === one.lot)?.name ?? t.papers.aLot,
              show("mass", one.mass_wet_kg),
            ),
          ),
        ),
      );
    })
    .catch(() => undefined);
  const save = async (): Promise<boolean> => {
    const wanted = name.value.trim();
    const old = lots.find((one) => one.name === wanted);
    const lot = marks();
    const use = {
      kind_of_entry: "lot_use" as const,
      ...marks(),
      fill: record.fill.id,
      lot: old?.thing ?? lot.id,
      mass_wet_kg: mass.toSi(Number(used.value)),
    };
    const fresh = {
      kind_of_entry: "lot" as const,
      ...lot,
      name: wanted,
      feedstock: feedstock.value || undefined,
      supplier: supplier.value.trim() || undefined,
      received_s: momentOf(day.value),
    };
    return keepAndSend(wanted, old ? [use] : [fresh, use], redraw);
  };
  return folded(
    t.papers.lotTitle,
    [
      field(t.papers.lot, name, t.papers.lotHint),
      field(t.papers.feedstock, feedstock),
      field(t.papers.from, supplier),
      field(t.papers.received, day),
      field(t.papers.used(mass.sign), used),
      list,
    ],
    save,
    known,
  );
}

function spreadingForm(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  const volume = unit("volume");
  const area = unit("area");
  const where = h("input", { maxlength: 100, required: true });
  const much = h("input", { type: "number", step: "any", min: 0, inputmode: "decimal" });
  const ground = h("input", { type: "number", step: "any", min: 0, inputmode: "decimal" });
  const day = dayField();
  const words = h("input", { maxlength: 200 });
  const save = async (): Promise<boolean> => {
    const si = (input: HTMLInputElement, of: typeof volume): number | undefined =>
      input.value ? of.toSi(Number(input.value)) : undefined;
    return keepAndSend(
      t.papers.spreadDone,
      [
        {
          kind_of_entry: "spreading",
          ...marks(),
          fill: record.fill.id,
          at_s: momentOf(day.value),
          place: where.value.trim(),
          volume_m3: si(much, volume),
          area_m2: si(ground, area),
          note: words.value.trim() || undefined,
        },
      ],
      redraw,
    );
  };
  return folded(
    t.papers.spreadTitle,
    [
      field(t.papers.where, where, t.papers.whereHint),
      field(t.papers.howMuch(volume.sign), much),
      field(t.papers.area(area.sign), ground),
      field(t.papers.on, day),
      field(t.record.note, words),
    ],
    save,
    cautionBox(site, "spreading"),
  );
}

/** What comes on paper: laboratory values, deliveries, spreading. */
export function papersPanel(record: FillRecord, site: Site, redraw: () => void | Promise<void>): HTMLElement {
  return h(
    "section",
    { class: "panel", "aria-labelledby": "papers-title" },
    h("h2", { id: "papers-title" }, t.papers.headPapers),
    labForm(record, site, redraw),
    lotForm(record, site, redraw),
    spreadingForm(record, site, redraw),
  );
}
