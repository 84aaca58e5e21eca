import { type FillRecord, type Glance, type Readings, type Site, type VesselFills, get } from "../api/client";
import { theSite } from "../state";
import { h } from "../ui/dom";
import { currentSystem } from "../units/units";
import { dateText } from "../units/when";
import { eventWords, t } from "../words/words";
import { papersPanel } from "./papers";
import { photoForm, recordList } from "./record";

type OneFill = VesselFills["fills"][number];

const idOf = (one: OneFill): string => one.fill.thing ?? one.fill.id;

function endWords(ended: OneFill["ended"], site: Site): string {
  if (!ended) return t.earlier.still;
  return `${eventWords(ended.kind, site.event_kinds.find((one) => one.key === ended.kind)?.words)} ${dateText(ended.at_s)}`;
}

function item(one: OneFill, site: Site): HTMLElement {
  const { batch, filled_s } = one.fill;
  return h(
    "li",
    {},
    h("span", {}, h("strong", {}, batch), `, ${t.earlier.filled(dateText(filled_s), endWords(one.ended, site))}`),
    h(
      "a",
      { class: "button", href: `#/batch/${idOf(one)}`, "aria-label": t.earlier.recordOf(batch) },
      t.earlier.record,
    ),
    h(
      "a",
      {
        class: "button",
        href: `/api/fills/${idOf(one)}/batch.pdf?units=${currentSystem()}`,
        download: `${batch}.pdf`,
        "aria-label": t.earlier.pdfOf(batch),
      },
      t.earlier.pdf,
    ),
  );
}

/** Fills of a vessel that are over, the latest first; nothing when there are none or the server was never asked. */
export async function earlierPanel(glance: Glance, site: Site): Promise<HTMLElement | ""> {
  const all = await get<VesselFills>(`/api/vessels/${glance.vessel.thing ?? glance.vessel.id}/fills`).catch(() => null);
  const over = all?.fills.filter((one) => one.ended) ?? [];
  if (!over.length) return "";
  return h(
    "section",
    { class: "panel", "aria-labelledby": "earlier-title" },
    h("h2", { id: "earlier-title" }, t.earlier.headEarlier),
    h("ul", { class: "earlier" }, ...over.map((one) => item(one, site))),
  );
}

/** The record of one fill, over or not: what was noted, and what comes on paper after harvest. */
export async function batchView(fill: string, redraw: () => void): Promise<HTMLElement> {
  const [site, record, readings] = await Promise.all([
    theSite(),
    get<FillRecord>(`/api/fills/${fill}`),
    get<Readings>(`/api/fills/${fill}/readings`),
  ]);
  const { batch, filled_s } = record.fill;
  document.title = batch;
  const ended = record.events.find((one) => one.kind === "harvested" || one.kind === "emptied") ?? null;
  const vessel = record.vessel;
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, batch),
    h(
      "p",
      { class: "state" },
      `${vessel ? `${vessel.name}; ` : ""}${t.earlier.filled(dateText(filled_s), endWords(ended, site))}`,
    ),
    vessel
      ? h(
          "p",
          { class: "files" },
          h("a", { class: "button", href: `#/vessel/${vessel.thing ?? vessel.id}` }, t.earlier.to(vessel.name)),
        )
      : null,
    papersPanel(record, site, redraw),
    photoForm(record, redraw),
    recordList(record, readings, site, redraw),
  );
}
