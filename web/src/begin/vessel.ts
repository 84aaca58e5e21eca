import type { BeginningOffer, BeginningProposal } from "../api/client";
import { problemWords } from "../api/client";
import { gauges } from "../table/gauges";
import { percents, withShare } from "../table/shares";
import { button, h, svg } from "../ui/dom";
import { sectionFigure } from "../ui/section-figure";
import { show, typeset, unit } from "../units/units";
import { t } from "../words/words";
import { amount, choice } from "./fields";
import { feedstockOf } from "./materials";
import { swatchOf } from "./swatch";
import { type Said, fillsOf } from "./wish";

/** A part of a page that follows the server's answers. */
export interface Following {
  node: HTMLElement;
  follow: (found: BeginningProposal) => void;
}

/** Shares by volume, one slider a material; what the mix comes to beside what handbooks ask. */
export function mixPage(offer: BeginningOffer, said: Said, ask: () => void): Following {
  const words = h("p", {});
  const scales = h("div", {});
  const why = h("ul", { class: "why" });
  const rows = said.materials.map(({ like }) => {
    const one = feedstockOf(offer, like);
    const out = h("output", {});
    const input = h("input", { id: `mix-${like}`, type: "range", min: 0, max: 100, step: 1 });
    input.addEventListener("input", () => {
      said.shares = withShare(said.shares ?? shown, like, Number(input.value) / 100);
      set(said.shares, like);
      ask();
    });
    const label = h("label", { for: input.id }, one ? swatchOf(like, one.kind) : "", one?.name ?? like);
    return { like, input, out, node: h("div", { class: "share" }, label, input, out) };
  });
  let shown: Record<string, number> = said.shares ?? Object.fromEntries(said.materials.map(({ like }) => [like, 1]));
  const set = (to: Record<string, number>, moved = ""): void => {
    shown = Object.fromEntries(rows.map(({ like }) => [like, to[like] ?? 0]));
    const whole = percents(shown);
    for (const row of rows) {
      row.out.textContent = `${whole[row.like]} %`;
      row.input.setAttribute("aria-valuetext", `${whole[row.like]} %`);
      if (row.like !== moved) row.input.value = String(whole[row.like]);
    }
  };
  set(shown);
  const again = button(t.begin.searchAgain, () => ((said.shares = null), ask()), "small");
  const follow = (found: BeginningProposal): void => {
    if (!said.shares) set(found.shares_by_volume);
    words.textContent = t.begin.mix[found.mix];
    again.hidden = found.mix !== "given";
    why.replaceChildren(...found.no_mix.map((one) => h("li", {}, typeset(problemWords(one)))));
    scales.replaceChildren(gauges(found.layout));
  };
  return { node: h("div", {}, words, why, ...rows.map((one) => one.node), again, scales), follow };
}

/** From above: the wall and the channels, to scale. */
function fromAbove(design: BeginningProposal["layout"]["design"]): SVGElement {
  const r = design.diameter_m / 2;
  const edge = 1.06 * r;
  return svg(
    "svg",
    { viewBox: `${-edge} ${-edge} ${2 * edge} ${2 * edge}`, class: "from-above", "aria-hidden": "true" },
    svg("circle", { r, class: "heap wall" }),
    ...design.channels.map((one) =>
      svg("circle", { cx: one.x_m, cy: one.y_m, r: one.diameter_m / 2, class: "channel" }),
    ),
  );
}

/** A length with a button on each side: one step less or more. */
function stepper(words: string, get: () => number, put: (m: number) => void): HTMLElement {
  const out = h("output", {});
  const step_m = unit("length").sign === "in" ? 4 * 0.0254 : 0.1; // chosen: a hand's breadth
  const tell = (): void => void (out.textContent = show("length", get()));
  const by = (steps: number): void => {
    put(Math.max(step_m, Math.round(get() / step_m + steps) * step_m));
    tell();
  };
  tell();
  return h(
    "div",
    { class: "stepper", role: "group", "aria-label": words },
    h("span", {}, words),
    h("button", { type: "button", "aria-label": t.begin.less(words), click: () => by(-1) }, "−"),
    out,
    h("button", { type: "button", "aria-label": t.begin.more(words), click: () => by(1) }, "+"),
  );
}

/** What is wanted, and the vessel that is proposed, drawn to scale. */
export function vesselPage(offer: BeginningOffer, said: Said, ask: () => void): Following {
  const drawing = h("div", { class: "begin-drawing" });
  const facts = h("ul", { class: "facts" });
  const text = h("pre", { class: "file-lines", tabindex: "0", role: "group" });
  const summary = h("summary", {});
  const wanted = h("div", {});
  const drawWanted = (): void =>
    wanted.replaceChildren(
      said.wants === "vessels"
        ? amount({ words: t.begin.vessels, value: said.vessels, digits: 0, put: (n) => ((said.vessels = n), ask()) })
        : amount({
            words: t.begin.compost,
            kind: "volume",
            value: said.compost_m3,
            put: (m3) => ((said.compost_m3 = m3), ask()),
          }),
    );
  drawWanted();
  const follow = ({ layout, text: whole, file }: BeginningProposal): void => {
    const { design, blend, air_path, fill } = layout;
    drawing.replaceChildren(sectionFigure(design, []), fromAbove(design));
    const of_one_m3 = Object.fromEntries(
      blend.parts.map((part) => [part.id, part.mass_wet_kg / (feedstockOf(offer, part.id)?.bulk_density_kg_m3 ?? 1)]),
    );
    const ends = fillsOf(said, of_one_m3);
    const parts = blend.parts.map((part) => `${part.name} ${show("volume", of_one_m3[part.id])}`).join(", ");
    facts.replaceChildren(
      h("li", {}, t.begin.size(show("length", design.diameter_m), show("length", design.fill_height_m))),
      h("li", {}, t.begin.channels(design.channels.length, show("length", air_path.length_m))),
      h("li", {}, t.begin.takes(parts)),
      h("li", {}, t.begin.work(fill.pails, (fill.people_hours ?? 0).toFixed(1).replace(".", t.decimal))),
      ends ? h("li", {}, t.begin.lasts(feedstockOf(offer, ends.like)?.name ?? ends.like, ends.fills)) : "",
    );
    summary.textContent = t.begin.look(file);
    text.setAttribute("aria-label", file);
    text.textContent = whole;
  };
  const size = (key: "diameter_m" | "fill_height_m") => (m: number) => ((said[key] = m), ask());
  return {
    node: h(
      "div",
      {},
      choice(
        t.begin.want,
        [
          ["vessels", t.begin.wantVessels],
          ["compost", t.begin.wantCompost],
        ],
        said.wants,
        (wants) => {
          said.wants = wants;
          drawWanted();
          ask();
        },
      ),
      wanted,
      h("h2", {}, t.begin.headVessel),
      drawing,
      stepper(t.table.across, () => said.diameter_m, size("diameter_m")),
      stepper(t.table.filledTo, () => said.fill_height_m, size("fill_height_m")),
      facts,
      h("p", { class: "why" }, t.begin.later),
      h("details", {}, summary, text),
    ),
    follow,
  };
}
