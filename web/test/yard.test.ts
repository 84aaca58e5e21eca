import { describe, expect, test } from "vitest";
import { type Forecast, type Series, type Site, type Task, problemWords } from "../src/api/client";
import { judge } from "../src/note/check";
import { withdrawalOf } from "../src/queue/queue";
import { isOver, next, planRound, skip, skipVessel } from "../src/round/plan";
import { percents, withShare } from "../src/table/shares";
import { fromLab, heatColour, useHeatLimits } from "../src/ui/heat";
import { byName } from "../src/ui/order";
import { csvText } from "../src/ui/save-file";
import { placeIn } from "../src/ui/section-figure";
import { dailyPeaks } from "../src/ui/sparkline";
import { holds, limit } from "../src/units/limits";
import { chartHeadline, outsideBand, valueAt } from "../src/vessel/chart-words";
import { nextStep } from "../src/yard/next-step";
import { answered, grouped } from "../src/yard/tasks";
import { type SeenGlance, firstSentence, standings } from "../src/yard/verdict";

useHeatLimits({ fire: 85, too_hot: 70, hot: 45, warm: 26.7 }); // as the server tells them

const now_s = 1_800_000_000;
const day_s = 86400;

function vessel(name: string, core_c?: number, more: Partial<SeenGlance> = {}): SeenGlance {
  const fill = { id: `fill-${name}`, thing: `fill-${name}`, vessel: name, batch: name, filled_s: now_s - 20 * day_s };
  const reading = { id: "r", fill: fill.id, measure: "temperature" as const, place: "core", at_s: now_s - 3600 };
  const last_readings = core_c === undefined ? [] : [{ ...reading, value: core_c }];
  return { vessel: { id: name, name }, fill, last_readings, last_events: [], ...more } as SeenGlance;
}

function task(name: string, id: string, weight: Task["weight"], what = "do it", since_s = now_s): Task {
  const since = new Date(since_s * 1000).toISOString();
  const rest = { why: "", rule: "", source: "", caution: "", entry: "" };
  return { weight, vessel: name, fill: `fill-${name}`, id, what, since, ...rest };
}

describe("a limit of the server's table", () => {
  const site = {
    limits: {
      event_volume: { least: 0, least_itself: false, most: 1600, unit: "m3" },
      soaked_moisture: { least: 0.2, least_itself: true, most: 0.85, unit: "1" },
    },
  } as unknown as Site;

  test("holds what lies within, its ends as they are told", () => {
    const volume = limit(site, "event_volume");
    expect([0, 0.002, 1600, 1600.1, Number.NaN].map((one) => holds(volume, one))).toEqual([
      false,
      true,
      true,
      false,
      false,
    ]);
    expect(holds(limit(site, "soaked_moisture"), 0.2)).toBe(true);
  });

  test("that is not there is a fault, not a guess", () => {
    expect(() => limit(site, "weight")).toThrow(/no limit "weight"/);
  });
});

describe("the verdict", () => {
  const levels = (vessels: SeenGlance[], tasks: Task[] | null): string[] =>
    standings(vessels, tasks && { tasks, phases: [] }, now_s).map((one) => `${one.glance.vessel.name} ${one.level}`);

  test("puts the most dangerous first, heat before drought, then names as a hand sorts them", () => {
    const vessels = ["ring 10", "ring 2", "ring 1", "north 2"].map((name) => vessel(name, 50));
    const tasks = [
      task("ring 1", "dry", "warning"),
      task("north 2", "too-hot", "warning"),
      task("ring 10", "fire-risk", "danger"),
    ];
    expect(levels(vessels, tasks)).toEqual(["ring 10 danger", "north 2 warning", "ring 1 warning", "ring 2 fine"]);
  });
  test("calls no vessel fine that was not read, or not lately", () => {
    const late = task("b", "due-reading", "due", "read", now_s - 3 * day_s);
    expect(levels([vessel("a"), vessel("b", 40)], [late])).toEqual(["a unread", "b unread"]);
  });
  test("calls none fine when the server did not answer", () => {
    expect(levels([vessel("a", 40)], null)).toEqual(["a unread"]);
  });
  test("judges a hot reading that waits on the phone", () => {
    const hot = vessel("a", 74);
    hot.last_readings[0]!.unsent = true;
    expect(levels([hot], [])).toEqual(["a warning"]);
    hot.last_readings[0]!.value = 86;
    expect(levels([hot], [])).toEqual(["a danger"]);
  });
  test("tells the first sentence alone", () => {
    expect(firstSentence("Read again today. Then 65.5 daily.")).toBe("Read again today.");
    expect(firstSentence("Wait; then read.")).toBe("Wait.");
    expect(firstSentence("sprinkle")).toBe("sprinkle");
  });
});

