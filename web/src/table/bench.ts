import type { Channel, Design, Draft } from "../api/client";
import { field, h, svg } from "../ui/dom";
import { heatCss } from "../ui/heat";
import { baseRoom, cutChannels, sizeOf, slats } from "../ui/vessel-drawing";
import { show } from "../units/units";
import { t } from "../words/words";

type Section = Draft["forecast"]["section"];

/** A part of the drawing that can be taken hold of: by finger, mouse or arrow keys. */
interface Grip {
  /** the same for as long as the part is there */
  key: string;
  name: string;
  /** where it stands, in the drawing's metres */
  at: () => { x: number; y: number };
  /** puts it near a point */
  drag: (x: number, y: number) => void;
  /** one step by key: +1 or -1 */
  step: (by: number) => void;
  /** its value, for the words */
  value: () => number;
  /** stands inside something that must stay seen */
  small?: boolean;
}

/** What the drawing may change; each moves the design and asks for a new draft. */
export interface Hands {
  design: () => Design;
  /** of a round vessel the first alone counts */
  wall: (across_m: number, deep_m?: number) => void;
  high: (m: number) => void;
  channel: (index: number, x_m: number, y_m: number) => void;
}

const step_m = 0.01;
const room = 0.16; // chosen: share of the drawing kept free round the vessel, so that it can grow under the finger

/** What is drawn anew at each move, and what of it lies over the heat. */
interface Painted {
  below: SVGElement[];
  above: SVGElement[];
}

/** A drawing in layers: what is drawn anew, the heat that stays until the next answer, and on top the grips. A grip's own
 *  node stays as long as the grip does: one that is taken out of the page, even for a moment, loses the finger that holds it.
 *  The frame stands still while one is held. */
class Drawing {
  readonly root: SVGSVGElement;
  private readonly below = svg("g");
  private readonly above = svg("g");
  private readonly handles = svg("g");
  private readonly nodes = new Map<string, SVGElement>();
  private held = false;
  private box = [0, 0, 1, 1];
  constructor(
    look: string,
    words: string,
    heat: SVGElement,
    private readonly frame: () => [x: number, y: number, width: number, height: number],
    private readonly paint: () => Painted,
    private readonly grips: () => Grip[],
  ) {
    const about = { class: `bench-drawing ${look}`, role: "group", "aria-label": words };
    this.root = svg("svg", about, this.below, heat, this.above, this.handles) as SVGSVGElement;
  }

  draw(): void {
    if (!this.held) {
      const [x, y, width, height] = this.frame();
      this.box = [x - room * width, y - room * height, width * (1 + 2 * room), height * (1 + 2 * room)];
      this.root.setAttribute("viewBox", this.box.map((one) => one.toFixed(4)).join(" "));
    }
    const { below, above } = this.paint();
    this.below.replaceChildren(...below);
    this.above.replaceChildren(...above);
    const grips = this.grips();
    for (const [key, node] of this.nodes) {
      if (grips.some((one) => one.key === key)) continue;
      node.remove();
      this.nodes.delete(key);
    }
    for (const [i, grip] of grips.entries()) {
      const node = this.nodes.get(grip.key) ?? this.gripNode(grip.key);
      this.nodes.set(grip.key, node);
      if (this.handles.children[i] !== node) this.handles.insertBefore(node, this.handles.children[i] ?? null);
      this.place(node, grip);
    }
  }

  private place(node: SVGElement, grip: Grip): void {
    const { x, y } = grip.at();
    const size = Math.max(this.box[2]!, this.box[3]!);
    node.setAttribute("transform", `translate(${x} ${y})`);
    node.setAttribute("aria-label", grip.name);
    node.setAttribute("aria-valuenow", grip.value().toFixed(3));
    node.setAttribute("aria-valuetext", show("length", grip.value()));
    node.querySelector(".reach")!.setAttribute("r", String(0.075 * size));
    node.querySelector(".knob")!.setAttribute("r", String((grip.small ? 0.011 : 0.022) * size));
  }

  private gripNode(key: string): SVGElement {
    const parts = [svg("circle", { class: "reach" }), svg("circle", { class: "knob" })];
    const node = svg("g", { class: "grip", role: "slider", tabindex: "0" }, ...parts);
    const point = (event: PointerEvent): DOMPoint =>
      new DOMPoint(event.clientX, event.clientY).matrixTransform(this.root.getScreenCTM()!.inverse());
    const grip = (): Grip | undefined => this.grips().find((one) => one.key === key);
    let off = { x: 0, y: 0 };
    node.addEventListener("pointerdown", (event) => {
      event.preventDefault();
      node.setPointerCapture(event.pointerId);
      node.focus({ preventScroll: true });
      const [at, here] = [grip()!.at(), point(event)];
      off = { x: at.x - here.x, y: at.y - here.y };
      this.held = true;
    });
    node.addEventListener("pointermove", (event) => {
      if (!node.hasPointerCapture(event.pointerId)) return;
      const here = point(event);
      grip()?.drag(here.x + off.x, here.y + off.y);
    });
    // also when the browser takes the finger away: the frame must not stay still for ever
    node.addEventListener("lostpointercapture", () => {
      this.held = false;
      this.draw();
    });
    node.addEventListener("keydown", (event) => {
      const by = { ArrowUp: 1, ArrowRight: 1, ArrowDown: -1, ArrowLeft: -1, PageUp: 10, PageDown: -10 }[event.key];
      if (by === undefined) return;
      event.preventDefault();
      grip()?.step(by);
    });
    return node;
  }
}

