import { type StoreCheck, get } from "../api/client";
import { h } from "../ui/dom";
import { t } from "../words/words";

const again_ms = 5000; // chosen: the check takes seconds to a minute

function words(check: StoreCheck): HTMLElement {
  if (check.state !== "damaged") return h("p", { class: "why" }, t.store.state(check.words));
  const steps = h("ol");
  for (const one of check.restore) steps.append(h("li", {}, one));
  const damage = h("ul");
  for (const one of check.damage) damage.append(h("li", {}, one));
  return h(
    "section",
    { class: "caution", "aria-labelledby": "store-title" },
    h("h2", { id: "store-title", class: "wrong" }, t.store.headDamaged),
    h("p", {}, t.store.restore),
    steps,
    h("details", {}, h("summary", {}, t.store.found(check.damage.length)), damage),
  );
}

/** Whether the records are whole; looks again while they are being looked over. Says nothing when out of reach. */
export function storeLine(): HTMLElement {
  const root = h("div", { class: "store", role: "status" });
  const look = async (): Promise<void> => {
    const check = await get<StoreCheck>("/api/store").catch(() => null);
    root.replaceChildren(check ? words(check) : "");
    if (check?.state === "checking" && root.isConnected) window.setTimeout(() => void look(), again_ms);
  };
  void look();
  return root;
}
