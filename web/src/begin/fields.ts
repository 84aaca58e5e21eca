import { field, h } from "../ui/dom";
import { type Kind, unit } from "../units/units";
import { t } from "../words/words";

/** A number as a maker types it, with point or comma; null: nothing. */
export const typed = (text: string): number | null => {
  const plain = text.trim().replace(",", ".").replace("−", "-");
  return plain === "" ? null : Number(plain);
};

interface Asked {
  words: string;
  /** none: a plain number */
  kind?: Kind;
  value: number | null;
  put: (si: number | null) => void;
  hint?: string;
  digits?: number;
}

/** A labelled field for an amount in the units that are shown, kept in SI. */
export function amount({ words, kind, value, put, hint, digits }: Asked): HTMLElement {
  const one = kind ? unit(kind) : null;
  const shown =
    value === null ? "" : String(Number((one ? one.fromSi(value) : value).toFixed(digits ?? one?.digits ?? 4)));
  const input = h("input", {
    value: shown.replace(".", t.decimal),
    autocomplete: "off",
    maxlength: 12,
    spellcheck: "false",
  });
  input.addEventListener("input", () => {
    const found = typed(input.value);
    put(found === null || !one ? found : one.toSi(found));
  });
  return field(one ? `${words} (${one.sign})` : words, input, hint);
}

/** One of a few, all in sight. */
export function choice<T extends string>(
  words: string,
  options: readonly (readonly [T, string])[],
  chosen: T | "",
  pick: (value: T) => void,
): HTMLElement {
  const name = `c${Math.random().toString(36).slice(2)}`;
  const box = h("fieldset", { class: "choice" }, h("legend", {}, words));
  for (const [value, shown] of options) {
    const input = h("input", { type: "radio", name, value, checked: value === chosen, change: () => pick(value) });
    box.append(h("label", { class: "pick" }, input, h("span", {}, shown)));
  }
  return box;
}
