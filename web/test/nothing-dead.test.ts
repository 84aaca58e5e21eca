import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { en } from "../src/words/en";

const root = join(__dirname, "..");
const filesBelow = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((one) =>
    one.isDirectory() ? filesBelow(join(folder, one.name)) : [join(folder, one.name)],
  );
const source = [...filesBelow(join(root, "src")), join(root, "index.html")]
  .filter((file) => /\.(ts|html)$/.test(file) && !/words\/(en|de|es)|schema\.d\.ts$/.test(file))
  .map((file) => readFileSync(file, "utf8"))
  .join("\n");

/** "verdict.fine" for every text; the members of a dictionary stand for themselves. */
function leaves(of: object, path: string[] = []): { path: string; value: unknown }[] {
  return Object.entries(of).flatMap(([key, value]) =>
    typeof value === "object" ? leaves(value as object, [...path, key]) : [{ path: [...path, key].join("."), value }],
  );
}

/** Named in full, or in a dictionary that is looked up in: t.level[level]. */
function isUsed(path: string): boolean {
  const parts = path.split(".");
  const named = (some: string[], end: string): boolean =>
    new RegExp(`\\bt\\.${some.join("\\.\\s*")}${end}`).test(source);
  const dictionary = parts.slice(0, -1);
  return named(parts, "\\b") || (dictionary.length > 0 && named(dictionary, "(\\[|[,;)\\s])"));
}

test("every text of en.ts is shown somewhere", () => {
  const dead = leaves(en).filter((one) => !isUsed(one.path));
  expect(dead.map((one) => one.path)).toEqual([]);
});

test("no sentence of en.ts has two homes", () => {
  const homes = new Map<string, string[]>();
  for (const { path, value } of leaves(en)) {
    if (typeof value !== "string" || !/^[A-Z].* /.test(value)) continue; // a word or a part may differ in another language
    homes.set(value, [...(homes.get(value) ?? []), path]);
  }
  expect([...homes].filter(([, paths]) => paths.length > 1)).toEqual([]);
});

test("every class of look.css is on something", () => {
  const look = readFileSync(join(root, "src/look/look.css"), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
  const selectors = [...look.matchAll(/([^{}]+)\{/g)].map((found) => found[1]!).filter((one) => !/^\s*@/.test(one));
  const classes = new Set(selectors.flatMap((one) => [...one.matchAll(/\.([a-z][\w-]*)/g)].map((found) => found[1]!)));
  expect(classes.size).toBeGreaterThan(50);
  // in quotes: `class: state` names none; "part3" is made as `part${i % 6}`; some are the server's words
  const served = readFileSync(join(root, "src/api/schema.d.ts"), "utf8");
  const quoted = [...`${source}\n${served}`.matchAll(/"[^"\n]*"|`[^`]*`/g)].map((found) => found[0]).join("\n");
  const isOn = (name: string): boolean =>
    new RegExp(`(?<![\\w.-])${name}(?![\\w-])`).test(quoted) || quoted.includes(`${name.replace(/\d+$/, "")}\${`);
  expect([...classes].filter((one) => !isOn(one))).toEqual([]);
});
