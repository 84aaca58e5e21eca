import type { Design, ForecastState, Reading } from "../api/client";
import { css } from "../ui/colour";
import { button, field, h, select } from "../ui/dom";
import { savePicture } from "../ui/picture";
import { sayError } from "../ui/say";
import { type Kind, show, unit } from "../units/units";
import { t } from "../words/words";
import {
  type Extreme,
  type FieldName,
  type Heap,
  type Shown,
  extremes,
  fieldColour,
  loadHeap,
  needField,
  probeOf,
  scales,
  ticks,
  valueNear,
} from "./data";
import { HeapScene, drawFlat } from "./scene";
import type { Plane } from "./shape";

/** How a field is told. */
const told = (field: FieldName): [name: string, kind: Kind, high: string, low: string] =>
  ({
    temperature_c: [t.inside.temperature, "temperature", t.inside.hottest, t.inside.coldest],
    oxygen_share: [t.inside.oxygen, "share", t.inside.most, t.inside.least],
    moisture_wet: [t.inside.moisture, "share", t.inside.wettest, t.inside.driest],
  })[field] as [string, Kind, string, string];

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
  says: (value: number) => string,
  move: (value: number) => void,
): HTMLElement {
  const out = h("output", {}, says(value));
  const input = h("input", {
    type: "range",
    min,
    max,
    step,
    value,
    "aria-valuetext": says(value),
    input: () => {
      const now = Number(input.value);
      out.textContent = says(now);
      input.setAttribute("aria-valuetext", says(now));
      move(now);
    },
  });
  const made = field(name, input);
  made.querySelector("label")!.append(": ", out);
  return made;
}

function keyOf(name: FieldName): HTMLElement {
  const canvas = h("canvas", { width: 256, height: 1, "aria-hidden": "true" });
  const pen = canvas.getContext("2d");
  const [low, high] = scales[name];
  for (let x = 0; pen && x < 256; ++x) {
    pen.fillStyle = css(fieldColour(name, low + (x / 255) * (high - low)));
    pen.fillRect(x, 0, 1, 1);
  }
  const one = unit(told(name)[1]);
  const marks = ticks[name].map((value) => {
    const mark = h("span", {}, one.fromSi(value).toFixed(0));
    mark.style.left = `${(100 * (value - low)) / (high - low)}%`;
    return mark;
  });
  return h(
    "div",
    { class: "key" },
    canvas,
    h("div", { class: "ticks" }, ...marks),
    h("span", {}, `${told(name)[0]}, ${one.sign}`),
  );
}

function readout(shown: Shown): string {
  const [, kind, most, least] = told(shown.field);
  const { low, high } = extremes(shown);
  const place = (one: Extreme): string =>
    t.inside.extreme(show(kind, one.value), show("length", one.height_m), show("length", one.from_middle_m));
  return `${most}: ${place(high)}. ${least}: ${place(low)}.`;
}

/** What the picture is drawn on: three dimensions, or the flat cut where there is no WebGL. */
function painter(
  canvas: HTMLCanvasElement,
  size_m: number,
  height_m: number,
  facing_rad: number,
  over: AbortSignal,
): {
  show: (shown: Shown, plane: Plane) => void;
  cut: (shown: Shown, plane: Plane) => void;
  probes: (places: readonly [number, number, number][], radius_m: number) => void;
  flat: boolean;
} {
  try {
    const scene = new HeapScene(canvas, size_m, height_m, facing_rad);
    const widths = new ResizeObserver(() => scene.draw());
    widths.observe(canvas);
    over.addEventListener("abort", () => (widths.disconnect(), scene.end()));
    return {
      show: (shown, plane) => scene.show(shown, plane),
      cut: (shown, plane) => scene.cut(shown, plane),
      probes: (places: readonly [number, number, number][], radius_m: number) => scene.probes(places, radius_m),
      flat: false,
    };
  } catch {
    const flat = (shown: Shown, plane: Plane): void => drawFlat(canvas, shown, plane);
    return { show: flat, cut: flat, probes: () => undefined, flat: true };
  }
}

/** Turn of a cut through the middle and the first channel beside it. */
function throughAChannel(design: Design): number {
  const channel = design.channels.find((one) => Math.hypot(one.x_m, one.y_m) > 0.01);
  if (!channel) return 20;
  const deg = (Math.atan2(channel.y_m, channel.x_m) * 180) / Math.PI;
  return Math.round((((deg % 180) + 180) % 180) / 5) * 5;
}

/** Day of the fill and what its probes read last. */
export interface Now {
  day: number;
  probes: readonly Reading[];
}

const play_ms = 350; // chosen

