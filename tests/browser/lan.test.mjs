// Open to the network: passphrase, session, limit on guessing, hosts and origins.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { chmodSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { axeFindings, openPage, shot, startBrowser, startServer, untilServer } from "./yard.mjs";

const passphrase = "four plain yard words";

/** Status of a request with headers that a browser would not let us set. */
function status(address, path, { method = "GET", headers = {}, body = "" } = {}) {
  const { port } = new URL(address);
  return new Promise((resolve, reject) => {
    const asked = request({ host: "127.0.0.1", port, path, method, headers: { "Content-Length": Buffer.byteLength(body), ...headers } }, (answer) => {
      answer.resume();
      answer.on("end", () => resolve(answer.statusCode));
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

describe("open to the network", () => {
  let browser, server, folder;
  before(async () => {
    folder = mkdtempSync(join(tmpdir(), "stillheap-words-"));
    const file = join(folder, "passphrase");
    writeFileSync(file, `${passphrase}\n`);
    chmodSync(file, 0o600);
    server = await startServer("common-round-us", ["--lan", "--passphrase-file", file]);
    browser = await startBrowser();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
    rmSync(folder, { recursive: true });
  });

  test("nothing is told before the passphrase", async () => {
    for (const path of ["/api/yard", "/api/site", "/api/export", "/api/today"]) assert.equal(await status(server.address, path), 401, path);
    assert.equal(await status(server.address, "/"), 200);
  });

  test("other hosts and other pages are refused", async () => {
    assert.equal(await status(server.address, "/api/session", { headers: { Host: "elsewhere.example" } }), 421);
    const body = JSON.stringify({ passphrase });
    const headers = { "Content-Type": "application/json", Origin: "http://elsewhere.example" };
    assert.equal(await status(server.address, "/api/session", { method: "POST", headers, body }), 403);
  });

  test("the page asks for it and opens the yard", async () => {
    const { page, context } = await openPage(browser, server.address, 390);
    await page.goto("/");
    await page.getByLabel("Passphrase").fill("not these words");
    await page.getByRole("button", { name: "Open the yard" }).click();
    await page.getByText(/is not the right one/).waitFor();
    await shot(page, "passphrase-390");
    assert.deepEqual(await axeFindings(page), []);
    await page.getByLabel("Passphrase").fill(passphrase);
    await page.getByRole("button", { name: "Open the yard" }).click();
    await page.getByRole("button", { name: /^Add/ }).waitFor();
    const [cookie] = await context.cookies();
    assert.ok(cookie.httpOnly);
    assert.equal(cookie.sameSite, "Strict");
    await context.close();
  });

  test("a label for each vessel opens its reading on a phone", async (t) => {
    const { page, context } = await openPage(browser, server.address, 390);
    await page.goto("/");
    await page.getByLabel("Passphrase").fill(passphrase);
    await page.getByRole("button", { name: "Open the yard" }).click();
    await page.getByLabel("Your initials").fill("AB");
    await page.getByRole("button", { name: /^Add/ }).click();
    await page.getByRole("heading", { name: "Vessels" }).waitFor();
    const yard = async () => (await (await context.request.get("/api/yard")).json()).vessels;
    const vessels = await untilServer(yard, (all) => all.length > 0, "vessels on the server");
    await page.goto("/#/setup");
    const download = page.waitForEvent("download");
    await page.getByRole("link", { name: "Labels for the vessels, to print (PDF)" }).click();
    const file = join(folder, "labels.pdf");
    await (await download).saveAs(file);
    const words = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
    for (const { vessel } of vessels) assert.ok(words.includes(vessel.name), words);
    const { addresses } = await (await context.request.get("/api/addresses")).json();
    const wanted = vessels.map(({ vessel }) => `${addresses[0]}/#/note/${vessel.thing ?? vessel.id}`).sort();
    // the code itself is read by another library, where it is installed
    execFileSync("pdftoppm", ["-r", "150", "-png", file, join(folder, "labels")]);
    const sheets = readdirSync(folder).filter((one) => one.endsWith(".png")).map((one) => join(folder, one));
    const read = spawnSync("zbarimg", ["-q", "--raw", ...sheets], { encoding: "utf8" });
    if (read.error?.code === "ENOENT") return t.skip("no reader of QR codes is installed");
    assert.deepEqual(read.stdout.trim().split("\n").sort(), wanted);
    await page.goto(new URL(wanted[0]).hash);
    await page.getByRole("link", { name: "Note its filling" }).waitFor(); // nothing is in it yet
    await context.close();
  });

  test("guessing is stopped, the right words too until it is over", async () => {
    const origin = server.address.replace("localhost", "127.0.0.1");
    const headers = { "Content-Type": "application/json", Origin: origin };
    const guess = (words) => status(server.address, "/api/session", { method: "POST", headers, body: JSON.stringify({ passphrase: words }) });
    const seen = [];
    for (let i = 0; i < 6; ++i) seen.push(await guess("some wrong words"));
    assert.equal(seen.at(-1), 429, seen.join(" "));
    assert.equal(await guess(passphrase), 429);
  });
});
