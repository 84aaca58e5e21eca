import { h } from "./dom";
import { Refused } from "../api/client";

const line = h("div", { id: "say", role: "status", "aria-live": "polite" });
let timer = 0;

export const sayLine = (): HTMLElement => line;

/** Tells in words what happened, seen and heard; stays for a while. */
export function say(words: string, bad = false): void {
  line.textContent = words;
  line.className = bad ? "shown bad" : "shown";
  window.clearTimeout(timer);
  timer = window.setTimeout(() => (line.className = ""), bad ? 12000 : 5000);
}

export function sayError(error: unknown): void {
  if (error instanceof DOMException && error.name === "AbortError") return;
  say(error instanceof Error ? error.message : String(error), true);
}

/** What is wrong, as a list beside the place where it can be mended. */
export function problemList(error: unknown): HTMLElement {
  if (!(error instanceof Refused)) return h("p", { class: "wrong" }, error instanceof Error ? error.message : String(error));
  const list = h("ul", { class: "wrong" });
  for (const one of error.problems) list.append(h("li", {}, `${one.where} ${one.what}: ${one.mend}.`));
  return list;
}
