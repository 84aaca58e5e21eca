import type { EventKind, Measure, Site, Task, Yard } from "../api/client";
import { keepAndSend } from "../queue/keep";
import { type Entry, newId } from "../queue/queue";
import { beginRound } from "../round/round";
import { initials, keep, kept } from "../state";
import { cautionText } from "../ui/cautions";
import { button, field, h } from "../ui/dom";
import { byName } from "../ui/order";
import { say, sayError } from "../ui/say";
import { stateIcon } from "../ui/state-icon";
import { type Range, holds, limit } from "../units/limits";
import { capital, show, typeset, unit } from "../units/units";
import { ago } from "../units/when";
import { eventWords, t } from "../words/words";
import { type TaskGroup, endsBatch, eventOf, grouped, keyOf, measureOf } from "./tasks";
import { firstSentence } from "./verdict";

const later_hours = 3; // chosen
const first_shown = 3; // chosen: the rest folds away

const shelf = "later";
const put_off = (): Record<string, number> => {
  try {
    return JSON.parse(kept(shelf) || "{}") as Record<string, number>;
  } catch {
    return {};
  }
};
const isPutOff = (task: Task): boolean => task.weight !== "danger" && (put_off()[keyOf(task)] ?? 0) > Date.now();

function putOff(group: TaskGroup, hours: number): void {
  const all = Object.fromEntries(Object.entries(put_off()).filter(([, until]) => until > Date.now()));
  for (const task of group.tasks) all[keyOf(task)] = Date.now() + hours * 3600_000;
  keep(shelf, JSON.stringify(all));
}

/** What was measured out while doing it; all of it may be left empty. */
interface Amounts {
  volume_m3?: number;
  duration_s?: number;
  at_s: number;
  note?: string;
  left_out: Set<string>; // keys of tasks
  wrong: string;
}

/** What the server said of the water for this task, where it says so. */
const plannedVolume = (task: Task): number | undefined => (task as { volume_m3?: number }).volume_m3 || undefined;
const plannedDuration = (task: Task): number | undefined => (task as { duration_s?: number }).duration_s || undefined;

function eventEntries(group: TaskGroup, kind: EventKind, amounts: Amounts): Entry[] {
  const noted_at_s = Math.floor(Date.now() / 1000);
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return group.tasks
    .filter((task) => task.fill && !amounts.left_out.has(keyOf(task)))
    .map((task) => ({
      kind_of_entry: "event",
      id: newId(),
      fill: task.fill,
      kind,
      at_s: amounts.at_s || noted_at_s,
      volume_m3: amounts.volume_m3 ?? (kind === "sprinkled" ? plannedVolume(task) : undefined),
      duration_s: amounts.duration_s ?? (kind === "sprinkled" ? plannedDuration(task) : undefined),
      note: amounts.note || (kind === "other" ? task.what : undefined),
      noted_at_s,
      by: initials(),
      zone,
    }));
}

