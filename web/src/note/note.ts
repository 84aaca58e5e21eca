import type { Measure } from "../api/client";
import { keepAndSend } from "../queue/keep";
import { keepPlace, lastPlace, theSite, theYard } from "../state";
import { cautionBox } from "../ui/cautions";
import { h } from "../ui/dom";
import { sayError } from "../ui/say";
import { t } from "../words/words";
import { draftOf, readingForm } from "./reading-form";

/** Entry of a reading: the value and Save, the rest is remembered. Goes back to where it was opened from. */
export async function noteView(vessel: string, measure: Measure = "temperature"): Promise<HTMLElement> {
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const glance = yard.vessels.find((one) => one.vessel.id === vessel || one.vessel.thing === vessel);
  const root = h("main", { id: "main", tabindex: "-1", class: "note" });
  if (!glance?.fill) {
    root.append(h("h1", {}, glance ? t.reading.headNotFilled : t.reading.headUnknown));
    if (glance) root.append(h("a", { href: `#/fill/${vessel}`, class: "big" }, t.reading.fillIt));
    return root;
  }
  document.title = t.reading.title(glance.vessel.name);
  const draft = draftOf(glance, measure, lastPlace(vessel));
  const title = h("h1", {}, t.reading.head(glance.vessel.name, t.lower(t.measure[draft.measure])));
  const form = readingForm({
    glance,
    site,
    draft,
    saved: (entry, words) => {
      keepPlace(vessel, draft.place);
      void keepAndSend(words, [entry])
        .then((kept) => kept && (location.hash = "#/yard"))
        .catch(sayError);
    },
  });
  form.addEventListener(
    "click",
    () => (title.textContent = t.reading.head(glance.vessel.name, t.lower(t.measure[draft.measure]))),
  );
  root.append(title, form, cautionBox(site, "hot phase"));
  return root;
}
