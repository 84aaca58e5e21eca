import { type Yard, get, goneSince, isLastSeen, seenAt } from "../api/client";
import { waiting } from "../queue/queue";
import { h } from "../ui/dom";
import { t } from "../words/words";
import { offlineState, onOffline } from "./offline";

const look_ms = 20000; // chosen
const old_ms = 60000; // chosen: what is shown is called old from then on

const clock = (ms: number): string =>
  new Date(ms).toLocaleTimeString(undefined, { hour: "2-digit", minute: "2-digit" });
const clockOrDay = (ms: number): string =>
  Date.now() - ms < 12 * 3600_000
    ? clock(ms)
    : new Date(ms).toLocaleString(undefined, { weekday: "short", hour: "2-digit", minute: "2-digit" });

/** A line of one height under the links, so that nothing below it moves when it changes. */
export const reachLine = h("div", { id: "reach", role: "status" });
let seen = ""; // what the yard looked like when it was drawn
let is_changed = false;

/** Tells how true the page is: live, as of when, what waits, and whether it works offline. */
export async function tellReach(redraw?: () => void): Promise<void> {
  const all = await waiting().catch(() => []);
  const refused = all.filter((one) => one.refused).length;
  const gone = goneSince();
  const parts: (HTMLElement | string)[] = [];
  if (refused) parts.push(h("a", { href: "#/setup", class: "wrong" }, t.reach.refused(refused)));
  if (all.length > refused) parts.push(h("a", { href: "#/setup" }, t.reach.waiting(all.length - refused)));
  if (is_changed && redraw)
    parts.push(
      h("button", { type: "button", class: "inline", click: () => ((is_changed = false), redraw()) }, t.reach.changed),
    );
  else if (gone)
    parts.push(
      h(
        "span",
        {},
        isLastSeen() && seenAt() ? `${t.reach.lastSeen}, ${clockOrDay(seenAt())}` : t.reach.gone(clock(gone)),
      ),
    );
  else if (seenAt() && Date.now() - seenAt() > old_ms) parts.push(h("span", {}, t.reach.asOf(clockOrDay(seenAt()))));
  const offline = offlineState();
  if (!parts.length && offline === "no certificate") parts.push(h("a", { href: "#/setup" }, t.reach.noCertificate));
  if (!parts.length)
    parts.push(
      h(
        "span",
        { class: `light ${offline}` },
        offline === "ready" ? t.reach.ready : offline === "preparing" ? t.reach.preparing : t.reach.live,
      ),
    );
  reachLine.className = gone ? "gone" : refused ? "bad" : "";
  reachLine.replaceChildren(...parts.slice(0, 2));
}

const trace = (yard: Yard): string => JSON.stringify(yard.vessels);

/** Looks from time to time whether someone else noted something. What is shown changes by itself only when no hand has
 *  been at the page for a while; else the line offers it. */
export function keepLooking(redraw: () => void): void {
  let touched_ms = 0;
  const touch = (): void => void (touched_ms = Date.now());
  for (const kind of ["pointerdown", "keydown", "scroll"])
    document.addEventListener(kind, touch, { passive: true, capture: true });
  onOffline(() => void tellReach(redraw));
  const look = async (): Promise<void> => {
    if (document.visibilityState !== "visible") return;
    const yard = await get<Yard>("/api/yard").catch(() => null);
    const now = yard ? trace(yard) : seen;
    if (seen && now !== seen) {
      const busy = Date.now() - touched_ms < look_ms || document.activeElement instanceof HTMLInputElement;
      if (!busy && /^(#\/yard)?$/.test(location.hash)) redraw();
      else is_changed = true;
    }
    seen = now;
    await tellReach(redraw);
  };
  window.setInterval(() => void look(), look_ms);
  document.addEventListener("visibilitychange", () => void look());
  void look();
}
