/** What a maker has opened or begun to type must outlive a view that is drawn anew: another's reading that arrives, or
 *  the answer to what was saved before, takes nothing away from under the finger. */

type Box = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

const isBox = (node: Element): node is Box => /^(INPUT|SELECT|TEXTAREA)$/.test(node.tagName);

/** Marks what is being changed by hand; what a form's `reset` cleared is no longer begun. */
export function watchHands(root: Document = document): void {
  const touched = (event: Event): void => {
    if (event.target instanceof Element && isBox(event.target)) event.target.dataset["begun"] = "";
  };
  root.addEventListener("input", touched, true);
  root.addEventListener("change", touched, true);
  root.addEventListener(
    "reset",
    (event) => {
      for (const one of (event.target as HTMLFormElement).elements) delete (one as HTMLElement).dataset["begun"];
    },
    true,
  );
}

const press_ms = 400; // chosen: from the lifting of a finger until the browser has made it a click
const longest_ms = 5000; // chosen: a lifting that the page is not told of holds nothing up for longer

/** Waits while a finger or a button is down: what is under it stays there until it has been pressed. */
export function handsOff(root: EventTarget = document): () => Promise<void> {
  let free = Promise.resolve();
  let let_go = (): void => undefined;
  root.addEventListener(
    "pointerdown",
    () => {
      let_go();
      free = new Promise((resolve) => {
        let_go = resolve;
        setTimeout(resolve, longest_ms);
      });
    },
    true,
  );
  const soon = (): void => {
    const mine = let_go;
    setTimeout(mine, press_ms);
  };
  root.addEventListener("pointerup", soon, true);
  root.addEventListener("pointercancel", soon, true);
  // after the click's own listeners
  root.addEventListener("click", () => void setTimeout(let_go), true);
  return () => free;
}

/** Empties a form that was kept; what hangs on its choices follows. */
export function clearForm(form: HTMLFormElement): void {
  form.reset();
  for (const one of form.querySelectorAll("select")) {
    one.dispatchEvent(new Event("change"));
    delete one.dataset["begun"];
  }
}

/** Where something stands, in words that are the same after drawing: its section, the folds it lies in, its own label. */
function nameOf(node: Element): string {
  const parts: string[] = [node.tagName];
  if (node instanceof HTMLDetailsElement) parts.push(node.querySelector("summary")?.textContent ?? "");
  else if (isBox(node)) parts.push(node.labels?.[0]?.textContent ?? node.getAttribute("aria-label") ?? node.name);
  else parts.push(node.getAttribute("aria-label") ?? node.textContent ?? "");
  for (let up = node.parentElement; up; up = up.parentElement) {
    if (up instanceof HTMLDetailsElement) parts.push(up.querySelector("summary")?.textContent ?? "");
    if (up.matches("section[aria-labelledby], li[data-key]"))
      parts.push(up.getAttribute("aria-labelledby") ?? "", up.getAttribute("data-key") ?? "");
  }
  return parts.join("\n");
}

/** The first of those with a name; of several with the same name each gets a number. */
function named(root: Element, selector: string): Map<string, Element> {
  const all = new Map<string, Element>();
  for (const node of root.querySelectorAll(selector)) {
    const name = nameOf(node);
    let k = 0;
    while (all.has(`${name}#${k}`)) ++k;
    all.set(`${name}#${k}`, node);
  }
  return all;
}

const boxes = "input, select, textarea";
const focusable = `button, a[href], summary, ${boxes}`;

function putBack(to: Box, from: Box): void {
  if (to instanceof HTMLInputElement && from instanceof HTMLInputElement) {
    if (to.type === "file") to.files = from.files;
    else if (to.type === "checkbox" || to.type === "radio") to.checked = from.checked;
    else to.value = from.value;
  } else {
    // a choice whose list is still on its way comes along
    const chosen = from instanceof HTMLSelectElement && from.selectedOptions[0];
    if (to instanceof HTMLSelectElement && chosen && ![...to.options].some((one) => one.value === chosen.value))
      to.append(chosen.cloneNode(true));
    to.value = from.value;
  }
  to.dataset["begun"] = "";
  to.dispatchEvent(new Event("input", { bubbles: true }));
  to.dispatchEvent(new Event("change", { bubbles: true }));
}

const hold_ms = 8000; // chosen: pictures and forecasts that come later give the height back by then

/** Puts `next` in the place of what `place` holds; folds, begun entries, focus and scroll stay as they were. */
export function replaceKeeping(place: HTMLElement, next: HTMLElement): void {
  const folds = [...named(place, "details")]
    .filter(([, one]) => (one as HTMLDetailsElement).open)
    .map(([name]) => name);
  const begun = [...named(place, boxes)].filter(([, one]) => "begun" in (one as HTMLElement).dataset);
  const active = document.activeElement;
  const held = active && place.contains(active) && [...named(place, focusable)].find(([, one]) => one === active)?.[0];
  const top = window.scrollY;
  place.style.minHeight = `${place.offsetHeight}px`;
  window.setTimeout(() => (place.style.minHeight = ""), hold_ms);
  place.replaceChildren(next);
  const newFolds = named(next, "details");
  for (const name of folds) (newFolds.get(name) as HTMLDetailsElement | undefined)?.setAttribute("open", "");
  const newBoxes = named(next, boxes);
  for (const [name, from] of begun) {
    const to = newBoxes.get(name);
    if (to) putBack(to as Box, from as Box);
  }
  if (held) (named(next, focusable).get(held) as HTMLElement | undefined)?.focus({ preventScroll: true });
  window.scrollTo(0, top);
}
