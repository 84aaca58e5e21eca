import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { de } from "../src/words/de";
import { type Words, en } from "../src/words/en";
import { es } from "../src/words/es";
import { cautionWords, useLanguage } from "../src/words/words";

// The compiler sees that no member is missing. What it cannot see: the keys of dictionaries, and what the server says.

const root = join(__dirname, "../..");
const read = (path: string): string => readFileSync(join(root, path), "utf8");

/** "found.too-hot" for every text, with the text; of a function what it says of 1, 2, 3 and so on. */
function leaves(of: object, path = ""): [path: string, text: string][] {
  return Object.entries(of).flatMap(([key, value]): [string, string][] => {
    const name = path ? `${path}.${key}` : key;
    if (typeof value === "object") return leaves(value as object, name);
    if (typeof value !== "function") return [[name, String(value)]];
    const given = name === "lower" ? ["A"] : [1, 2, 3, 4, 5];
    return [[name, String((value as (...all: unknown[]) => string)(...given))]];
  });
}

/** Texts of a C++ source, each joined from the literals that stand after one another. */
const literals = (source: string): string[] =>
  [...source.matchAll(/"(?:[^"\\\n]|\\.)*"(?:\s*"(?:[^"\\\n]|\\.)*")*/g)].map(([all]) =>
    [...all.matchAll(/"((?:[^"\\\n]|\\.)*)"/g)].map((one) => one[1]).join(""),
  );

/** Every caution that the program has: the texts of its two tables and of the worms. */
function cautions(): string[] {
  const rows = read("src/domain/rules/cautions.cpp").split("constexpr Row rows[]")[1]!.split("\n};")[0]!;
  const table = rows
    .split(/\{WorkPlace::/)
    .slice(1)
    .flatMap((row) => (/^\w+, \w+,\s*"/.test(row) ? literals(row).slice(0, 1) : []));
  const words = literals(read("src/domain/rules/caution_words.hpp"));
  const worms = literals(read("src/domain/rules/worms.hpp").split("caution =")[1]!).slice(0, 1);
  return [...table, ...words, ...worms];
}

const foreign: [string, Words][] = [
  ["German", de],
  ["Spanish", es],
];
describe.each(foreign)("%s", (_, words) => {
  test("has every text of the dictionaries", () => {
    const there = new Set(leaves(words).map(([path]) => path));
    expect(leaves(en).filter(([path]) => !there.has(path))).toEqual([]);
  });

  test("names every kind of event", () => {
    const kinds = JSON.parse(read("docs/openapi.json")).components.schemas.Event.properties.kind.enum as string[];
    expect(kinds.length).toBeGreaterThan(5);
    expect(Object.keys(words.events).sort()).toEqual([...kinds].sort());
  });

  test("tells every caution of the program", () => {
    const all = cautions();
    expect(all.length).toBeGreaterThan(25);
    const begins = Object.keys(words.cautionTexts);
    expect(all.filter((one) => !begins.some((begin) => one.startsWith(begin)))).toEqual([]);
    expect(begins.filter((begin) => !all.some((one) => one.startsWith(begin)))).toEqual([]);
  });

  test("leaves no sentence in English, and loses nothing that is put in", () => {
    const english = new Map(leaves(en));
    const same = leaves(words).filter(
      ([path, text]) => english.get(path) === text && /\p{L}+ \p{L}+ \p{L}+/u.test(text),
    );
    expect(same).toEqual([]);
    const put = (text = ""): string => [...new Set(text.match(/\d/g) ?? [])].sort().join("");
    const free = /^(yard|verdict|intake|settings|task|inside\.flat)\b/; // numbers that are a word in one of the two
    const lost = leaves(words).filter(([path, text]) => !free.test(path) && put(english.get(path)) !== put(text));
    expect(lost.filter(([path]) => english.has(path))).toEqual([]);
  });

  test("says that no native maker has read it", () => expect(words.notRead.length).toBeGreaterThan(50));
});

test("a caution of some vessels keeps their names, and several in a row are all told", async () => {
  await useLanguage("de");
  expect(cautionWords("north, south: The vessel is taller than wide and can tip.")).toMatch(
    /^north, south: Der Behälter ist/,
  );
  expect(cautionWords("No smoke: wet it slowly. Never lean into or climb into it.")).toMatch(
    /^Kein Rauch: .* Nie in einen/,
  );
  expect(cautionWords("A caution that nobody has translated.")).toBe("");
  await useLanguage("en");
  expect(cautionWords("The inside scalds.")).toBe("");
});
