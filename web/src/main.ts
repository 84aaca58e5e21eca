import "./look/look.css";
import { OutOfReach, Refused, isLastSeen } from "./api/client";
import { intakeView } from "./intake/intake";
import { fillView } from "./note/fill";
import { noteView } from "./note/note";
import { keepSending, onQueue, waiting } from "./queue/queue";
import { passphraseView, session } from "./session/session";
import { applyTheme, setupView } from "./setup/setup";
import { chosenUnits, theSite } from "./state";
import { h } from "./ui/dom";
import { problemList, sayLine } from "./ui/say";
import { useSystem, type System } from "./units/units";
import { batchView } from "./vessel/earlier";
import { vesselView } from "./vessel/vessel";
import { yardView } from "./yard/yard";

const page = document.querySelector<HTMLElement>("#page")!;
const reach = h("div", { id: "reach", role: "status" });
const place = h("div", { id: "place" });
const links: [string, string][] = [
  ["#/yard", "Yard"],
  ["#/table", "Planning"],
  ["#/setup", "Settings"],
];
const bar = h("nav", { "aria-label": "Pages" }, ...links.map(([href, words]) => h("a", { href }, words)));

let over = new AbortController();

function view(redraw: () => void): Promise<HTMLElement> {
  const [, name = "yard", id = ""] = location.hash.split("/");
  switch (name) {
    case "vessel":
      return vesselView(decodeURIComponent(id), redraw, over);
    case "batch":
      return batchView(decodeURIComponent(id), redraw);
    case "note":
      return noteView(decodeURIComponent(id));
    case "fill":
      return fillView(decodeURIComponent(id));
    case "intake":
      return intakeView(decodeURIComponent(id));
    case "table":
      return import("./table/table").then(({ tableView }) => tableView(over.signal));
    case "setup":
      return setupView(redraw);
    default:
      return yardView(redraw);
  }
}

function failed(error: unknown): HTMLElement {
  const words = error instanceof OutOfReach ? "Out of reach of the server, and this page was not seen before." : "This did not work";
  return h("main", { id: "main", tabindex: "-1" }, h("h1", {}, words), error instanceof OutOfReach ? h("p", {}, "Entries already made wait in this phone and are sent later.") : problemList(error));
}

function markLinks(): void {
  const here = location.hash.split("/")[1] ?? "yard";
  const under = here === "table" || here === "setup" ? here : "yard";
  for (const link of bar.querySelectorAll("a")) {
    if (link.getAttribute("href") === `#/${under}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}

let turn = 0;
async function draw(toTop: boolean): Promise<void> {
  over.abort();
  over = new AbortController();
  const mine = ++turn;
  let shown: HTMLElement;
  try {
    shown = await view(() => draw(false));
  } catch (error) {
    if (error instanceof Refused && error.status === 401) return;
    shown = failed(error);
  }
  if (mine !== turn) return;
  place.replaceChildren(shown);
  markLinks();
  await tellReach();
  if (toTop) {
    window.scrollTo(0, 0);
    shown.focus({ preventScroll: true });
  }
}

async function tellReach(): Promise<void> {
  const all = await waiting().catch(() => []);
  const refused = all.filter((one) => one.refused).length;
  const parts: string[] = [];
  if (isLastSeen()) parts.push("Out of reach: shown as last seen");
  if (all.length > refused) parts.push(`${all.length - refused} in this phone, sent when in reach`);
  if (refused) parts.push(`${refused} refused: see Settings`);
  reach.textContent = parts.join(". ");
  reach.hidden = !parts.length;
}

async function open(): Promise<void> {
  const site = await theSite().catch(() => null);
  useSystem((chosenUnits() || site?.units || "metric") as System);
  keepSending();
  await draw(true);
}

async function start(): Promise<void> {
  applyTheme();
  page.append(h("a", { class: "skip", href: "#main", click: (event) => (event.preventDefault(), document.querySelector<HTMLElement>("#main")?.focus()) }, "To the content"), bar, reach, place, sayLine());
  const ask = (): void => place.replaceChildren(passphraseView(() => void open()));
  window.addEventListener("need-passphrase", ask);
  window.addEventListener("hashchange", () => void draw(true));
  let sent = 0;
  onQueue(() => {
    window.clearTimeout(sent);
    sent = window.setTimeout(() => void (/^(#\/(yard|setup))?$/.test(location.hash) ? draw(false) : tellReach()), 50);
  });
  if ("serviceWorker" in navigator) void navigator.serviceWorker.register("/sw.js").catch(() => undefined);
  const now = await session().catch(() => null);
  if (now?.needs_passphrase && !now.signed_in) ask();
  else await open();
}

void start();