function build(panel: HTMLElement, heap: Heap, design: Design, over: AbortSignal, today: Now): void {
  const size_m = 2 * Math.max(...heap.mesh.points_m.map(([x = 0, y = 0]) => Math.hypot(x, y)));
  const height_m = Math.max(...heap.mesh.levels_m[0]!);
  const canvas = h("canvas", { class: "scene", role: "img" });
  const days = heap.mesh.days;
  // the forecast keeps a picture every few days: the last before today, or the first
  const opened = days.reduce((best, day, i) => (day <= today.day ? i : best), 0);
  const choice: Choice = {
    field: "temperature_c",
    day: opened,
    turn_deg: throughAChannel(design),
    offset_m: 0,
  };
  const [nx, ny] = planeOf(choice).normal;
  const paint = painter(canvas, size_m, height_m, Math.atan2(ny, nx), over);
  const line = h("p", { role: "status" });
  const key = h("div");
  const probes = today.probes
    .filter((one) => one.measure === "temperature")
    .map((one) => probeOf(one, size_m, height_m));
  paint.probes(
    probes.map((one) => [one.x_m, one.height_m, one.y_m]),
    size_m / 60,
  );
  const list = h("ul", { class: "probes" });
  const tellProbes = (): void => {
    const items = probes.map((one) => {
      const there =
        choice.field === "temperature_c" ? show("temperature", valueNear(shown, one.x_m, one.y_m, one.height_m)) : "";
      return h("li", {}, t.inside.probe(one.words, show("temperature", one.celsius), there));
    });
    list.replaceChildren(...items);
  };
  let shown: Shown = { heap, field: choice.field, day: choice.day };
  const tell = (): void => {
    line.textContent = readout(shown);
    canvas.setAttribute(
      "aria-label",
      `${t.inside.picture(told(shown.field)[0], days[shown.day]!.toFixed(0))} ${line.textContent}`,
    );
  };
  const renew = async (): Promise<void> => {
    await needField(heap, choice.field);
    shown = { heap, field: choice.field, day: choice.day };
    key.replaceChildren(keyOf(choice.field));
    tellProbes();
    paint.show(shown, planeOf(choice));
    tell();
  };
  const again = (): void => void renew().catch(sayError);
  const keep = (): void => {
    cut(); // what was drawn is kept only until the browser has shown it
    const title = t.inside.picture(told(shown.field)[0], days[shown.day]!.toFixed(0));
    savePicture(canvas, canvas.width / canvas.clientWidth, title, [line.textContent ?? ""], title);
  };
  const fields = select(
    heap.mesh.fields.map((one) => [one.name, told(one.name)[0]]),
    choice.field,
    (name) => ((choice.field = name as FieldName), again()),
  );
  const cut = (): void => paint.cut(shown, planeOf(choice));
  const dayWords = (i: number): string => t.inside.day(days[i]!.toFixed(0), i === opened && today.probes.length > 0);
  const dayField = slider(
    t.inside.dayName,
    0,
    days.length - 1,
    1,
    choice.day,
    dayWords,
    (i) => ((choice.day = i), again()),
  );
  const dayInput = dayField.querySelector("input")!;
  let playing = 0;
  const halt = (): void => (
    window.clearInterval(playing), (playing = 0), void (playButton.textContent = t.inside.play)
  );
  const playButton = button(t.inside.play, () => {
    if (playing) return halt();
    playButton.textContent = t.inside.stop;
    playing = window.setInterval(() => {
      dayInput.value = String((Number(dayInput.value) + 1) % days.length);
      dayInput.dispatchEvent(new Event("input"));
    }, play_ms);
  });
  over.addEventListener("abort", halt);
  panel.append(
    canvas,
    key,
    line,
    list,
    h(
      "div",
      { class: "sliders" },
      field(t.inside.show, fields),
      dayField,
      playButton,
      slider(
        t.inside.turn,
        0,
        180,
        5,
        choice.turn_deg,
        (deg) => `${deg}°`,
        (deg) => ((choice.turn_deg = deg), cut()),
      ),
      slider(
        t.inside.move,
        -size_m / 2,
        size_m / 2,
        size_m / 40,
        0,
        (m) => show("length", m),
        (m) => ((choice.offset_m = m), cut()),
      ),
    ),
    h("p", { class: "why" }, paint.flat ? t.inside.flat : t.inside.drag),
    h("p", { class: "files" }, button(t.files.picture, keep)),
  );
  again();
}

/** The heap's inside with a cut, a time slider and three fields. */
export async function insidePanel(
  state: ForecastState,
  over: AbortSignal,
  today: Now = { day: 5, probes: [] },
): Promise<HTMLElement> {
  const heap = await loadHeap(state.id);
  const panel = h(
    "section",
    { class: "panel", "aria-labelledby": "inside-title" },
    h("h2", { id: "inside-title" }, t.inside.headInside),
  );
  if (heap.mesh.days.length && heap.levels > 1) build(panel, heap, state.design, over, today);
  else panel.append(h("p", {}, t.inside.none));
  return panel;
}
