import { t } from "../words/words";
import { button, h, svg } from "./dom";
import { saveDrawing } from "./picture";
import { saveCsv } from "./save-file";
import { sayError } from "./say";

export interface Span {
  /** "1 May" */
  name: string;
  /** under the bar; empty for none */
  short: string;
  value: number;
  /** the columns of the table */
  words: string[];
}

const [step, high, room] = [16, 90, 20];

/** A year as bars with the highest one's value above it; what each says stands in a table behind them. `columns`: heads of
 *  the names, the values and the table's further columns. */
export function yearBars(title: string, spans: readonly Span[], columns: string[], table: string): HTMLElement {
  const most = Math.max(...spans.map((one) => one.value), 1e-9);
  const highest = spans.findIndex((one) => one.value === most);
  const figure = svg("svg", {
    viewBox: `-8 0 ${step * spans.length + 16} ${high + 2 * room}`,
    class: "year-bars",
    role: "img",
    "aria-label": `${title}: ${spans.map((one) => `${one.name} ${one.words[0] ?? ""}`).join("; ")}`,
  });
  for (const [i, one] of spans.entries()) {
    const tall = (high * one.value) / most;
    const middle = step * (i + 0.5);
    figure.append(
      svg("rect", { x: middle - 6, y: room + high - tall, width: 12, height: Math.max(tall, 0.5) }),
      svg("text", { x: middle, y: 2 * room + high - 4, class: "month" }, one.short),
    );
    if (i === highest)
      figure.append(
        svg(
          "text",
          { x: middle, y: room + high - tall - 5 },
          one.value < 9.5 ? one.value.toFixed(1) : one.value.toFixed(0),
        ),
      );
  }
  const body = h(
    "tbody",
    {},
    ...spans.map((one) =>
      h("tr", {}, h("th", { scope: "row" }, one.name), ...one.words.map((words) => h("td", {}, words))),
    ),
  );
  const [names, , ...further] = columns;
  const head = h("tr", {}, ...[names, ...further].map((words) => h("th", { scope: "col" }, words)));
  const rows = spans.map((one) => [one.name, Number(one.value.toFixed(3)), ...one.words]);
  const files = h(
    "p",
    { class: "files" },
    button(t.files.csv, () => saveCsv(title, [columns, ...rows])),
    button(t.files.picture, () => void saveDrawing(figure, title, [], title).catch(sayError)),
  );
  return h(
    "figure",
    { class: "year" },
    h("figcaption", {}, title),
    figure,
    h(
      "details",
      {},
      h("summary", {}, table),
      h(
        "div",
        { class: "scrolls", tabindex: "0", role: "group", "aria-label": table },
        h("table", {}, h("thead", {}, head), body),
      ),
      files,
    ),
  );
}
