import { Refused, Stopped, problemWords } from "../api/client";
import { h } from "./dom";

const line = h("div", { id: "say", role: "status", "aria-live": "polite" });
let timer = 0;
let turn = 0;
const least_px = 60; // chosen: lower than a line and its button, nothing could be read

export const sayLine = (): HTMLElement => line;

interface Manner {
  bad?: boolean;
  action?: { words: string; press: () => void };
  stay_ms?: number;
}

/** Tells in words what happened, seen and heard; stays for a while. Its words can change while it is the last one said. */
export function say(words: string, { bad = false, action, stay_ms }: Manner = {}): { change: (words: string) => void } {
  const mine = ++turn;
  const text = h("span", {}, words);
  line.replaceChildren(text);
  if (action) {
    const press = (): void => {
      if (mine !== turn) return;
      line.className = "";
      ++turn;
      action.press();
    };
    line.append(h("button", { type: "button", class: "say-action", click: press }, action.words));
  }
  line.className = bad ? "shown bad" : "shown";
  // what went well covers the links, never the name of what comes next; what went wrong is read in full
  const above = document.querySelector<HTMLElement>("#main")?.offsetTop ?? 0;
  line.style.maxHeight = bad || above < least_px ? "" : `${above - line.offsetTop}px`;
  window.clearTimeout(timer);
  timer = window.setTimeout(() => mine === turn && (line.className = ""), stay_ms ?? (bad ? 20000 : 6000));
  return { change: (other) => mine === turn && (text.textContent = other) };
}

/** What failed, in words; nothing when nothing did: a view was left, or the maker stopped it. */
export function errorWords(error: unknown): string {
  if (error instanceof DOMException && error.name === "AbortError") return "";
  return error instanceof Error ? error.message : String(error);
}

export function sayError(error: unknown): void {
  const words = error instanceof Stopped ? "" : errorWords(error);
  if (words) say(words, { bad: true });
}

/** What is wrong, as a list beside the place where it can be mended. */
export function problemList(error: unknown): HTMLElement {
  if (!(error instanceof Refused)) return h("p", { class: "wrong" }, errorWords(error));
  const list = h("ul", { class: "wrong" });
  for (const one of error.problems) list.append(h("li", {}, `${problemWords(one)}.`));
  return list;
}
