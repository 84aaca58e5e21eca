import { goneSince, isLastSeen, seenAt } from "../api/client";
import { waiting } from "../queue/queue";
import { isYardOld, lookAtYard } from "../state";
import { h } from "../ui/dom";
import { locale } from "../units/when";
import { t } from "../words/words";
import { whenStored } from "./live";
import { offlineState, onOffline } from "./offline";

const look_ms = 20000; // chosen
const rest_ms = 5000; // chosen: a hand that has touched nothing for so long is not about to
const old_ms = 60000; // chosen: what is shown is called old from then on

const clock = (ms: number): string => new Date(ms).toLocaleTimeString(locale(), { hour: "2-digit", minute: "2-digit" });
const clockOrDay = (ms: number): string =>
  Date.now() - ms < 12 * 3600_000
    ? clock(ms)
    : new Date(ms).toLocaleString(locale(), { weekday: "short", hour: "2-digit", minute: "2-digit" });

/** A line of one height under the links, on a phone room for two, so that nothing below it moves when it changes. Only text
 *  that is set much larger makes it grow. */
export const reachLine = h("div", { id: "reach", role: "status" });
const showsYard = (): boolean => /^(#\/yard)?$/.test(location.hash);
const showsRecords = (): boolean => showsYard() || location.hash.startsWith("#/vessel/");

/** Tells how true the page is: live, as of when, what waits, and whether it works offline. */
export async function tellReach(redraw?: () => void): Promise<void> {
  const all = await waiting().catch(() => []);
  const refused = all.filter((one) => one.refused).length;
  const gone = goneSince();
  const parts: (HTMLElement | string)[] = [];
  if (refused) parts.push(h("a", { href: "#/setup", class: "wrong" }, t.reach.refused(refused)));
  if (all.length > refused) parts.push(h("a", { href: "#/setup" }, t.reach.waiting(all.length - refused)));
  if (redraw && isYardOld() && showsRecords())
    parts.push(h("button", { type: "button", class: "inline", click: redraw }, t.reach.changed));
  else if (gone)
    parts.push(
      h("span", {}, isLastSeen() && seenAt() ? t.reach.lastSeen(clockOrDay(seenAt())) : t.reach.gone(clock(gone))),
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

/** Looks whether someone else noted something: when the server says so, and from time to time. The yard changes by itself
 *  once the hand rests; a vessel's page, and a field that is being written into, are offered it in the line. */
export function keepLooking(redraw: () => void): void {
  let touched_ms = 0;
  let later = 0;
  const touch = (): void => void (touched_ms = Date.now());
  for (const kind of ["pointerdown", "keydown", "scroll"])
    document.addEventListener(kind, touch, { passive: true, capture: true });
  onOffline(() => void tellReach(redraw));
  const show = async (): Promise<void> => {
    window.clearTimeout(later);
    const rests_ms = rest_ms - (Date.now() - touched_ms);
    const writes = document.activeElement instanceof HTMLInputElement;
    if (isYardOld() && !writes && showsYard()) {
      if (rests_ms <= 0) return redraw();
      later = window.setTimeout(() => void show(), rests_ms);
    }
    await tellReach(redraw);
  };
  const look = async (): Promise<void> => {
    if (document.visibilityState !== "visible") return;
    await lookAtYard();
    await show();
  };
  window.setInterval(() => void look(), look_ms);
  document.addEventListener("visibilitychange", () => void look());
  whenStored(() => void look());
  void look();
}
