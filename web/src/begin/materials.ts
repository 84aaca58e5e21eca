import type { BeginningOffer } from "../api/client";
import { button, field, h } from "../ui/dom";
import { show } from "../units/units";
import { t } from "../words/words";
import { amount } from "./fields";
import { swatchOf } from "./swatch";
import type { Said } from "./wish";

type Feedstock = BeginningOffer["feedstocks"][number];

export const feedstockOf = (offer: BeginningOffer, like: string): Feedstock | undefined =>
  offer.feedstocks.find((one) => one.id === like);

const about = (one: Feedstock): string =>
  t.table.waterOf(show("share", one.moisture_wet)) +
  (one.carbon_to_nitrogen === null ? "" : t.table.carbonOf(one.carbon_to_nitrogen.toFixed(0)));

/** A material that was picked: how much of it there is, and away with it. */
function pickedRow(one: Feedstock, said: Said, redraw: () => void): HTMLElement {
  const mine = said.materials.find((other) => other.like === one.id)!;
  const away = button(
    t.begin.away,
    () => {
      said.materials = said.materials.filter((other) => other !== mine);
      said.shares = null;
      redraw();
    },
    "small",
  );
  away.setAttribute("aria-label", `${t.begin.away}: ${one.name}`);
  return h(
    "li",
    { class: "picked" },
    swatchOf(one.id, one.kind),
    h("div", {}, h("strong", {}, one.name), h("small", {}, about(one))),
    amount({
      words: t.begin.have,
      kind: "volume",
      value: mine.stock_m3,
      put: (m3) => (mine.stock_m3 = m3),
    }),
    away,
  );
}

/** All typical feedstocks by kind, each a picture and a name; those that were picked stand first, with what is there. */
export function materialsPage(offer: BeginningOffer, said: Said): HTMLElement {
  const picked = h("ul", { class: "picked-list" });
  const list = h("div", {});
  const find = h("input", { type: "search", autocomplete: "off" });
  const pick = (one: Feedstock): void => {
    said.materials.push({ like: one.id, stock_m3: null });
    said.shares = null;
    find.value = "";
    draw();
    picked.lastElementChild?.scrollIntoView({ block: "nearest" });
  };
  const card = (one: Feedstock): HTMLElement =>
    h(
      "button",
      { type: "button", class: "material", click: () => pick(one) },
      swatchOf(one.id, one.kind),
      h("span", {}, one.name),
    );
  const draw = (): void => {
    const chosen = new Set(said.materials.map((one) => one.like));
    picked.replaceChildren(
      ...said.materials.flatMap(({ like }) => {
        const one = feedstockOf(offer, like);
        return one ? [pickedRow(one, said, draw)] : [];
      }),
    );
    const wanted = find.value.trim().toLowerCase();
    const left = offer.feedstocks.filter((one) => !chosen.has(one.id) && one.name.toLowerCase().includes(wanted));
    const kinds = [...new Set(offer.feedstocks.map((one) => one.kind))];
    list.replaceChildren(
      ...kinds.flatMap((kind) => {
        const all = left.filter((one) => one.kind === kind);
        return all.length
          ? [h("h3", {}, t.begin.kinds[kind] ?? kind), h("div", { class: "materials" }, ...all.map(card))]
          : [];
      }),
      left.length ? "" : h("p", {}, t.begin.foundNone),
    );
  };
  find.addEventListener("input", draw);
  draw();
  return h("div", {}, picked, field(t.begin.find, find), list);
}