const far = (draft: Draft | null): { x: number; y: number; up: number } | null => {
  const at = draft?.air_path;
  return at && at.x_m !== null && at.y_m !== null ? { x: at.x_m, y: at.y_m, up: at.height_m ?? 0 } : null;
};

/** The section's colours of one day: a tile between each two levels and columns; the base lies at 0, up is less. */
function tiles(section: Section, day: number): SVGElement[] {
  const [x, levels, rows] = [section.x_m, section.level_m[day] ?? [], section.celsius[day] ?? []];
  if (x.length < 2) return [];
  const wide = x[1]! - x[0]!;
  const made: SVGElement[] = [];
  const fine = 3; // tiles between two levels
  for (let row = 0; row + 1 < rows.length; ++row) {
    const thick = (levels[row + 1]! - levels[row]!) / fine;
    for (let k = 0; k < fine; ++k) {
      const part = (k + 0.5) / fine;
      for (const [i, at] of x.entries()) {
        const [a, b] = [rows[row]![i], rows[row + 1]![i]];
        if (a === null || b === null || a === undefined || b === undefined) continue;
        made.push(
          svg("rect", {
            x: at - 0.51 * wide,
            y: -(levels[row]! + (k + 1) * thick),
            width: 1.02 * wide,
            height: 1.04 * thick,
            fill: heatCss(a + part * (b - a)),
          }),
        );
      }
    }
  }
  return made;
}

/** The day whose hottest place is the hottest of all. */
function hottestDay(section: Section): number {
  const peaks = section.celsius.map((rows) => Math.max(...rows.flat().map((one) => one ?? Number.NEGATIVE_INFINITY)));
  return Math.max(peaks.indexOf(Math.max(...peaks)), 0);
}

/** A draft's section on its hottest day, small and still. */
export function sectionOf(draft: Draft): SVGElement {
  const { fill_height_m } = draft.design;
  const { across_m } = sizeOf(draft.design);
  const edge = 0.04 * across_m;
  const box = [-across_m / 2 - edge, -fill_height_m - edge, across_m + 2 * edge, fill_height_m + 2 * edge];
  const frame = { x: -across_m / 2, y: -fill_height_m, width: across_m, height: fill_height_m };
  return svg(
    "svg",
    { viewBox: box.map((one) => one.toFixed(3)).join(" "), class: "bench-drawing little", "aria-hidden": "true" },
    svg("rect", { ...frame, class: "heap" }),
    svg("g", { "shape-rendering": "crispEdges" }, ...tiles(draft.forecast.section, hottestDay(draft.forecast.section))),
    svg("rect", { ...frame, class: "outline" }),
  );
}

/** The drawing that one plans on: from above and cut open, to scale; wall, channels and fill height are taken hold of. */
export interface Bench {
  node: HTMLElement;
  /** the design has changed: drawn at once, the forecast's colours faded until it answers */
  moved: () => void;
  answered: (draft: Draft) => void;
}

