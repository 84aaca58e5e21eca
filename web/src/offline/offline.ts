import { type Yard, get } from "../api/client";
import { currentSystem } from "../units/units";
import { t } from "../words/words";

export type OfflineState = "ready" | "preparing" | "no certificate" | "old browser";

let state: OfflineState = "preparing";
const changed = new EventTarget();

export const offlineState = (): OfflineState => state;
export const onOffline = (then: () => void): void => changed.addEventListener("change", then);

function become(other: OfflineState): void {
  if (other === state) return;
  state = other;
  changed.dispatchEvent(new Event("change"));
}

/** In plain words whether this page works without the server, and what to do when it does not. */
export function offlineWords(): string {
  if (state === "ready") return t.reach.ready;
  if (state === "preparing") return t.reach.preparing;
  return state === "no certificate" ? `${t.reach.noCertificate}. ${t.reach.noCertificateWhy}` : t.reach.oldBrowser;
}

const at_once = 2; // chosen: a phone's other requests go on meanwhile

/** Looks once at what a round needs, so that the worker keeps it: the first visit is enough. */
async function lookAtYard(): Promise<Yard> {
  const [yard] = await Promise.all([
    get<Yard>("/api/yard"),
    get("/api/site"),
    get(`/api/today?units=${currentSystem()}`),
  ]);
  return yard;
}

/** The same for each vessel's own page; what is missing there is told when it is opened. */
async function lookAtVessels(yard: Yard): Promise<void> {
  const fills = yard.vessels.flatMap((one) => (one.fill ? [one.fill.thing ?? one.fill.id] : []));
  const paths = fills.flatMap((fill) => [
    `/api/fills/${fill}`,
    `/api/fills/${fill}/readings`,
    `/api/fills/${fill}/state?units=${currentSystem()}`,
  ]);
  for (let at = 0; at < paths.length; at += at_once)
    await Promise.all(paths.slice(at, at + at_once).map((path) => get(path).catch(() => null)));
}

/** Registers the worker and, once it stands between, fetches again what the page was opened with. */
export async function prepareOffline(): Promise<void> {
  if (!window.isSecureContext) return become("no certificate");
  if (!("serviceWorker" in navigator)) return become("old browser");
  try {
    await navigator.serviceWorker.register("/sw.js");
    await navigator.serviceWorker.ready;
  } catch {
    return become("old browser"); // private windows, and browsers that keep nothing
  }
  if (!navigator.serviceWorker.controller)
    await new Promise((resolve) =>
      navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true }),
    );
  try {
    const yard = await lookAtYard();
    become("ready");
    void lookAtVessels(yard);
  } catch {
    window.setTimeout(() => void prepareOffline(), 20000); // chosen: out of reach before all was seen
  }
}
