import type { FillState, Statement } from "../api/client";
import { cautionText } from "../ui/cautions";
import { h } from "../ui/dom";
import { typeset } from "../units/units";
import { t } from "../words/words";

const weightWords = (weight: Statement["weight"]): string => (weight === "note" ? "" : t.weight[weight]);

/** A statement never stands without its reading and the rule behind it. */
function item(one: Statement, before = ""): HTMLElement {
  const weight = weightWords(one.weight);
  return h(
    "li",
    { class: one.weight },
    weight ? h("span", { class: "weight" }, `${weight}: `) : null,
    before ? h("strong", {}, `${before} `) : null,
    h("span", {}, typeset(one.text)),
    one.next ? h("p", {}, h("strong", {}, typeset(t.says.act(one.next)))) : null,
    one.caution ? h("p", {}, h("strong", {}, `${t.task.caution}: `), ...cautionText(one.caution)) : null,
    h(
      "details",
      {},
      h("summary", {}, t.task.why),
      h("p", { class: "why" }, typeset(t.says.because(one.reading || t.says.none, one.rule, one.source))),
    ),
  );
}

function list(items: HTMLElement[]): HTMLElement {
  return h("ul", { class: "says" }, ...items);
}

/** What the readings of a fill say: phase and alerts first, readiness and hygiene below. */
export function saysPanel(state: FillState): HTMLElement {
  const first = [item(state.phase.statement, t.says.phase), ...state.alerts.map((one) => item(one))];
  const ready = [
    item(state.worms.statement, t.says.worms(t.says.answer[state.worms.answer])),
    item(state.harvest.statement, t.says.harvest(t.says.answer[state.harvest.answer])),
  ];
  const points = [...state.worms.points, ...state.harvest.points].map((one) =>
    item(one.statement, `${t.says.answer[one.answer]}:`),
  );
  const tests = [...state.tests, ...(state.salt ? [state.salt] : [])].map((one) => item(one));
  return h(
    "section",
    { class: "panel", "aria-labelledby": "says-title" },
    h("h2", { id: "says-title" }, t.says.headSays),
    list([...first, ...ready]),
    h("details", {}, h("summary", {}, t.says.points(points.length)), list(points)),
    h(
      "details",
      {},
      h("summary", {}, t.says.hygiene(state.hygiene.length)),
      list(state.hygiene.map((one) => item(one.statement))),
    ),
    tests.length ? h("details", {}, h("summary", {}, t.says.tests(tests.length)), list(tests)) : null,
  );
}
