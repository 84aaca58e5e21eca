import { chosenTheme, chosenUnits, initials, keep, theSite } from "../state";
import { drop, send, waiting } from "../queue/queue";
import { button, field, h, select } from "../ui/dom";
import { storeLine } from "../store/store";
import { say, sayError } from "../ui/say";
import { useSystem, type System } from "../units/units";

export function applyTheme(): void {
  const theme = chosenTheme();
  if (theme) document.documentElement.dataset["theme"] = theme;
  else delete document.documentElement.dataset["theme"];
}

async function waitingPart(redraw: () => void): Promise<HTMLElement> {
  const all = await waiting();
  const list = h("ul", { class: "record" });
  for (const one of all) {
    const words = `${one.entry.kind_of_entry}${one.entry["written"] ? ` ${String(one.entry["written"])}` : ""}`;
    const away = one.refused ? button("Throw away", () => void drop(one.entry.id).then(redraw), "small") : null;
    list.append(h("li", {}, h("span", {}, words, one.refused ? h("span", { class: "wrong" }, `: refused, ${one.refused}`) : ": waits to be sent"), away));
  }
  const again = button("Send now", () => void send().then((ok) => (say(ok ? "All that could be sent is sent." : "The server is out of reach."), redraw())).catch(sayError));
  return h("section", { class: "panel", "aria-labelledby": "waiting-title" }, h("h2", { id: "waiting-title" }, all.length ? `${all.length} entries in this phone` : "No entry waits in this phone"), list, all.length ? again : null);
}

/** What this phone or browser remembers. */
export async function setupView(redraw: () => void): Promise<HTMLElement> {
  document.title = "Settings";
  const site = await theSite().catch(() => null);
  const units = select([["", `as the site file: ${site?.units === "us" ? "US" : "metric"}`], ["metric", "metric"], ["us", "US: °F, gallons, feet"]], chosenUnits(), (value) => {
    keep("units", value);
    useSystem((value || site?.units || "metric") as System);
    say("Units changed");
  });
  const theme = select([["", "as this device"], ["light", "light, for sunlight"], ["dark", "dark"]], chosenTheme(), (value) => {
    keep("theme", value);
    applyTheme();
  });
  const who = h("input", { value: initials(), maxlength: 8, change: () => (keep("initials", who.value.trim()), say("Initials kept")) });
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, "Settings"),
    h("section", { class: "panel" }, field("Units", units), field("Light", theme), field("Your initials", who, "They stand beside everything you note.")),
    await waitingPart(redraw),
    h("section", { class: "panel" }, h("h2", {}, "All records"), storeLine(), h("a", { href: "/api/export", download: "records.json" }, "Every statement, corrected ones too (JSON)")),
  );
}