describe("tasks", () => {
  test("the same work is one line, warnings are one line a vessel", () => {
    const groups = grouped([
      task("ring 10", "due-sprinkle", "due", "sprinkle"),
      task("ring 2", "due-sprinkle", "due", "sprinkle"),
      task("ring 2", "dry", "warning", "wet it"),
      task("ring 3", "dry", "warning", "wet it"),
    ]);
    expect(groups.map((one) => one.tasks.map((each) => each.vessel))).toEqual([
      ["ring 2"],
      ["ring 3"],
      ["ring 2", "ring 10"],
    ]);
  });
  test("one is answered by what waits on the phone, not by what was refused or taken back", () => {
    const sprinkle = task("a", "due-sprinkle", "due");
    const entry = { kind_of_entry: "event" as const, id: "1", fill: "fill-a", kind: "sprinkled" };
    expect(answered(sprinkle, [{ entry }])).toBe(true);
    expect(answered(sprinkle, [{ entry, refused: "no" }])).toBe(false);
    expect(answered(sprinkle, [{ entry: { ...entry, withdrawn: true } }])).toBe(false);
    expect(answered(sprinkle, [{ entry: { ...entry, fill: "fill-b" } }])).toBe(false);
  });
});

describe("a value", () => {
  const ranges = [{ key: "temperature" as const, least: -45, most: 110, usual_least: -20, usual_most: 80 }];
  const kind = (value: number, before?: { value: number; at_s: number }): string =>
    judge("temperature", value, ranges, before, now_s).kind;
  test("outside the server's range is refused, an unlikely one asked back, the others kept", () => {
    expect(kind(288)).toBe("outside"); // 550 degF
    expect(kind(95)).toBe("sure");
    expect(kind(66)).toBe("good");
  });
  test("is asked back after a jump since yesterday, not since last month", () => {
    expect(kind(20, { value: 60, at_s: now_s - day_s })).toBe("sure");
    expect(kind(20, { value: 60, at_s: now_s - 30 * day_s })).toBe("good");
  });
});

describe("the next step", () => {
  const empty = (name: string): SeenGlance => vessel(name, undefined, { fill: null, last_readings: [] });
  const href = (yard: SeenGlance[]): string | undefined => nextStep(yard)?.href;
  test("leads from vessels to the first filling to the first reading, and no further", () => {
    expect(href([])).toBe("#/yard");
    expect(href([empty("a"), empty("b")])).toBe(`#/fill/${empty("a").vessel.id}`);
    expect(href([empty("a"), vessel("b")])).toBe(`#/note/${vessel("b").vessel.id}/temperature`);
    expect(href([empty("a"), vessel("b", 40)])).toBeUndefined();
    expect(href([vessel("a"), vessel("b")])).toBeUndefined();
  });
});

describe("a round", () => {
  const yard = [vessel("ring 10", 50), vessel("ring 2", 50), vessel("empty", 1, { fill: null })];
  test("goes by name, place by place, and leaves empty vessels out", () => {
    let round = planRound(yard);
    expect(round.stops.map((one) => one.name)).toEqual(["ring 2", "ring 10"]);
    round = next(next(round));
    expect(isOver(round)).toBe(true);
  });
  test("keeps what was skipped", () => {
    const two = vessel("a", 50);
    two.last_readings.push({ ...two.last_readings[0]!, place: "top" });
    expect(planRound([two]).stops[0]!.places).toEqual(["core", "top"]);
    expect(skip(planRound([two]))).toMatchObject({ at: 0, place: 1, skipped: ["a, core"] });
    expect(skipVessel(planRound([two]))).toMatchObject({ at: 1, skipped: ["a, core", "a, top"] });
  });
});

