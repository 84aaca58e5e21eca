import { newId, note } from "../queue/queue";
import { designOf, initials, keep, theSite, theYard } from "../state";
import { cautionBox } from "../ui/cautions";
import { field, h } from "../ui/dom";
import { say, sayError } from "../ui/say";
import { isoDay } from "../units/when";

/** Noting that a vessel was filled: its batch begins. */
export async function fillView(vessel: string): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const glance = yard.vessels.find((one) => one.vessel.id === vessel);
  const root = h("main", { id: "main", tabindex: "-1", class: "note" });
  if (!glance) {
    root.append(h("h1", {}, "This vessel is not in the records"));
    return root;
  }
  document.title = `Filling: ${glance.vessel.name}`;
  const design = designOf(site, glance);
  const today = isoDay(Date.now() / 1000);
  const batch = h("input", { value: `${glance.vessel.name} ${today}`, required: true });
  const day = h("input", { type: "date", value: today, max: today, required: true });
  const moisture = h("input", { type: "number", min: 30, max: 85, step: 1, value: Math.round(site.moisture_target_wet * 100) });
  const who = h("input", { value: initials(), maxlength: 8, required: true });
  const save = async (): Promise<void> => {
    keep("initials", who.value.trim());
    const now_s = Math.floor(Date.now() / 1000);
    const filled_s = day.value === today ? now_s : Math.floor(new Date(`${day.value}T12:00`).getTime() / 1000);
    const sent = await note({
      kind_of_entry: "fill",
      id: newId(),
      vessel: glance.vessel.id,
      batch: batch.value.trim(),
      filled_s,
      volume_m3: design?.material_m3,
      moisture_wet: moisture.value ? Number(moisture.value) / 100 : undefined,
      noted_at_s: now_s,
      by: initials(),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    });
    location.hash = "#/yard";
    say(sent ? `${glance.vessel.name} is filled.` : "Kept in this phone; it is sent when the server is in reach.");
  };
  root.append(
    h("h1", {}, `${glance.vessel.name}: filling`),
    h("p", {}, "Note it when the last pail is in. The forms come out after a day."),
    h(
      "form",
      { submit: (event) => (event.preventDefault(), void save().catch(sayError)) },
      field("Name of the batch", batch),
      field("Day of filling", day),
      field("Moisture after soaking, % of wet mass", moisture, "Squeeze a handful: a few drops come out at about 65 %. Leave empty when not known."),
      field("Your initials", who),
      h("button", { class: "big save" }, "Save the filling"),
    ),
    cautionBox(site, "filling"),
  );
  return root;
}
