// What every browser test needs: a server on an own yard, a browser, axe.
import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const fromPage = createRequire(join(root, "web/package.json"));
const { chromium } = fromPage("playwright-core");
const axePath = fromPage.resolve("axe-core/axe.min.js");

export const program = process.env.STILLHEAP ?? join(root, "build/release/bin/stillheap");
export const pictures = process.env.PICTURES ?? join(root, "out/browser");
/** Some picture: the page's own icon. */
export const aPicture = readFileSync(join(root, "web/public/icon-192.png"));
mkdirSync(pictures, { recursive: true });
/** How long anything is waited for. Long, because other tests may take all of the machine meanwhile. */
const patience_ms = 90000;

/** Starts the program and waits for the address it prints. */
function launch(folder, port, more) {
  const child = spawn(program, ["serve", folder, "--port", String(port), ...more], { stdio: ["ignore", "pipe", "inherit"] });
  return new Promise((resolve, reject) => {
    let text = "";
    child.stdout.on("data", (bytes) => {
      text += bytes;
      const found = /https?:\/\/localhost:(\d+)/.exec(text);
      if (found) resolve({ child, address: found[0], port: Number(found[1]) });
    });
    child.on("exit", (code) => reject(new Error(`the server ended with ${code}`)));
  });
}

/** The same mild, dry weather in every month: what the yard is advised must not hang on the day the tests are run. Invented. */
const weather = { low: [12, "degC"], high: [24, "degC"], humidity: [60, "%"], sun: [7, "MJ/m2/d"], wind: [2, "m/s"], rain: [15, "mm"] };
const evenWeather = (site) =>
  Object.entries(weather).reduce((text, [key, [value, unit]]) => {
    const row = new RegExp(`^${key} = \\{.*months = .*$`, "m");
    if (!row.test(text)) throw new Error(`the example has no monthly ${key}`);
    return text.replace(row, `${key} = { unit = "${unit}", months = [${Array(12).fill(value).join(", ")}] }`);
  }, site);

/** A server on a copy of an example's site with even weather. It can be put out of reach and back; `stop()` takes the folder away too. */
export function startServer(example = "common-round-us", more = []) {
  const folder = mkdtempSync(join(tmpdir(), "stillheap-yard-"));
  writeFileSync(join(folder, "site.toml"), evenWeather(readFileSync(join(root, "examples", example, "site.toml"), "utf8")));
  return serveFolder(folder, more);
}

/** The same on what `init` writes into an empty folder. */
export function startNewYard() {
  const folder = mkdtempSync(join(tmpdir(), "stillheap-yard-"));
  execFileSync(program, ["init", folder]);
  return serveFolder(folder, []);
}

/** On a folder with nothing in it. */
export const startEmptyFolder = () => serveFolder(mkdtempSync(join(tmpdir(), "stillheap-yard-")), []);

async function serveFolder(folder, more) {
  let { child, address, port } = await launch(folder, 0, more);
  const outOfReach = async () => {
    const gone = new Promise((resolve) => child.on("exit", resolve));
    child.kill("SIGTERM");
    await gone;
  };
  const backInReach = async () => ({ child } = await launch(folder, port, more));
  const stop = async () => {
    if (child.exitCode === null) await outOfReach();
    rmSync(folder, { recursive: true });
  };
  return { address, folder, outOfReach, backInReach, stop };
}

export const startBrowser = () =>
  chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
      "--disable-sync", "--enable-unsafe-swiftshader", "--use-angle=swiftshader"],
  });

/** A page of that width; errors of the page fail the test. */
export async function openPage(browser, address, width, more = {}) {
  const context = await browser.newContext({ viewport: { width, height: width < 600 ? 844 : 900 }, baseURL: address, hasTouch: width < 600, ...more });
  const page = await context.newPage();
  page.setDefaultTimeout(patience_ms);
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  page.on("console", (message) => message.type() === "error" && faults.push(`${message.text()} ${message.location().url}`));
  return { context, page, faults };
}