function amountFields(group: TaskGroup, site: Site, amounts: Amounts, changed: () => void): HTMLElement {
  const water = unit("water");
  const [volume, duration] = [limit(site, "event_volume"), limit(site, "event_duration")];
  const localNow = new Date(Date.now() - new Date().getTimezoneOffset() * 60000).toISOString().slice(0, 16);
  const number = (put: (value: number | undefined) => void): HTMLInputElement => {
    const input = h("input", { type: "text", inputmode: "decimal", maxlength: 8, autocomplete: "off" });
    input.addEventListener("input", () => {
      const text = input.value.trim().replace(",", ".");
      put(text === "" ? undefined : Number(text));
      const bad = (value: number | undefined, range: Range): boolean => value !== undefined && !holds(range, value);
      amounts.wrong =
        bad(amounts.volume_m3, volume) || bad(amounts.duration_s, duration)
          ? t.task.wrongAmount(show("volume", volume.most, 0), Math.round(duration.most / 3600))
          : amounts.at_s > Date.now() / 1000 + 60
            ? t.task.futureTime
            : "";
      changed();
    });
    return input;
  };
  const kg_m3 = 1000;
  const liters = number((value) => (amounts.volume_m3 = value === undefined ? undefined : water.toSi(value) / kg_m3));
  const minutes = number((value) => (amounts.duration_s = value === undefined ? undefined : value * 60));
  const when = h("input", {
    type: "datetime-local",
    value: localNow,
    max: localNow,
    change: () => (
      (amounts.at_s = Math.floor(new Date(when.value).getTime() / 1000)),
      (amounts.wrong = amounts.at_s > Date.now() / 1000 + 60 ? t.task.futureTime : ""),
      changed()
    ),
  });
  const note = h("input", { maxlength: 200, input: () => (amounts.note = note.value.trim()) });
  const sprinkles = eventOf(group.tasks[0]!) === "sprinkled";
  const which = h("fieldset", {}, h("legend", {}, t.task.which));
  for (const task of group.tasks) {
    const box = h("input", {
      type: "checkbox",
      checked: true,
      change: () => (box.checked ? amounts.left_out.delete(keyOf(task)) : amounts.left_out.add(keyOf(task))),
    });
    which.append(h("label", { class: "take" }, box, task.vessel));
  }
  return h(
    "div",
    {},
    h(
      "div",
      { class: "row" },
      sprinkles ? field(t.task.water(water.sign), liters) : null,
      sprinkles ? field(t.task.minutes, minutes) : null,
      field(t.task.when, when),
      field(t.record.note, note),
    ),
    group.tasks.length > 1 ? which : null,
  );
}

/** "Sprinkle 6 vessels, 2 L each", "North 2: read again today". */
function headline(group: TaskGroup): string {
  const [task] = group.tasks as [Task, ...Task[]];
  const alone = group.tasks.length === 1;
  const volume = plannedVolume(task);
  const same = volume !== undefined && group.tasks.every((one) => plannedVolume(one) === volume);
  if (task.id === "due-sprinkle")
    return t.task.sprinkle(group.tasks.length, task.vessel, same ? show("water", volume * 1000) : "");
  if (task.id === "due-reading" && !alone) return t.task.readAll(group.tasks.length);
  const where = alone ? task.vessel : "";
  const words = capital(firstSentence(typeset(t.dues[task.id] ?? task.what)).replace(/\.$/, ""));
  return alone
    ? where
      ? `${where}: ${t.lower(words.charAt(0))}${words.slice(1)}`
      : words
    : t.task.many(group.tasks.length, words);
}

/** Amounts to fill in, the reason, the rule and its source, folded away. */
function behind(group: TaskGroup, amounts: HTMLElement | null): HTMLElement {
  const [task] = group.tasks as [Task, ...Task[]];
  const why = h("ul");
  for (const one of group.tasks)
    why.append(
      h(
        "li",
        {},
        typeset(
          `${group.tasks.length > 1 ? `${one.vessel}: ` : ""}${capital(one.why.replace(/\.?$/, "."))} ${t.task.since(ago(Date.parse(one.since) / 1000))}`,
        ),
      ),
    );
  const rest = firstSentence(task.what) === task.what ? null : h("p", {}, typeset(task.what));
  return h(
    "details",
    {},
    h("summary", {}, t.task.more),
    amounts,
    h("h3", {}, t.task.why),
    rest,
    why,
    task.rule ? h("p", { class: "why" }, typeset(t.task.rule(task.rule, task.source))) : null,
  );
}

export interface Panel {
  site: Site;
  yard: Yard;
  redraw: () => void;
}

function readNow(group: TaskGroup, measure: Measure, { yard }: Panel): void {
  const vessels = group.tasks
    .map(
      (task) =>
        yard.vessels.find((one) => one.fill && (one.fill.thing === task.fill || one.fill.id === task.fill))?.vessel.id,
    )
    .filter((one): one is string => Boolean(one));
  if (vessels.length === 1 || measure !== "temperature") location.hash = `#/note/${vessels[0]}/${measure}`;
  else beginRound(yard, vessels);
}

