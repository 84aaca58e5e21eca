import { type Design, type Draft, post } from "../api/client";
import { keepAndSend } from "../queue/keep";
import { newId } from "../queue/queue";
import { designOf, initials, keep, theSite, theYard } from "../state";
import { cautionBox } from "../ui/cautions";
import { field, h } from "../ui/dom";
import { sayError } from "../ui/say";
import { limit } from "../units/limits";
import { isoDay } from "../units/when";
import { fillCard } from "../vessel/cards";
import { t } from "../words/words";

/** What goes in and in which order, by the plan: worked out quickly, told when it cannot be. */
function planPart(design: Design | undefined): HTMLElement | null {
  if (!design) return null;
  const place = h("div", { "aria-live": "polite" }, h("p", { class: "why" }, t.chart.waits));
  post<Draft>("/api/drafts", { design: design.name })
    .then((draft) => place.replaceChildren(fillCard(draft)))
    .catch(() => place.replaceChildren(h("p", { class: "why" }, t.fill.outOfReach)));
  return h("section", { "aria-labelledby": "plan-title" }, h("h2", { id: "plan-title" }, t.fill.headPlan), place);
}

/** Noting that a vessel was filled: its batch begins. */
export async function fillView(vessel: string): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const glance = yard.vessels.find((one) => one.vessel.id === vessel);
  const root = h("main", { id: "main", tabindex: "-1", class: "note" });
  if (!glance) {
    root.append(h("h1", {}, t.reading.headUnknown));
    return root;
  }
  document.title = t.fill.title(glance.vessel.name);
  const design = designOf(site, glance);
  const today = isoDay(Date.now() / 1000);
  const batch = h("input", { value: `${glance.vessel.name} ${today}`, required: true, maxlength: 80 });
  const day = h("input", { type: "date", value: today, max: today, required: true });
  const soaked = limit(site, "soaked_moisture");
  const moisture = h("input", {
    type: "number",
    min: Math.round(soaked.least * 100),
    max: Math.round(soaked.most * 100),
    step: 1,
    value: Math.round(site.moisture_target_wet * 100),
  });
  const who = h("input", { value: initials(), maxlength: 8, required: true });
  let over = false;
  const save = async (): Promise<void> => {
    if (over) return;
    over = true;
    keep("initials", who.value.trim());
    const now_s = Math.floor(Date.now() / 1000);
    const filled_s = day.value === today ? now_s : Math.floor(new Date(`${day.value}T12:00`).getTime() / 1000);
    const entry = {
      kind_of_entry: "fill" as const,
      id: newId(),
      vessel: glance.vessel.id,
      batch: batch.value.trim(),
      filled_s,
      volume_m3: design?.material_m3,
      moisture_wet: moisture.value ? Number(moisture.value) / 100 : undefined,
      noted_at_s: now_s,
      by: initials(),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    };
    over = await keepAndSend(t.fill.done(glance.vessel.name), [entry]);
    if (over) location.hash = "#/yard";
  };
  root.append(
    h("h1", {}, t.fill.head(glance.vessel.name)),
    h("p", {}, t.fill.when),
    cautionBox(site, "filling"),
    planPart(design) ?? "",
    h("h2", {}, t.fill.headNote),
    h(
      "form",
      { submit: (event) => (event.preventDefault(), void save().catch(sayError)) },
      field(t.fill.batch, batch),
      field(t.fill.day, day),
      field(t.fill.moisture, moisture, t.fill.moistureHint),
      field(t.yard.initials, who),
      h("button", { class: "big save" }, t.fill.save),
    ),
  );
  return root;
}
