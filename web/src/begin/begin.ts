import { type BeginningOffer, type BeginningProposal, Refused, get, post } from "../api/client";
import { keep } from "../state";
import { button, field, h, select } from "../ui/dom";
import { problemList, sayError } from "../ui/say";
import { type System, useSystem } from "../units/units";
import { languages, t } from "../words/words";
import { amount, choice } from "./fields";
import { materialsPage } from "./materials";
import { type Following, mixPage, vesselPage } from "./vessel";
import { type Said, keepSaid, keptSaid, pageOf, wishOf, wishSoFar, wrongBy } from "./wish";

const rest_ms = 250; // chosen: a slider that rests for so long is asked for

/** One page of the beginning. */
interface Page {
  head: string;
  node: HTMLElement;
  follow?: Following["follow"];
}

function yardPage(said: Said, redraw: () => void): Page {
  const name = h("input", {
    value: said.name,
    maxlength: 60,
    autocomplete: "off",
    input: () => (said.name = name.value),
  });
  const day = h("input", { type: "date", value: said.first_fill, input: () => (said.first_fill = day.value) });
  const language = select(
    languages.map(([code, words]) => [code, words]),
    t.language,
    (code) => (keep("language", code), window.dispatchEvent(new Event("language"))),
  );
  const units: [System, string][] = [
    ["metric", t.settings.metric],
    ["us", t.settings.us],
  ];
  return {
    head: t.begin.headYard,
    node: h(
      "div",
      {},
      h("p", {}, t.begin.welcome),
      field(t.settings.language, language),
      field(t.begin.name, name, t.begin.nameHint),
      choice(t.settings.units, units, said.units, (system) => {
        said.units = system;
        redraw();
      }),
      field(t.begin.firstFill, day),
    ),
  };
}

const climateKeys = ["coldest_low_c", "coldest_high_c", "warmest_low_c", "warmest_high_c"] as const;

/** Degrees without a sign, and which side of the equator or of Greenwich. */
function degrees(
  words: string,
  hint: string,
  value: number | null,
  put: (n: number | null) => void,
  side: HTMLElement,
) {
  return h("div", { class: "degrees" }, amount({ words, value, put, hint }), side);
}

function placePage(offer: BeginningOffer, said: Said): Page {
  const side = (words: string, plus: string, minus: string, is: boolean, put: (minus: boolean) => void): HTMLElement =>
    field(
      words,
      select(
        [
          ["", plus],
          ["-", minus],
        ],
        is ? "-" : "",
        (value) => put(value === "-"),
      ),
    );
  const months = h("div", { class: "pair" });
  const drawMonths = (): void =>
    months.replaceChildren(
      ...climateKeys.map((key) =>
        amount({
          words: t.begin.months[key],
          kind: "temperature",
          value: said.extremes[key],
          put: (c) => (said.extremes[key] = c),
        }),
      ),
      amount({
        words: t.begin.rain,
        kind: "small_length",
        value: said.extremes.rain_m_year,
        put: (m) => (said.extremes.rain_m_year = m),
      }),
    );
  drawMonths();
  const pick = (key: Said["climate"]): void => {
    const found = offer.climates.find((one) => one.key === key);
    if (!found) return;
    const { key: _, ...extremes } = found;
    said.climate = found.key;
    said.extremes = { ...extremes };
    drawMonths();
  };
  const climates = offer.climates.map((one) => [one.key, t.begin.climates[one.key]] as const);
  return {
    head: t.begin.headPlace,
    node: h(
      "div",
      {},
      degrees(
        t.begin.latitude,
        t.begin.degreesHint,
        said.latitude,
        (n) => (said.latitude = n),
        side(t.begin.northSouth, t.begin.north, t.begin.south, said.south, (is) => (said.south = is)),
      ),
      degrees(
        t.begin.longitude,
        "",
        said.longitude,
        (n) => (said.longitude = n),
        side(t.begin.eastWest, t.begin.east, t.begin.west, said.west, (is) => (said.west = is)),
      ),
      amount({
        words: t.begin.elevation,
        kind: "elevation",
        value: said.elevation_m,
        put: (m) => (said.elevation_m = m),
      }),
      choice(t.begin.climate, climates, said.climate, pick),
      h("p", { class: "why" }, t.begin.climateHint),
      months,
    ),
  };
}