/** Serious and critical findings of axe, in words. */
export async function axeFindings(page) {
  const source = readFileSync(axePath, "utf8");
  await page.evaluate(source); // through the debugger: the page's own policy would rightly refuse it
  const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return found.violations
    .filter((one) => one.impact === "serious" || one.impact === "critical")
    .map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120) + " " + (node.any[0]?.message ?? "")).join(" | ")}`);
}

/** Waits until a function of the page's text says so. (Playwright's own way needs what the page's policy forbids.) */
export async function untilText(page, says, what, timeout_ms = patience_ms) {
  const end = Date.now() + timeout_ms;
  while (Date.now() < end) {
    if (says(await page.evaluate(() => document.body.textContent))) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`waited in vain: ${what}`);
}

/** As a hand: a tap sooner than this on the same spot counts as the second of a double tap. */
export const asAHand = (page) => page.waitForTimeout(500);

/** Waits until the server, asked again and again, gives what `wanted` accepts, and returns it. What is entered is shown as
 *  kept on the phone at once, and reaches the server a little later. */
export async function untilServer(give, wanted, what) {
  const end = Date.now() + patience_ms;
  for (;;) {
    const found = await give();
    if (wanted(found)) return found;
    if (Date.now() > end) throw new Error(`waited in vain: ${what}; last: ${JSON.stringify(found).slice(0, 300)}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

export const shot = (page, name) => page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });

/** JSON of the server, past the page. */
// A kept connection may be closed by the server just as it is used again: a question is then asked once more.
const fetched = (...what) => fetch(...what).catch(() => fetch(...what));
export const ask = async (address, path) => (await fetched(address + path)).json();
/** What became of each entry. Each has an id: one that is sent twice is stored once. */
export async function addEntries(address, entries) {
  const answer = await fetched(address + "/api/entries", {
    method: "POST",
    headers: { "Content-Type": "application/json", Origin: address },
    body: JSON.stringify({ entries }),
  });
  return (await answer.json()).results;
}

/** A yard of `count` vessels, all filled and read for some days, named so that a plain sort would mix them up. One is too
 *  hot, one too dry. The courses of temperature are plain curves made for the test. */
export async function fillYard(address, count) {
  const day_s = 86400;
  const now = Math.floor(Date.now() / 1000);
  const { designs } = await ask(address, "/api/site");
  const mark = (at_s) => ({ id: crypto.randomUUID(), by: "AB", noted_at_s: at_s });
  const [vessels, fills, rest] = [[], [], []];
  for (let i = 1; i <= count; ++i) {
    const age = 5 + 7 * (i % 4); // few days of filling: each has a water programme that takes a forecast
    const filled_s = now - age * day_s;
    const vessel = { kind_of_entry: "vessel", ...mark(filled_s), name: `Ring ${i}`, design: designs[0].name };
    const fill = { kind_of_entry: "fill", ...mark(filled_s), vessel: vessel.id, batch: `ring ${i} first`, filled_s };
    const reading = (place, at_s, value, measure = "temperature") => ({ kind_of_entry: "reading", ...mark(at_s), fill: fill.id, measure, place, at_s, value });
    vessels.push(vessel);
    fills.push(fill);
    rest.push({ kind_of_entry: "event", ...mark(filled_s + day_s), fill: fill.id, kind: "forms_out", at_s: filled_s + day_s });
    for (let day = 1; day <= age; ++day) {
      const core = i === 4 ? 74 : 20 + 40 * Math.exp(-((day - 8) ** 2) / 150);
      rest.push(reading("core", filled_s + day * day_s - 900, core), reading("side", filled_s + day * day_s - 900, 0.8 * core));
    }
    if (i === 2) rest.push(reading("core", now - 3600, 0.3, "moisture"));
  }
  for (const all of [vessels, fills, rest]) {
    for (let at = 0; at < all.length; at += 400) {
      const results = await addEntries(address, all.slice(at, at + 400));
      const bad = results.find((one) => one.outcome !== "stored");
      if (bad) throw new Error(JSON.stringify(bad));
    }
  }
}

/** Words that a first look meets: seen in the window without scrolling; cautions, numbers and the maker's own names left
 *  out. */
export const wordsSeen = (page, own = []) =>
  page.evaluate((names) => {
    const words = [];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const holder = walk.currentNode.parentElement;
      if (holder.closest(".sr, .hazard, .caution, #say:not(.shown), svg, script, noscript") || !holder.checkVisibility()) continue;
      const range = document.createRange();
      range.selectNodeContents(walk.currentNode);
      const box = range.getBoundingClientRect();
      if (box.width === 0 || box.top >= innerHeight || box.bottom <= 0 || box.right <= 0) continue;
      words.push(...walk.currentNode.textContent.split(/\s+/).filter((one) => /\p{L}/u.test(one) && !names.includes(one)));
    }
    return words;
  }, own);
