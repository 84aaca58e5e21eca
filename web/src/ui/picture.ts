import { h } from "./dom";
import { saveFile } from "./save-file";

const margin = 16;
const line_px = 22;

/** A drawing as a PNG to send on: its title, the drawing and a legend on the page's own ground. `drawn` is as large as it
 *  says, in pixels of the screen, `scale` to a pixel of the page. */
export function savePicture(
  drawn: HTMLCanvasElement | HTMLImageElement,
  scale: number,
  title: string,
  legend: readonly string[],
  name: string,
): void {
  const line = line_px * scale;
  const canvas = document.createElement("canvas");
  canvas.width = drawn.width + 2 * margin * scale;
  canvas.height = drawn.height + 2 * margin * scale + (2 + legend.length) * line;
  const pen = canvas.getContext("2d");
  if (!pen) return;
  const look = getComputedStyle(document.documentElement);
  pen.fillStyle = look.getPropertyValue("--paper");
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.fillStyle = look.getPropertyValue("--ink");
  pen.font = `bold ${16 * scale}px system-ui, sans-serif`;
  const room = canvas.width - 2 * margin * scale;
  pen.fillText(title, margin * scale, margin * scale + 0.7 * line, room);
  pen.drawImage(drawn, margin * scale, margin * scale + 1.2 * line);
  pen.font = `${14 * scale}px system-ui, sans-serif`;
  const below = margin * scale + 1.2 * line + drawn.height;
  for (const [i, words] of legend.entries()) pen.fillText(words, margin * scale, below + (i + 0.9) * line, room);
  canvas.toBlob((blob) => blob && saveFile(`${name}.png`, blob), "image/png");
}

/** What of a style sheet a drawing needs to be seen outside the page. */
const looks = [
  "fill",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "opacity",
  "font-family",
  "font-size",
  "text-anchor",
];

/** A copy of a drawing that carries its looks itself: the page's style sheet does not go with it. */
function withLooks(figure: SVGElement): SVGElement {
  const copy = figure.cloneNode(true) as SVGElement;
  const originals = [figure, ...figure.querySelectorAll("*")];
  for (const [i, node] of [copy, ...copy.querySelectorAll("*")].entries()) {
    const style = getComputedStyle(originals[i]!);
    for (const name of looks) node.setAttribute(name, style.getPropertyValue(name));
  }
  return copy;
}

const sharp = 2; // chosen: sharp enough to print

/** The same of a vector drawing that stands in the page. */
export async function saveDrawing(
  figure: SVGElement,
  title: string,
  legend: readonly string[],
  name: string,
): Promise<void> {
  const { width, height } = figure.getBoundingClientRect();
  const copy = withLooks(figure);
  copy.setAttribute("width", String(Math.ceil(width * sharp)));
  copy.setAttribute("height", String(Math.ceil(height * sharp)));
  const src = URL.createObjectURL(new Blob([new XMLSerializer().serializeToString(copy)], { type: "image/svg+xml" }));
  try {
    const image = h("img", { src });
    await image.decode();
    savePicture(image, sharp, title, legend, name);
  } finally {
    URL.revokeObjectURL(src);
  }
}
