import type { Draft } from "../api/client";
import { h, svg } from "../ui/dom";
import { show } from "../units/units";
import { t } from "../words/words";

type Gauge = Draft["blend"]["gauges"][number];

const said = (one: Gauge, value: number): string => {
  if (one.key === "carbon_to_nitrogen") return value.toFixed(0);
  return show(one.key === "conductivity" ? "conductivity" : "share", value);
};

/** Where the scale ends: the good range takes up the middle, whatever the value. */
const endOf = (one: Gauge): number =>
  Math.max(1.35 * (one.high ?? one.preferred_high ?? one.value), 1.08 * one.value, 1e-9);

function goodWords(one: Gauge): string {
  const [low, high] = [one.preferred_low ?? 0, one.preferred_high];
  if (high === null) return t.gauge.atLeast(said(one, low));
  return low > 0 ? t.gauge.between(said(one, low), said(one, high)) : t.gauge.atMost(said(one, high));
}

const wide = 200;

/** A scale with the good range wide, the bearable one thin, and a needle. Told apart by width and place, not by colour. */
function scale(one: Gauge): SVGElement {
  const end = endOf(one);
  const x = (value: number): number => (wide * Math.min(Math.max(value, 0), end)) / end;
  const bar = (from: number, to: number, y: number, high: number, look: string): SVGElement =>
    svg("rect", { x: x(from), y, width: Math.max(x(to) - x(from), 0), height: high, class: look });
  const at = x(one.value);
  return svg(
    "svg",
    { viewBox: `-6 0 ${wide + 12} 26`, class: `gauge-scale ${one.standing}`, "aria-hidden": "true" },
    bar(0, end, 17, 2, "rail"),
    bar(one.low ?? 0, one.high ?? end, 14, 8, "bearable"),
    bar(one.preferred_low ?? 0, one.preferred_high ?? end, 10, 14, "good"),
    svg("path", { d: `M${at} 9l-5-8h10zM${at} 9V25`, class: "needle" }),
  );
}

/** The blend's four numbers, each on its scale with the handbooks' good range. */
export function gauges(draft: Pick<Draft, "blend">): HTMLElement {
  return h(
    "ul",
    { class: "gauges" },
    ...draft.blend.gauges.map((one) =>
      h(
        "li",
        { class: one.standing },
        h(
          "div",
          { class: "gauge-words" },
          h("span", {}, t.gauge.names[one.key] ?? one.key),
          h("strong", {}, said(one, one.value)),
          h("span", { class: "standing" }, t.gauge.standing[one.standing] ?? ""),
        ),
        scale(one),
        h("small", {}, goodWords(one)),
      ),
    ),
  );
}