describe("pictures", () => {
  test("colours: sRGB of CIE L*a*b* white, and of mid grey L 53.585 (CSS Color 4: gray is #808080)", () => {
    expect(fromLab(100, 0, 0)).toEqual([255, 255, 255]);
    for (const channel of fromLab(53.585, 0, 0)) expect(Math.abs(channel - 128)).toBeLessThanOrEqual(1);
  });
  test("a hotter heap is always darker, so that grey print keeps the order", () => {
    // relative luminance, WCAG 2
    const light = (c: number): number => {
      const [r, g, b] = heatColour(c).map((v) =>
        v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4,
      ) as [number, number, number];
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    for (let c = -9; c <= 85; ++c) expect(light(c), `${c} degC`).toBeLessThan(light(c - 1) + 1e-3);
    expect(light(74)).toBeLessThan(light(60) / 2);
  });
  test("a probe stands where its numbers say, else where such a place is", () => {
    const reading = { id: "1", fill: "f", measure: "temperature" as const, at_s: 0, value: 50 };
    expect(placeIn({ ...reading, depth_m: 0.4 }, 1.6, 1.3).y).toBeCloseTo(0.9);
    expect(placeIn({ ...reading, place: "core" }, 1.6, 1.3)).toEqual({ x: 0, y: 0.65 });
    expect(placeIn({ ...reading, radius_m: 5 }, 1.6, 1.3).x).toBe(0.8);
  });
  test("a day keeps its peak, and what is older than a month is left out", () => {
    const series = [
      {
        measure: "temperature" as const,
        place_words: "core",
        count: 3,
        at_s: [now_s - 40 * day_s, now_s - 100, now_s - 50],
        value: [70, 50, 55],
        id: ["a", "b", "c"],
      },
    ];
    expect(dailyPeaks({ series, corrected: [] }, now_s)).toEqual([{ day: 29, celsius: 55 }]);
  });
});

test("names sort as a hand would", () =>
  expect(["ring 10", "Ring 2", "ring 1"].sort(byName)).toEqual(["ring 1", "Ring 2", "ring 10"]));

test("a withdrawal names the entry it takes back and has an id of its own", () => {
  const entry = { kind_of_entry: "event" as const, id: "one", fill: "f", kind: "harvested", at_s: 5, noted_at_s: 5 };
  const back = withdrawalOf(entry, "why", "AB");
  expect(back).toMatchObject({ corrects: "one", withdrawn: true, reason: "why", kind: "harvested" });
  expect(back.id).not.toBe("one");
});

describe("shares of a blend", () => {
  test("always add up to 100 %: a slider at 40 means 40 %", () => {
    const shares = withShare({ a: 0.5, b: 0.3, c: 0.2 }, "a", 0.4);
    expect(percents(shares)).toEqual({ a: 40, b: 36, c: 24 });
    expect(percents(withShare({ a: 0, b: 0, c: 0 }, "a", 0.4))).toEqual({ a: 40, b: 30, c: 30 });
    expect(percents({ a: 1, b: 1, c: 1 })).toEqual({ a: 34, b: 33, c: 33 });
    expect(withShare({ a: 1 }, "a", 0.4)).toEqual({ a: 1 });
  });
});

describe("the chart's sentence", () => {
  const at_s = [now_s - day_s, now_s];
  const series = (value: number): Series[] => [
    { measure: "temperature", place_words: "core", count: 2, at_s, value: [50, value], id: ["a", "b"] },
  ];
  const line = [40, 50, 60, 60];
  const history = {
    day: [0, 1, 2, 3],
    core_c: line,
    core_low_c: line.map((one) => one - 5),
    core_high_c: line.map((one) => one + 5),
  };
  const forecast = { history } as unknown as Forecast;
  const said = (value: number): string => chartHeadline(series(value), forecast, "temperature", now_s - 1.5 * day_s);
  test("tells how far the last reading is from the forecast of that day, and from the limit", () => {
    expect(valueAt(history.day, line, 1.5)).toBe(55);
    expect(said(67)).toBe("core, 67 °C: 12 °C hotter than forecast, still below 70 °C");
    expect(said(57)).toBe("core, 57 °C: as forecast, still below 70 °C");
    expect(said(74)).toBe("core, 74 °C: 19 °C hotter than forecast, above 70 °C, too hot");
    expect(said(40)).toBe("core, 40 °C: 15 °C cooler than forecast, still below 70 °C");
  });
  test("offers learning when the reading left the band", () => {
    expect(outsideBand(series(57), forecast, now_s - 1.5 * day_s)).toBe(false);
    expect(outsideBand(series(67), forecast, now_s - 1.5 * day_s)).toBe(true);
  });
});

test("CSV after RFC 4180: its own examples of quotes, commas and breaks; no formula goes out", () => {
  // RFC 4180, section 2, rules 5 to 7
  expect(csvText([["aaa", "b\r\nbb", "ccc"]])).toBe('aaa,"b\r\nbb",ccc\r\n');
  expect(csvText([["aaa", 'b"bb', "ccc"]])).toBe('aaa,"b""bb",ccc\r\n');
  expect(csvText([[1.5, null, "a,b", Number.NaN]])).toBe('1.5,,"a,b",\r\n');
  expect(csvText([["=1+1", "+2", "@a"]])).toBe("'=1+1,'+2,'@a\r\n");
});

describe("what the server says is wrong", () => {
  test("names no key of the site file", () => {
    const said = (where: string): string => problemWords({ where, what: "is too small", mend: "use 1 m or more" });
    expect(said("vessel.rondel.channels.radius")).toBe("radius is too small: use 1 m or more");
    expect(said("blend.moisture:")).toBe("moisture is too small: use 1 m or more");
    expect(said("fill_height")).toBe("fill height is too small: use 1 m or more");
    expect(said("reading: depth")).toBe("reading: depth is too small: use 1 m or more");
    expect(said("site.toml:14")).toBe("site.toml:14 is too small: use 1 m or more");
  });
});
