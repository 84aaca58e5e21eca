import "./look/look.css";
import { type Measure, OutOfReach, Refused, type Session } from "./api/client";
import { noteView } from "./note/note";
import { prepareOffline } from "./offline/offline";
import { keepLooking, reachLine, tellReach } from "./offline/reach";
import { keepSending, onQueue } from "./queue/queue";
import { roundView } from "./round/round";
import { passphraseView, session } from "./session/session";
import { chosenUnits, forgetSite, kept, theSite } from "./state";
import { h } from "./ui/dom";
import { handsOff, replaceKeeping, watchHands } from "./ui/keep-place";
import { problemList, sayError, sayLine } from "./ui/say";
import { applyTheme } from "./ui/theme";
import { type System, useSystem } from "./units/units";
import { t, useLanguage } from "./words/words";
import { yardView } from "./yard/yard";

const page = document.querySelector<HTMLElement>("#page")!;
const place = h("div", { id: "place" });
const bar = h("nav");
const skip = h("a", {
  class: "skip",
  href: "#main",
  click: (event) => (event.preventDefault(), document.querySelector<HTMLElement>("#main")?.focus()),
});
const notRead = h("footer", { class: "why" });
/** What stands round every view, in the language that is shown. */
function nameLinks(): void {
  const links: [string, string][] = [
    ["#/yard", t.linkYard],
    ["#/table", t.linkPlanning],
    ["#/setup", t.linkSettings],
  ];
  bar.setAttribute("aria-label", t.pages);
  bar.replaceChildren(...links.map(([href, words]) => h("a", { href }, words)));
  skip.textContent = t.skip;
  notRead.textContent = t.notRead;
  notRead.hidden = !t.notRead;
}

let over = new AbortController();

/** Whether the yard has its site file; until then there is one view alone, without the links. */
let hasSite = true;

function view(redraw: () => void): Promise<HTMLElement> {
  if (!hasSite) return import("./begin/begin").then(({ beginView }) => beginView(begun));
  const [, name = "yard", id = "", what] = location.hash.split("/");
  switch (name) {
    case "vessel":
      return import("./vessel/vessel").then(({ vesselView }) => vesselView(decodeURIComponent(id), redraw, over));
    case "story":
      return import("./vessel/story").then(({ storyView }) => storyView(decodeURIComponent(id), over.signal));
    case "batch":
      return import("./vessel/earlier").then(({ batchView }) => batchView(decodeURIComponent(id), redraw));
    case "note":
      return noteView(decodeURIComponent(id), what as Measure | undefined);
    case "round":
      return roundView();
    case "mend":
      return import("./queue/mend").then(({ mendView }) => mendView(decodeURIComponent(id)));
    case "fill":
      return import("./note/fill").then(({ fillView }) => fillView(decodeURIComponent(id)));
    case "intake":
      return import("./intake/intake").then(({ intakeView }) => intakeView(decodeURIComponent(id)));
    case "table":
      return import("./table/table").then(({ tableView }) => tableView(over.signal));
    case "setup":
      return import("./setup/setup").then(({ setupView }) => setupView(redraw));
    default:
      return yardView(redraw);
  }
}

function failed(error: unknown): HTMLElement {
  const away = error instanceof OutOfReach;
  const again = h("button", { type: "button", class: "big", click: () => void draw(true) }, t.reach.retry);
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, away ? t.reach.never : t.reach.failed),
    away ? h("p", {}, t.reach.waitsHere) : problemList(error),
    again,
  );
}

function markLinks(): void {
  const here = location.hash.split("/")[1] ?? "yard";
  const under = here === "table" || here === "setup" ? here : "yard";
  for (const link of bar.querySelectorAll("a")) {
    if (link.getAttribute("href") === `#/${under}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}

const handIsOff = handsOff();
let turn = 0;
/** When the first view after the last tap came under the finger: a slow phone draws it long after the tap. Later ones,
 *  drawn for what others noted, take no tap away. */
let drawn_after_tap = 0;
/** The address of the view that stands there. */
let stands: string | null = null;
async function draw(anew: boolean): Promise<void> {
  over.abort();
  over = new AbortController();
  const mine = ++turn;
  // What a view asked for may come back when another is open: that one is left alone, and what was begun in it.
  const here = location.hash;
  const again = (): void => void (location.hash === here && draw(false));
  // Another view begins at its top, also when what was noted in the last one has it drawn again before it was seen.
  const toTop = anew || stands !== here;
  let shown: HTMLElement;
  try {
    shown = await view(again);
  } catch (error) {
    if (error instanceof Refused && error.status === 401) return;
    shown = failed(error);
  }
  if (!toTop) await handIsOff();
  await tellReach(redrawn); // first, so that nothing is offered any more beside the view that shows it
  if (mine !== turn) return;
  stands = here;
  if (toTop) place.replaceChildren(shown);
  else replaceKeeping(place, shown);
  drawn_after_tap ||= performance.now();
  markLinks();
  if (toTop) {
    window.scrollTo(0, 0);
    shown.focus({ preventScroll: true });
  }
}
const redrawn = (): void => void draw(false);

const double_ms = 450; // chosen: the second tap of a thumb in a glove
const near_px = 48;

/** The second tap of a double tap falls on what has come under the finger meanwhile: it presses nothing there. */
function ignoreDoubleTaps(): void {
  let last = { at: 0, x: 0, y: 0, under: null as EventTarget | null };
  document.addEventListener(
    "click",
    (event) => {
      if (!event.isTrusted || event.detail === 0) return; // by keyboard
      const again =
        event.timeStamp - Math.max(last.at, drawn_after_tap) < double_ms &&
        Math.hypot(event.clientX - last.x, event.clientY - last.y) < near_px;
      if (again && event.target !== last.under && !(last.under as Node | null)?.isConnected) {
        event.preventDefault();
        event.stopPropagation();
      } else {
        drawn_after_tap = 0;
        last = { at: event.timeStamp, x: event.clientX, y: event.clientY, under: event.target };
      }
    },
    true,
  );
}

/** The site file was written: planning comes next. */
function begun(): void {
  forgetSite();
  history.replaceState(null, "", "#/table");
  void open({ needs_passphrase: false, signed_in: true, has_site: true }).catch(sayError);
}

async function open(now: Session | null): Promise<void> {
  hasSite = now?.has_site ?? true; // out of reach: what this phone kept is shown
  bar.hidden = reachLine.hidden = !hasSite;
  if (!hasSite) return draw(true);
  const site = await theSite().catch(() => null);
  useSystem((chosenUnits() || site?.units || "metric") as System);
  keepSending();
  await draw(true);
  keepLooking(redrawn);
  void prepareOffline();
}

/** The chosen language, for whatever is drawn from now on. */
async function speak(): Promise<void> {
  await useLanguage(kept("language"));
  document.documentElement.lang = t.language;
  nameLinks();
}

async function start(): Promise<void> {
  applyTheme();
  ignoreDoubleTaps();
  watchHands();
  await speak();
  page.append(skip, bar, reachLine, place, notRead, sayLine());
  const ask = (): void => place.replaceChildren(passphraseView((now) => void open(now)));
  window.addEventListener("need-passphrase", ask);
  window.addEventListener("hashchange", () => void draw(true));
  window.addEventListener("language", () => void speak().then(redrawn));
  onQueue(() => void tellReach(redrawn));
  window.addEventListener("stored", () => /^(#\/yard)?$/.test(location.hash) && redrawn());
  const now = await session().catch(() => null);
  if (now?.needs_passphrase && !now.signed_in) ask();
  else await open(now);
}

void start();
