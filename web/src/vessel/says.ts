import type { FillState, Statement } from "../api/client";
import { h } from "../ui/dom";
import { typeset } from "../units/units";
import { t } from "../words/words";

const weightWords: Record<Statement["weight"], string> = { danger: "Danger", warning: "Warning", due: "Due", note: "" };
const answerWords = { yes: "yes", no: "not yet", unknown: "cannot be told yet" } as const;

/** A statement never stands without its reading and the rule behind it. */
function item(one: Statement, before = ""): HTMLElement {
  const weight = weightWords[one.weight];
  return h(
    "li",
    { class: one.weight },
    weight ? h("span", { class: "weight" }, `${weight}: `) : null,
    before ? h("strong", {}, `${before} `) : null,
    h("span", {}, typeset(one.text)),
    one.next ? h("p", {}, h("strong", {}, typeset(`Do: ${one.next}`))) : null,
    one.caution ? h("p", {}, typeset(`Caution: ${one.caution}`)) : null,
    h(
      "details",
      {},
      h("summary", {}, t.task.why),
      h("p", { class: "why" }, typeset(`Reading: ${one.reading || "none"}. Rule: ${one.rule} (${one.source}).`)),
    ),
  );
}

function list(items: HTMLElement[]): HTMLElement {
  return h("ul", { class: "says" }, ...items);
}

/** What the readings of a fill say: phase and alerts first, readiness and hygiene below. */
export function saysPanel(state: FillState): HTMLElement {
  const first = [item(state.phase.statement, "Phase."), ...state.alerts.map((one) => item(one))];
  const ready = [
    item(state.worms.statement, `Ready for worms: ${answerWords[state.worms.answer]}.`),
    item(state.harvest.statement, `Ready for harvest: ${answerWords[state.harvest.answer]}.`),
  ];
  const points = [...state.worms.points, ...state.harvest.points].map((one) =>
    item(one.statement, `${answerWords[one.answer]}:`),
  );
  const tests = [...state.tests, ...(state.salt ? [state.salt] : [])].map((one) => item(one));
  return h(
    "section",
    { class: "panel", "aria-labelledby": "says-title" },
    h("h2", { id: "says-title" }, "What the readings say"),
    list([...first, ...ready]),
    h("details", {}, h("summary", {}, `Readiness, point by point (${points.length})`), list(points)),
    h(
      "details",
      {},
      h("summary", {}, `Hygiene by named rules (${state.hygiene.length})`),
      list(state.hygiene.map((one) => item(one.statement))),
    ),
    tests.length ? h("details", {}, h("summary", {}, `Laboratory tests (${tests.length})`), list(tests)) : null,
  );
}
