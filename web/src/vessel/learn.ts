import { type Calibration, OutOfReach, type Outlook, Refused, get, post, remove } from "../api/client";
import { button, h } from "../ui/dom";
import { sayError } from "../ui/say";
import { show } from "../units/units";
import { t } from "../words/words";

const look_ms = 1500; // chosen: the work takes minutes

/** A step of temperature: 1 K is 1.8 degF. */
const step = (kelvin: number | null): string => (kelvin === null ? t.notKnown : show("temperature_step", kelvin, 1));

function row(name: string, one: Outlook): HTMLElement {
  const { low, middle, high } = one.cool_day;
  const cool =
    middle === null
      ? "not within a year in most courses"
      : `day ${middle.toFixed(0)} (${low?.toFixed(0)} to ${high?.toFixed(0)})`;
  const share = one.cool_share_of_members === null ? t.notKnown : show("share", one.cool_share_of_members);
  const never = one.never_warm_share === null ? t.notKnown : show("share", one.never_warm_share);
  return h(
    "tr",
    {},
    h("th", { scope: "row" }, name),
    h("td", {}, step(one.misfit_k)),
    h("td", {}, cool),
    h("td", {}, share),
    h("td", {}, never),
  );
}

function learnedPart(one: Calibration): (HTMLElement | string)[] {
  const learned = one.learned!;
  const head = h(
    "tr",
    {},
    ...[
      "",
      "Misses the readings by",
      "Self-heating ends",
      "Of the courses, no longer heating after a year",
      "Never heated",
    ].map((words) => h("th", { scope: "col" }, words)),
  );
  const table = h(
    "table",
    {},
    h("caption", {}, `Learned from ${learned.readings} days of core readings`),
    h("thead", {}, head),
    h("tbody", {}, row("Before", learned.before), row("After", learned.after)),
  );
  const moved = h("ul");
  for (const value of learned.moved)
    moved.append(
      h(
        "li",
        {},
        `${value.name}: ${(value.mean ?? 0) >= 0 ? "+" : ""}${value.mean?.toFixed(1)}, now uncertain by ${value.deviation?.toFixed(1)}`,
      ),
    );
  return [
    learned.follows
      ? ""
      : h(
          "p",
          { class: "wrong" },
          "The forecast cannot follow these readings: do not use what it learned. Check the probe, the day of filling, the blend and the design.",
        ),
    h("div", { class: "wide" }, table),
    h(
      "p",
      { class: "why" },
      "In the chart of temperatures the dashed lines are the middle and the band after learning. It holds for a heap that the model can follow; no heap in the open has tested it yet.",
    ),
    h("details", {}, h("summary", {}, "What moved most, in standard deviations of what was assumed"), moved),
  ];
}

/** Lets the fill's forecast learn from its readings, in the background, and shows before and after. `changed` gets what
 *  was learned. */
export function learnPanel(
  fill: string,
  changed: (learned: Calibration["learned"]) => void,
  over: AbortSignal,
): HTMLElement {
  const root = h("section", { class: "panel", "aria-labelledby": "learn-title" });
  const path = `/api/fills/${fill}/calibration`;
  const title = h("h2", { id: "learn-title" }, "Let the forecast learn from these readings");
  const order = async (): Promise<void> => draw(await post<Calibration>(path, {}));
  const halt = async (): Promise<void> => {
    await remove(path);
    await look();
  };
  const starter = (words: string): HTMLElement => button(words, () => void order().catch(sayError));
  const draw = (one: Calibration): void => {
    const parts: (HTMLElement | string)[] = [title];
    if (one.state === "refused")
      parts.push(
        h("p", {}, `Not yet: ${one.doing}. Go on reading the core daily; until then the forecast stands as it is.`),
      );
    if (one.state === "none")
      parts.push(
        h("p", {}, `${one.readings} days of core readings are there to learn from. It takes a minute or more.`),
        starter("Learn from the readings"),
      );
    if (one.state === "waiting" || one.state === "running") {
      parts.push(
        h("progress", { max: 1, value: one.share, "aria-label": "Learning" }),
        h("p", { class: "why", role: "status" }, one.doing),
        button("Stop", () => void halt().catch(sayError)),
      );
      window.setTimeout(() => void (over.aborted || look()), look_ms);
    }
    if (one.state === "stopped") parts.push(h("p", {}, "It was stopped; nothing was kept."), starter("Begin again"));
    if (one.state === "failed")
      parts.push(
        ...one.problems.map((problem) => h("p", { class: "wrong" }, `${problem.what}: ${problem.mend}.`)),
        starter("Try again"),
      );
    if (one.state === "ready") parts.push(...learnedPart(one), starter("Learn anew from all readings"));
    root.replaceChildren(...parts);
    changed(one.state === "ready" ? one.learned : null);
  };
  const look = async (): Promise<void> => {
    try {
      draw(await get<Calibration>(path, over));
    } catch (error) {
      if (error instanceof OutOfReach || error instanceof Refused)
        root.replaceChildren(title, h("p", { class: "why" }, "The server works this out, which is out of reach."));
    }
  };
  void look();
  return root;
}
