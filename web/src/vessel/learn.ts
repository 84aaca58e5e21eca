import { type Calibration, OutOfReach, type Outlook, Refused, get, post, problemWords, remove } from "../api/client";
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
    middle === null ? t.table.notWithin : t.learn.day(middle.toFixed(0), low?.toFixed(0) ?? "", high?.toFixed(0) ?? "");
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
    ...["", t.learn.misses, t.card.end, t.learn.coolShare, t.learn.neverShare].map((words) =>
      h("th", { scope: "col" }, words),
    ),
  );
  const table = h(
    "table",
    {},
    h("caption", {}, t.learn.from(learned.readings)),
    h("thead", {}, head),
    h("tbody", {}, row(t.learn.before, learned.before), row(t.learn.after, learned.after)),
  );
  const moved = h("ul");
  for (const value of learned.moved)
    moved.append(
      h(
        "li",
        {},
        t.learn.movedBy(
          value.name,
          `${(value.mean ?? 0) >= 0 ? "+" : ""}${value.mean?.toFixed(1)}`,
          value.deviation?.toFixed(1) ?? t.notKnown,
        ),
      ),
    );
  return [
    learned.follows ? "" : h("p", { class: "wrong" }, t.learn.cannotFollow),
    learned.follows ? h("p", {}, learned.used ? t.learn.used : t.learn.notUsed) : "",
    one.readings > learned.readings ? h("p", {}, t.learn.more(one.readings - learned.readings)) : "",
    h("div", { class: "wide" }, table),
    h("p", { class: "why" }, t.learn.dashed),
    h("details", {}, h("summary", {}, t.learn.moved), moved),
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
  const title = h("h2", { id: "learn-title" }, t.learn.headLearn);
  const order = async (): Promise<void> => draw(await post<Calibration>(path, {}));
  const halt = async (): Promise<void> => {
    await remove(path);
    await look();
  };
  const starter = (words: string): HTMLElement => button(words, () => void order().catch(sayError));
  const draw = (one: Calibration): void => {
    const parts: (HTMLElement | string)[] = [title];
    if (one.state === "refused") parts.push(h("p", {}, t.learn.notYet(one.doing)));
    if (one.state === "none")
      parts.push(
        one.doing ? h("p", { class: "wrong" }, `${one.doing}.`) : "",
        h("p", {}, t.learn.ready(one.readings)),
        starter(t.learn.start),
      );
    if (one.state === "waiting" || one.state === "running") {
      parts.push(
        h("progress", { max: 1, value: one.share, "aria-label": t.learn.label }),
        h("p", { class: "why", role: "status" }, one.doing),
        button(t.forecast.stop, () => void halt().catch(sayError)),
      );
      window.setTimeout(() => void (over.aborted || look()), look_ms);
    }
    if (one.state === "stopped") parts.push(h("p", {}, t.learn.stopped), starter(t.learn.again));
    if (one.state === "failed")
      parts.push(
        ...one.problems.map((problem) => h("p", { class: "wrong" }, `${problemWords(problem)}.`)),
        starter(t.reach.retry),
      );
    if (one.state === "ready") parts.push(...learnedPart(one), starter(t.learn.anew));
    root.replaceChildren(...parts);
    changed(one.state === "ready" ? one.learned : null);
  };
  const look = async (): Promise<void> => {
    try {
      draw(await get<Calibration>(path, over));
    } catch (error) {
      if (error instanceof OutOfReach || error instanceof Refused)
        root.replaceChildren(title, h("p", { class: "why" }, t.learn.outOfReach));
    }
  };
  void look();
  return root;
}