/** From nothing to a site file, a page at a time; `done` once it is written. */
export async function beginView(done: () => void): Promise<HTMLElement> {
  document.title = t.begin.title;
  const offer = await get<BeginningOffer>("/api/beginning");
  const said = keptSaid(offer);
  const root = h("main", { id: "main", tabindex: "-1", class: "begin" });
  const wrong = h("div", { role: "alert" });
  let page: Page;
  let waits = 0;
  let turn = 0;
  const makers = [
    () => yardPage(said, draw),
    () => placePage(offer, said),
    (): Page => ({ head: t.begin.headMaterials, node: materialsPage(offer, said) }),
    (): Page => {
      const { node, follow } = mixPage(offer, said, ask);
      return { head: t.begin.headMix, node, follow };
    },
    (): Page => {
      const { node, follow } = vesselPage(offer, said, ask);
      return { head: t.begin.headVesselAndGoal, node, follow };
    },
  ];
  const last = makers.length - 1;

  /** What the server makes of it; null when a page so far asked for what is wrong, which is told. */
  async function judged(): Promise<boolean> {
    const mine = ++turn;
    try {
      const found = await post<BeginningProposal>("/api/beginning/proposal", wishSoFar(said, offer));
      if (mine !== turn) return false;
      wrong.replaceChildren();
      page.follow?.(found);
      return true;
    } catch (error) {
      if (mine !== turn) return false;
      return tell(error);
    }
  }
  /** False when something is wrong that was asked for already. */
  function tell(error: unknown): boolean {
    if (!(error instanceof Refused)) return wrong.replaceChildren(problemList(error)), false;
    const mine = wrongBy(said.page, error.problems);
    if (!mine.length) return wrong.replaceChildren(), true;
    wrong.replaceChildren(problemList(new Refused(error.status, mine)));
    const first = Math.min(...mine.map(pageOf));
    if (first < said.page) wrong.append(button(t.begin.mend(first + 1), () => to(first)));
    wrong.scrollIntoView({ block: "nearest" });
    return false;
  }
  function ask(): void {
    keepSaid(said);
    window.clearTimeout(waits);
    waits = window.setTimeout(() => void judged(), rest_ms);
  }
  function to(number: number): void {
    window.clearTimeout(waits);
    ++turn;
    said.page = number;
    keepSaid(said);
    draw();
    window.scrollTo(0, 0);
    root.focus({ preventScroll: true });
  }
  async function goOn(): Promise<void> {
    keepSaid(said);
    if (await judged()) to(said.page + 1);
  }
  let writing = false;
  async function write(): Promise<void> {
    if (writing) return;
    writing = true;
    try {
      await post("/api/beginning", wishOf(said));
      keepSaid(null);
      done();
    } catch (error) {
      tell(error);
      if (error instanceof Refused && error.status === 409)
        wrong.append(button(t.begin.reload, () => window.location.reload()));
    } finally {
      writing = false;
    }
  }
  function draw(): void {
    useSystem(said.units);
    said.page = Math.min(Math.max(said.page, 0), last);
    page = makers[said.page]!();
    wrong.replaceChildren();
    const words = t.begin.progress(said.page + 1, makers.length);
    const onward = said.page < last ? t.begin.next : t.begin.write(offer.file);
    const press = (event: Event): void => {
      event.preventDefault();
      void (said.page < last ? goOn() : write()).catch(sayError);
    };
    root.replaceChildren(
      h("p", { class: "why" }, words),
      h("progress", { max: makers.length, value: said.page + 1, "aria-label": words }),
      h("h1", {}, page.head),
      h(
        "form",
        { novalidate: true, submit: press, input: () => wrong.replaceChildren() },
        page.node,
        wrong,
        h(
          "div",
          { class: "onward" },
          said.page > 0 ? button(t.begin.back, () => to(said.page - 1)) : null,
          h("button", { class: "big" }, onward),
        ),
        said.page === last ? h("p", { class: "why" }, t.begin.where(offer.file, offer.folder)) : null,
      ),
    );
    if (page.follow) void judged();
  }
  draw();
  return root;
}
