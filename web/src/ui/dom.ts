type Child = Node | string | number | null | undefined | false;
type Value = string | number | boolean | null | undefined | ((event: Event) => void);

function setOne(node: Element, name: string, value: Value): void {
  if (typeof value === "function") node.addEventListener(name, value);
  else if (value === true) node.setAttribute(name, "");
  else if (value !== false && value !== null && value !== undefined) node.setAttribute(name, String(value));
}

function fill(node: Element, attributes: Record<string, Value>, children: Child[]): void {
  for (const [name, value] of Object.entries(attributes)) setOne(node, name, value);
  for (const child of children) {
    if (child === null || child === undefined || child === false) continue;
    node.append(child instanceof Node ? child : String(child));
  }
}

/** An element; functions among the attributes listen to the event of that name. */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Record<string, Value> = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const node = document.createElement(tag);
  fill(node, attributes, children);
  return node;
}

export function svg(tag: string, attributes: Record<string, Value> = {}, ...children: Child[]): SVGElement {
  const node = document.createElementNS("http://www.w3.org/2000/svg", tag);
  fill(node, attributes, children);
  return node;
}

export function button(words: string, press: () => void, look = ""): HTMLButtonElement {
  return h("button", { type: "button", class: look, click: press }, words);
}

/** A labelled field; the label is always seen. */
export function field(words: string, input: HTMLElement, hint = ""): HTMLElement {
  const id = input.id || `f${Math.random().toString(36).slice(2)}`;
  input.id = id;
  const note = hint ? h("small", { id: `${id}-hint` }, hint) : null;
  if (note) input.setAttribute("aria-describedby", note.id);
  return h("div", { class: "field" }, h("label", { for: id }, words), input, note);
}

export function select(
  options: [value: string, words: string][],
  chosen: string,
  change: (value: string) => void,
): HTMLSelectElement {
  const node = h("select", { change: () => change(node.value) });
  for (const [value, words] of options) node.append(h("option", { value, selected: value === chosen }, words));
  return node;
}