/** The buttons of a task, what it needs and why. With `bare`, words and caution stand elsewhere. */
function taskItem(group: TaskGroup, panel: Panel, bare = false): HTMLElement {
  const [task] = group.tasks as [Task, ...Task[]];
  const amounts: Amounts = { at_s: 0, left_out: new Set(), wrong: "" };
  const kind = eventOf(task);
  const measure = measureOf(task);
  const wrong = h("p", { class: "wrong", role: "alert" });
  const acts = h("div", { class: "acts" });
  let over = false;
  const finish = (): void => {
    if (over || amounts.wrong) return;
    if (!initials()) return void say(t.kept.initialsFirst, { bad: true });
    const entries = eventEntries(group, kind!, amounts);
    if (!entries.length) return putOffAndDraw(24);
    over = true;
    const names = group.tasks.filter((one) => !amounts.left_out.has(keyOf(one))).map((one) => one.vessel);
    const words = eventWords(kind ?? "", panel.site.event_kinds.find((one) => one.key === kind)?.words ?? t.task.done);
    void keepAndSend(t.task.doneWords(capital(words), names.sort(byName).join(", ")), entries, panel.redraw)
      .then((good) => (good ? panel.redraw() : (over = false)))
      .catch(sayError);
  };
  const putOffAndDraw = (hours: number): void => (putOff(group, hours), say(t.task.putOff(hours)), panel.redraw());
  const asked = (): void => {
    if (!endsBatch(kind)) return finish();
    acts.replaceChildren(
      h("p", { class: "now" }, t.task.ends(task.vessel)),
      button(t.task.no, () => acts.replaceChildren(...buttons())),
      button(t.task.endsYes, finish, "accent"),
    );
  };
  const buttons = (): HTMLElement[] => {
    const made: HTMLElement[] = [];
    if (measure) made.push(button(t.task.read, () => readNow(group, measure, panel), "accent"));
    if (kind) made.push(button(t.task.done, asked, measure ? "" : "accent"));
    if (task.weight !== "danger") made.push(button(t.task.later, () => putOffAndDraw(later_hours)));
    return made;
  };
  acts.append(...buttons());
  const urgent = task.weight === "danger" || task.weight === "warning";
  const weight = h(
    "strong",
    { class: "weight" },
    urgent ? stateIcon(task.weight as "danger" | "warning") : null,
    urgent ? h("span", { class: "sr" }, `${t.weight[task.weight]}: `) : null,
    headline(group),
  );
  // A danger's caution is read before anything is pressed. A warning's stands right under its buttons in the verdict, so
  // that both are in sight on the smallest phone.
  const caution = urgent && task.caution ? h("p", { class: "hazard" }, ...cautionText(task.caution)) : null;
  return h(
    "li",
    { class: `task ${task.weight}`, "data-key": group.key },
    bare ? null : weight,
    ...(bare && task.weight !== "danger" ? [acts, caution] : [caution, acts]),
    wrong,
    behind(group, kind ? amountFields(group, panel.site, amounts, () => (wrong.textContent = amounts.wrong)) : null),
  );
}

/** The buttons of one pressing task, for the verdict that names it. */
export function pressingPart(task: Task, panel: Panel): HTMLElement {
  return h("ul", { class: "tasks bare" }, taskItem({ key: keyOf(task), tasks: [task] }, panel, true));
}

/** What there is to do: the most pressing first, the same work once. `water_waits`: how many vessels' watering is not
 *  known yet. */
export function todayPanel(tasks: readonly Task[], water_waits: number, panel: Panel): HTMLElement {
  const { redraw } = panel;
  const now = grouped(tasks.filter((one) => !isPutOff(one)));
  const later = tasks.filter(isPutOff);
  const list = (groups: TaskGroup[]): HTMLElement =>
    h("ul", { class: "tasks" }, ...groups.map((one) => taskItem(one, panel)));
  const back = button(t.task.back, () => (keep(shelf, "{}"), redraw()), "small");
  return h(
    "section",
    { "aria-labelledby": "due-title", class: "today" },
    h("h2", { id: "due-title" }, now.length || water_waits ? t.task.headToday : t.task.headNothing),
    list(now.slice(0, first_shown)),
    now.length > first_shown
      ? h(
          "details",
          { class: "more" },
          h("summary", {}, t.task.all(now.length - first_shown)),
          list(now.slice(first_shown)),
        )
      : null,
    water_waits ? h("p", { class: "why", role: "status" }, t.task.waterWaits) : null,
    later.length ? h("p", { class: "why" }, `${t.task.putOffHead}: ${grouped(later).length} `, back) : null,
  );
}
