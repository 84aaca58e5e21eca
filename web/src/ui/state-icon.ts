import type { Level } from "../yard/verdict";
import { svg } from "./dom";

/** A shape of its own for each state, so that it is told without colour: octagon, triangle, dashed ring, tick, square. */
export function stateIcon(level: Level): SVGElement {
  const icon = svg("svg", { viewBox: "0 0 24 24", class: `icon ${level}`, "aria-hidden": "true" });
  const sign = (d: string): void => void icon.append(svg("path", { d, class: "sign" }));
  if (level === "danger") {
    icon.append(svg("path", { d: "M7.4 1h9.2L23 7.4v9.2L16.6 23H7.4L1 16.6V7.4Z", class: "shape" }));
    sign("M12 5.5v8M12 16.6v2");
  } else if (level === "warning") {
    icon.append(svg("path", { d: "M12 1.5 23.2 22H.8Z", class: "shape" }));
    sign("M12 8.5v6.4M12 17.6v2");
  } else if (level === "fine") {
    icon.append(svg("circle", { cx: 12, cy: 12, r: 11, class: "shape" }));
    sign("m6.5 12.5 3.8 3.8 7.2-8");
  } else if (level === "unread") {
    icon.append(svg("circle", { cx: 12, cy: 12, r: 10, class: "ring" }));
    sign("M9 9.2c.2-3.600 6.200-3.400 6 .2-.1 2-3 2.300-3 4.800M12 17v1.800");
  } else {
    icon.append(svg("rect", { x: 3, y: 3, width: 18, height: 18, class: "ring" }));
  }
  return icon;
}
