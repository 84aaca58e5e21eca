import { get } from "../api/client";
import { h, svg } from "../ui/dom";
import { currentSystem } from "../units/units";
import { t } from "../words/words";

interface Addresses {
  addresses: string[];
}

const quiet = 4; // modules of white around the code, ISO/IEC 18004 (from memory)

/** An address as a QR code, dark on white whatever the theme: cameras want it so. */
async function qrFigure(address: string): Promise<SVGElement> {
  const { default: qrcode } = await import("qrcode-generator");
  const code = qrcode(0, "M");
  code.addData(address);
  code.make();
  const count = code.getModuleCount();
  let path = "";
  for (let row = 0; row < count; ++row) {
    for (let column = 0; column < count; ++column)
      if (code.isDark(row, column)) path += `M${column + quiet} ${row + quiet}h1v1h-1z`;
  }
  const size = count + 2 * quiet;
  return svg(
    "svg",
    { viewBox: `0 0 ${size} ${size}`, class: "qr", role: "img", "aria-label": t.settings.qrOf(address) },
    svg("rect", { width: size, height: size, fill: "#fff" }),
    svg("path", { d: path, fill: "#000" }),
  );
}

/** Where phones find this page. */
export async function pairingPart(): Promise<HTMLElement> {
  const known = await get<Addresses>("/api/addresses").catch(() => null);
  const here = location.hostname === "localhost" || location.hostname === "127.0.0.1" ? [] : [location.origin];
  const all = known?.addresses.length ? known.addresses : here;
  if (!all.length) return h("p", {}, t.settings.notOpen);
  const list = h("div", { class: "pairing" });
  for (const address of all)
    list.append(h("figure", {}, await qrFigure(address), h("figcaption", {}, t.settings.scan(address))));
  return h(
    "div",
    {},
    list,
    h("p", { class: "why" }, t.settings.scanWhy),
    h(
      "p",
      { class: "files" },
      h(
        "a",
        { class: "button", href: `/api/labels.pdf?units=${currentSystem()}`, download: "labels.pdf" },
        t.settings.labels,
      ),
    ),
    h("p", { class: "why" }, t.settings.labelsWhy),
  );
}
