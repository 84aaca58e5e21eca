import type { Site, Yard } from "../api/client";
import { draftOf, readingForm } from "../note/reading-form";
import { keepAndSend } from "../queue/keep";
import { keep, kept, theSite, theYard } from "../state";
import { cautionBox } from "../ui/cautions";
import { button, h } from "../ui/dom";
import { sayError } from "../ui/say";
import { show } from "../units/units";
import { placeWords, t } from "../words/words";
import { type Round, isOver, next, planRound, skip, skipVessel } from "./plan";

const shelf = "round";

export function keptRound(): Round | null {
  try {
    const round = JSON.parse(kept(shelf)) as Round | null;
    return round && Array.isArray(round.stops) && !isOver(round) ? round : null;
  } catch {
    return null;
  }
}

const put = (round: Round | null): void => keep(shelf, JSON.stringify(round));

/** Begins a round over some vessels, or over all that are filled. */
export function beginRound(yard: Yard, only?: readonly string[]): void {
  put(planRound(yard.vessels, only));
  if (location.hash === "#/round") window.dispatchEvent(new Event("hashchange"));
  else location.hash = "#/round";
}

function summary(round: Round): HTMLElement[] {
  const vessels = new Set(round.taken.map((one) => one.vessel)).size;
  const hottest = [...round.taken].sort((a, b) => b.value - a.value)[0];
  return [
    h("p", { class: "now" }, t.round.taken(round.taken.length, vessels)),
    hottest
      ? h("p", {}, t.round.hottest(`${hottest.name}, ${placeWords(hottest.place)}`, show("temperature", hottest.value)))
      : h("p"),
    round.skipped.length ? h("p", {}, t.round.skipped(round.skipped.join("; "))) : h("p"),
  ];
}

function progressLine(round: Round): HTMLElement {
  const stop = round.stops[round.at]!;
  const words =
    t.round.progress(round.at + 1, round.stops.length) +
    (stop.places.length > 1 ? `, ${t.round.place(round.place + 1, stop.places.length)}` : "");
  const done = (round.at + round.place / stop.places.length) / round.stops.length;
  return h(
    "div",
    { class: "round-progress" },
    h("progress", { max: 1, value: done, "aria-label": words }),
    h("span", {}, words),
  );
}

/** Reading after reading: Save leads to the next place, then to the next vessel. */
export async function roundView(): Promise<HTMLElement> {
  document.title = t.round.title;
  const [site, yard] = await Promise.all([theSite(), theYard()]);
  const root = h("main", { id: "main", tabindex: "-1", class: "note" });
  let round = keptRound() ?? planRound(yard.vessels);
  // vessels that were emptied meanwhile are left out
  round = {
    ...round,
    stops: round.stops.filter((stop) => yard.vessels.some((one) => one.fill && one.vessel.id === stop.vessel)),
  };
  const to = (other: Round): void => {
    round = other;
    put(isOver(round) ? null : round);
    draw(root, site, yard, round, to);
    window.scrollTo(0, 0);
  };
  draw(root, site, yard, round, to);
  return root;
}

function draw(root: HTMLElement, site: Site, yard: Yard, round: Round, to: (round: Round) => void): void {
  const toYard = h("a", { class: "big", href: "#/yard" }, t.round.toYard);
  if (!round.stops.length) return root.replaceChildren(h("h1", {}, t.round.headNone), toYard);
  if (isOver(round)) return root.replaceChildren(h("h1", {}, t.round.headDone), ...summary(round), toYard);
  const stop = round.stops[round.at]!;
  const place = stop.places[round.place]!;
  const glance = yard.vessels.find((one) => one.vessel.id === stop.vessel)!;
  const form = readingForm({
    glance,
    site,
    draft: draftOf(glance, "temperature", place),
    fixed: true,
    above: [progressLine(round)],
    below: [
      h(
        "div",
        { class: "pair" },
        button(t.round.skip, () => to(skip(round))),
        button(t.round.skipVessel, () => to(skipVessel(round))),
      ),
    ],
    saved: (entry, words) => {
      const before = round;
      const taken = { vessel: stop.vessel, name: stop.name, place, value: Number(entry["value"]) };
      void keepAndSend(
        words,
        [entry],
        () => undefined,
        () => to(before),
      )
        .then((good) => to(good ? next({ ...round, taken: [...round.taken, taken] }) : before))
        .catch(sayError);
    },
  });
  const end = button(t.round.stop, () => to({ ...round, at: round.stops.length }), "small");
  root.replaceChildren(h("h1", {}, `${stop.name}, ${placeWords(place)}`), form, end, cautionBox(site, "hot phase"));
}
