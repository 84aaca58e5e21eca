import type { Design, ForecastState } from "../api/client";
import { css, mapColour } from "../ui/colour";
import { field, h, select } from "../ui/dom";
import { sayError } from "../ui/say";
import { type Kind, show } from "../units/units";
import { type Extreme, type FieldName, type Heap, type Shown, extremes, loadHeap, needField, rangeOf } from "./data";
import { HeapScene, drawFlat } from "./scene";
import { type Plane, mapOf } from "./shape";

const words: Record<FieldName, [name: string, kind: Kind, high: string, low: string]> = {
  temperature_c: ["Temperature", "temperature", "Hottest", "Coldest"],
  oxygen_share: ["Oxygen in the pores", "share", "Most", "Least"],
  moisture_wet: ["Moisture", "share", "Wettest", "Driest"],
};

interface Choice {
  field: FieldName;
  day: number;
  turn_deg: number;
  offset_m: number;
}

const planeOf = (choice: Choice): Plane => {
  const turn = (choice.turn_deg * Math.PI) / 180;
  return { normal: [Math.sin(turn), -Math.cos(turn)], offset_m: choice.offset_m };
};

function slider(
  name: string,
  min: number,
  max: number,
  step: number,
  value: number,
  told: (value: number) => string,
  move: (value: number) => void,
): HTMLElement {
  const out = h("output", {}, told(value));
  const input = h("input", {
    type: "range",
    min,
    max,
    step,
    value,
    "aria-valuetext": told(value),
    input: () => {
      const now = Number(input.value);
      out.textContent = told(now);
      input.setAttribute("aria-valuetext", told(now));
      move(now);
    },
  });
  const made = field(name, input);
  made.querySelector("label")!.append(": ", out);
  return made;
}

function keyOf(shown: Shown): HTMLElement {
  const canvas = h("canvas", { width: 256, height: 1, "aria-hidden": "true" });
  const pen = canvas.getContext("2d");
  for (let x = 0; pen && x < 256; ++x) {
    pen.fillStyle = css(mapColour(mapOf[shown.field], x / 255));
    pen.fillRect(x, 0, 1, 1);
  }
  const kind = words[shown.field][1];
  return h(
    "div",
    { class: "key" },
    h("span", {}, show(kind, shown.low)),
    canvas,
    h("span", {}, show(kind, shown.high)),
  );
}

function readout(shown: Shown): string {
  const [, kind, most, least] = words[shown.field];
  const { low, high } = extremes(shown);
  const place = (one: Extreme): string =>
    `${show(kind, one.value)}, ${show("length", one.height_m)} above the base and ${show("length", one.from_middle_m)} from the middle`;
  return `${most}: ${place(high)}. ${least}: ${place(low)}.`;
}

/** What the picture is drawn on: three dimensions, or the flat cut where there is no WebGL. */
function painter(
  canvas: HTMLCanvasElement,
  size_m: number,
  height_m: number,
  facing_rad: number,
  over: AbortSignal,
): { show: (shown: Shown, plane: Plane) => void; cut: (shown: Shown, plane: Plane) => void; flat: boolean } {
  try {
    const scene = new HeapScene(canvas, size_m, height_m, facing_rad);
    const widths = new ResizeObserver(() => scene.draw());
    widths.observe(canvas);
    over.addEventListener("abort", () => (widths.disconnect(), scene.end()));
    return {
      show: (shown, plane) => scene.show(shown, plane),
      cut: (shown, plane) => scene.cut(shown, plane),
      flat: false,
    };
  } catch {
    const flat = (shown: Shown, plane: Plane): void => drawFlat(canvas, shown, plane);
    return { show: flat, cut: flat, flat: true };
  }
}

/** Turn of a cut through the middle and the first channel beside it. */
function throughAChannel(design: Design): number {
  const channel = design.channels.find((one) => Math.hypot(one.x_m, one.y_m) > 0.01);
  if (!channel) return 20;
  const deg = (Math.atan2(channel.y_m, channel.x_m) * 180) / Math.PI;
  return Math.round((((deg % 180) + 180) % 180) / 5) * 5;
}

function build(panel: HTMLElement, heap: Heap, design: Design, over: AbortSignal): void {
  const size_m = 2 * Math.max(...heap.mesh.points_m.map(([x = 0, y = 0]) => Math.hypot(x, y)));
  const height_m = Math.max(...heap.mesh.levels_m[0]!);
  const canvas = h("canvas", { class: "scene", role: "img" });
  const days = heap.mesh.days;
  const hot = days.findIndex((day) => day >= 5);
  const choice: Choice = {
    field: "temperature_c",
    day: Math.max(0, hot),
    turn_deg: throughAChannel(design),
    offset_m: 0,
  };
  const [nx, ny] = planeOf(choice).normal;
  const paint = painter(canvas, size_m, height_m, Math.atan2(ny, nx), over);
  const line = h("p", { role: "status" });
  const key = h("div");
  let shown: Shown = { heap, field: choice.field, day: choice.day, low: 0, high: 1 };
  const tell = (): void => {
    line.textContent = readout(shown);
    canvas.setAttribute(
      "aria-label",
      `${words[shown.field][0]} inside the heap on day ${days[shown.day]!.toFixed(0)}, cut open. ${line.textContent}`,
    );
  };
  const renew = async (): Promise<void> => {
    await needField(heap, choice.field);
    const [low, high] = rangeOf(heap, choice.field);
    shown = { heap, field: choice.field, day: choice.day, low, high };
    key.replaceChildren(keyOf(shown));
    paint.show(shown, planeOf(choice));
    tell();
  };
  const again = (): void => void renew().catch(sayError);
  const fields = select(
    heap.mesh.fields.map((one) => [one.name, words[one.name][0]]),
    choice.field,
    (name) => ((choice.field = name as FieldName), again()),
  );
  const cut = (): void => paint.cut(shown, planeOf(choice));
  panel.append(
    canvas,
    key,
    line,
    h(
      "div",
      { class: "sliders" },
      field("Show", fields),
      slider(
        "Day",
        0,
        days.length - 1,
        1,
        choice.day,
        (i) => `day ${days[i]!.toFixed(0)}`,
        (i) => ((choice.day = i), again()),
      ),
      slider(
        "Turn the cut",
        0,
        180,
        5,
        choice.turn_deg,
        (deg) => `${deg}°`,
        (deg) => ((choice.turn_deg = deg), cut()),
      ),
      slider(
        "Move the cut",
        -size_m / 2,
        size_m / 2,
        size_m / 40,
        0,
        (m) => show("length", m),
        (m) => ((choice.offset_m = m), cut()),
      ),
    ),
    h(
      "p",
      { class: "why" },
      paint.flat
        ? "This browser gives no 3-D drawing: the cut alone is shown."
        : "Drag to look from another side. Forecast's middle line; no band is drawn here.",
    ),
  );
  again();
}

/** The heap's inside with a cut, a time slider and three fields. */
export async function insidePanel(state: ForecastState, over: AbortSignal): Promise<HTMLElement> {
  const heap = await loadHeap(state.id);
  const panel = h(
    "section",
    { class: "panel", "aria-labelledby": "inside-title" },
    h("h2", { id: "inside-title" }, "Inside"),
  );
  if (heap.mesh.days.length && heap.levels > 1) build(panel, heap, state.design, over);
  else panel.append(h("p", {}, "This forecast kept no pictures of the inside."));
  return panel;
}
