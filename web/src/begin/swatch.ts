import type { BeginningOffer } from "../api/client";
import { svg } from "../ui/dom";

type Kind = BeginningOffer["feedstocks"][number]["kind"];

/** Numbers from 0 to 1 that are the same for the same text (FNV-1a, then a step of a linear congruence each). */
function dice(text: string): () => number {
  let state = 2166136261;
  for (const one of text) state = Math.imul(state ^ one.charCodeAt(0), 16777619) >>> 0;
  return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
}

interface Piece {
  long: number;
  thick: number;
  round: number; // 1: an ellipse
  count: number;
  ground: string;
  colours: readonly string[];
}

/** What the pieces of each kind look like from near: chips, stalks, blades and leaves, clods, crumbs. */
const pieces: Record<Kind, Piece> = {
  wood: { long: 12, thick: 5, round: 0, count: 34, ground: "#5b4127", colours: ["#c79a63", "#a87846", "#dcb884"] },
  "dry plant": {
    long: 26,
    thick: 2,
    round: 0,
    count: 46,
    ground: "#9a7a35",
    colours: ["#e2c777", "#cda956", "#f0dda0"],
  },
  fresh: { long: 13, thick: 6, round: 1, count: 34, ground: "#33502a", colours: ["#6f9a4c", "#88b562", "#557d3a"] },
  manure: { long: 12, thick: 9, round: 1, count: 26, ground: "#2f2217", colours: ["#5a4430", "#6d543b", "#463322"] },
  ripe: { long: 5, thick: 4, round: 1, count: 70, ground: "#1f1711", colours: ["#43342a", "#59473a", "#33271f"] },
};

/** A handful of a material from near, the same each time. Only for show: its name stands beside it. */
export function swatchOf(id: string, kind: Kind): SVGElement {
  const { long, thick, round, count, ground, colours } = pieces[kind];
  const roll = dice(id);
  const figure = svg("svg", { viewBox: "0 0 48 48", class: "handful", "aria-hidden": "true" });
  figure.append(svg("rect", { width: 48, height: 48, fill: ground }));
  const size = 0.8 + 0.5 * roll(); // each material's own grain
  for (let i = 0; i < count; ++i) {
    const [x, y, turn] = [48 * roll(), 48 * roll(), 180 * roll()];
    const [a, b] = [long * size * (0.6 + 0.6 * roll()), thick * size * (0.7 + 0.5 * roll())];
    const about = {
      fill: colours[Math.floor(colours.length * roll())]!,
      transform: `translate(${x} ${y}) rotate(${turn})`,
    };
    figure.append(
      round
        ? svg("ellipse", { rx: a / 2, ry: b / 2, ...about })
        : svg("rect", { x: -a / 2, y: -b / 2, width: a, height: b, ...about }),
    );
  }
  return figure;
}
