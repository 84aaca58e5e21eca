import { offlineWords } from "../offline/offline";
import { pairingPart } from "../offline/pairing";
import { drop, send, waiting } from "../queue/queue";
import { chosenTheme, chosenUnits, initials, keep, theSite, theYard } from "../state";
import { storeLine } from "../store/store";
import { button, field, h, select } from "../ui/dom";
import { say, sayError } from "../ui/say";
import { applyTheme } from "../ui/theme";
import { type System, useSystem } from "../units/units";
import { eventWords, kindWords, languages, placeWords, t } from "../words/words";

/** Whose entry it is and what it says. */
function entryWords(entry: Record<string, unknown>, vessels: ReadonlyMap<string, string>): string {
  const vessel = vessels.get(String(entry["fill"] ?? entry["vessel"] ?? ""));
  const kind = entry["kind"] ? eventWords(String(entry["kind"]), String(entry["kind"]).replace("_", " ")) : "";
  const said = entry["written"] ?? (kind || (entry["batch"] ?? entry["name"] ?? ""));
  return [vessel, placeWords(String(entry["place"] ?? "")), kindWords(String(entry["kind_of_entry"])), String(said)]
    .filter(Boolean)
    .join(", ");
}

async function waitingPart(redraw: () => void): Promise<HTMLElement> {
  const [all, yard] = await Promise.all([waiting(), theYard().catch(() => null)]);
  const vessels = new Map(
    (yard?.vessels ?? []).flatMap((one): [string, string][] =>
      [one.vessel.id, one.vessel.thing, one.fill?.id, one.fill?.thing]
        .filter((id): id is string => Boolean(id))
        .map((id) => [id, one.vessel.name]),
    ),
  );
  const list = h("ul", { class: "record" });
  for (const one of all) {
    const away = one.refused ? button(t.mend.away, () => void drop(one.entry.id).then(redraw), "small") : null;
    const mend = one.refused ? h("a", { class: "button", href: `#/mend/${one.entry.id}` }, t.kept.mend) : null;
    list.append(
      h(
        "li",
        {},
        h(
          "span",
          {},
          entryWords(one.entry, vessels),
          one.refused ? h("span", { class: "wrong" }, `: ${t.settings.refused(one.refused)}`) : `: ${t.settings.waits}`,
        ),
        mend,
        away,
      ),
    );
  }
  const again = button(
    t.settings.sendNow,
    () =>
      void send()
        .then((ok) => (say(ok ? t.settings.allSent : t.reach.noAnswer), redraw()))
        .catch(sayError),
  );
  return h(
    "section",
    { class: "panel", "aria-labelledby": "waiting-title" },
    h("h2", { id: "waiting-title" }, t.settings.waiting(all.length)),
    list,
    all.length ? again : null,
  );
}

/** What this phone or browser remembers. */
export async function setupView(redraw: () => void): Promise<HTMLElement> {
  document.title = t.settings.headSettings;
  const site = await theSite().catch(() => null);
  const units = select(
    [
      ["", t.settings.asSite(site?.units === "us" ? "US" : t.settings.metric)],
      ["metric", t.settings.metric],
      ["us", t.settings.us],
    ],
    chosenUnits(),
    (value) => {
      keep("units", value);
      useSystem((value || site?.units || "metric") as System);
      say(t.settings.unitsChanged);
    },
  );
  const language = select(
    languages.map(([code, name]) => [code, name]),
    t.language,
    (code) => {
      keep("language", code);
      window.dispatchEvent(new Event("language"));
    },
  );
  const theme = select(
    [
      ["", t.settings.asDevice],
      ["light", t.settings.light],
      ["dark", t.settings.dark],
    ],
    chosenTheme(),
    (value) => {
      keep("theme", value);
      applyTheme();
    },
  );
  const who = h("input", {
    value: initials(),
    maxlength: 8,
    change: () => (keep("initials", who.value.trim()), say(t.settings.initialsKept)),
  });
  return h(
    "main",
    { id: "main", tabindex: "-1" },
    h("h1", {}, t.settings.headSettings),
    await waitingPart(redraw),
    h(
      "section",
      { class: "panel" },
      field(t.settings.language, language, t.notRead),
      field(t.settings.units, units),
      field(t.settings.screen, theme),
      field(t.yard.initials, who, t.settings.initialsHint),
    ),
    h(
      "section",
      { class: "panel", "aria-labelledby": "phone-title" },
      h("h2", { id: "phone-title" }, t.settings.headPhone),
      h("p", {}, offlineWords()),
      await pairingPart(),
    ),
    h(
      "section",
      { class: "panel" },
      h("h2", {}, t.settings.headRecords),
      storeLine(),
      h("a", { href: "/api/export", download: "records.json" }, t.settings.export),
    ),
  );
}