export function bench(hands: Hands): Bench {
  let draft: Draft | null = null;
  let stale = false;
  let day = 0;

  const fromAbove = (): Painted => {
    const design = hands.design();
    const { across_m, deep_m } = sizeOf(design);
    const wall =
      design.shape === "round"
        ? svg("circle", { r: across_m / 2, class: "wall" })
        : svg("rect", { x: -across_m / 2, y: -deep_m / 2, width: across_m, height: deep_m, class: "wall" });
    const made = [
      wall,
      svg("path", { d: `M${-across_m / 2} 0H${across_m / 2}`, class: "cut" }),
      ...design.channels.map((one) =>
        svg("circle", { cx: one.x_m, cy: -one.y_m, r: one.diameter_m / 2, class: "channel" }),
      ),
    ];
    const farthest = far(draft);
    if (farthest && !stale)
      made.push(svg("circle", { cx: farthest.x, cy: -farthest.y, r: 0.03 * across_m, class: "far-point" }));
    return { below: made, above: [] };
  };
  const corner = (): { x: number; y: number } => {
    const design = hands.design();
    const { across_m, deep_m } = sizeOf(design);
    return design.shape === "round"
      ? { x: across_m * 0.3536, y: across_m * 0.3536 }
      : { x: across_m / 2, y: deep_m / 2 };
  };
  const wallGrip: Grip = {
    key: "wall",
    name: t.bench.wall,
    at: corner,
    drag: (x, y) => {
      if (hands.design().shape === "round") hands.wall(2 * Math.hypot(x, y));
      else hands.wall(2 * Math.abs(x), 2 * Math.abs(y));
    },
    step: (by) => hands.wall(sizeOf(hands.design()).across_m + by * step_m),
    value: () => sizeOf(hands.design()).across_m,
  };
  const channelGrip = (one: Channel, i: number): Grip => ({
    key: `channel ${i}`,
    name: t.bench.channel(i + 1),
    at: () => ({ x: hands.design().channels[i]?.x_m ?? one.x_m, y: -(hands.design().channels[i]?.y_m ?? one.y_m) }),
    drag: (x, y) => hands.channel(i, x, -y),
    step: (by) => {
      const here = hands.design().channels[i]!;
      const away = Math.hypot(here.x_m, here.y_m);
      const grow = away > 0 ? (away + by * step_m) / away : 1;
      hands.channel(i, here.x_m * grow, here.y_m * grow);
    },
    small: true,
    value: () => Math.hypot(hands.design().channels[i]?.x_m ?? 0, hands.design().channels[i]?.y_m ?? 0),
  });
  const movable = (one: Channel): boolean =>
    hands.design().shape !== "round" || Math.hypot(one.x_m, one.y_m) > step_m / 2;
  const above = new Drawing(
    "above",
    t.bench.above,
    svg("g"),
    () => {
      const { across_m, deep_m } = sizeOf(hands.design());
      return [-across_m / 2, -deep_m / 2, across_m, deep_m];
    },
    fromAbove,
    () => [...hands.design().channels.flatMap((one, i) => (movable(one) ? [channelGrip(one, i)] : [])), wallGrip],
  );

  const gapOf = (design: Design): number => baseRoom(design.fill_height_m, design.base_gap_m);
  /** The last answer's colours: drawn anew for another answer or day, else only stretched to the size that is tried now. */
  const heat = svg("g", { "shape-rendering": "crispEdges" });
  const paintHeat = (): void => heat.replaceChildren(...(draft ? tiles(draft.forecast.section, day) : []));
  const stretchHeat = (design: Design): void => {
    heat.setAttribute("class", stale ? "stale" : "");
    if (!draft) return;
    const wider = sizeOf(design).across_m / sizeOf(draft.design).across_m;
    heat.setAttribute("transform", `scale(${wider} ${design.fill_height_m / draft.design.fill_height_m})`);
  };
  const cutOpen = (): Painted => {
    const design = hands.design();
    stretchHeat(design);
    const { across_m } = sizeOf(design);
    const [left, top, gap] = [-across_m / 2, -design.fill_height_m, gapOf(design)];
    const farthest = stale ? null : far(draft);
    return {
      below: [svg("rect", { x: left, y: top, width: across_m, height: -top, class: "heap" })],
      above: [
        ...cutChannels(design, top, -top),
        svg("path", { d: `M${left} ${top}V${gap}M${-left} ${top}V${gap}M${left} 0H${-left}`, class: "outline" }),
        svg("path", { d: `M${left} ${top}H${-left}`, class: "outline brim" }),
        ...slats(across_m, 0, gap),
        ...(farthest
          ? [svg("circle", { cx: farthest.x, cy: -farthest.up, r: 0.03 * across_m, class: "far-point" })]
          : []),
      ],
    };
  };
  const section = new Drawing(
    "cut-open",
    t.bench.section,
    heat,
    () => {
      const design = hands.design();
      const { across_m } = sizeOf(design);
      return [-across_m / 2, -design.fill_height_m, across_m, design.fill_height_m + gapOf(design)];
    },
    cutOpen,
    () => [
      {
        key: "top",
        name: t.bench.high,
        at: () => ({ x: 0, y: -hands.design().fill_height_m }),
        drag: (_, y) => hands.high(-y),
        step: (by) => hands.high(hands.design().fill_height_m + by * step_m),
        value: () => hands.design().fill_height_m,
      },
    ],
  );

  const words = h("output", {});
  const slider = h("input", { type: "range", min: 0, max: 0, step: 1, value: 0 });
  const tellDay = (): void => {
    const days = draft?.forecast.section.days ?? [];
    words.textContent = days.length ? t.yard.day(Math.round(days[day] ?? 0)) : "";
    slider.setAttribute("aria-valuetext", words.textContent);
  };
  slider.addEventListener("input", () => {
    day = Number(slider.value);
    tellDay();
    paintHeat();
  });
  const dayField = field(t.inside.dayName, slider);
  dayField.querySelector("label")!.append(": ", words);
  const draw = (): void => {
    above.draw();
    section.draw();
  };
  draw();
  return {
    node: h(
      "figure",
      { class: "bench" },
      h("div", { class: "bench-pair" }, above.root, h("div", {}, section.root, dayField)),
      h("figcaption", { class: "why" }, t.bench.how),
    ),
    moved: () => {
      stale = true;
      draw();
    },
    answered: (to) => {
      const first = draft === null;
      draft = to;
      stale = false;
      const { days } = to.forecast.section;
      slider.max = String(Math.max(days.length - 1, 0));
      if (first) day = hottestDay(to.forecast.section);
      day = Math.min(Math.max(day, 0), Math.max(days.length - 1, 0));
      slider.value = String(day);
      tellDay();
      paintHeat();
      draw();
    },
  };
}
