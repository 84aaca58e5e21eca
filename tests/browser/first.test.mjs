// A new maker's first hour at 390 px: from an empty folder to the first reading, led by one button at a time.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { asAHand, ask, axeFindings, openPage, shot, startBrowser, startNewYard, untilServer } from "./yard.mjs";

let browser, server;
before(async () => {
  browser = await startBrowser();
  server = await startNewYard();
});
after(async () => {
  await browser?.close();
  await server?.stop();
});

test("from an empty folder to the plan, the vessels, the first filling and the first reading", async () => {
  const { page, context, faults } = await openPage(browser, server.address, 390);
  const seen = async (name) => {
    await shot(page, `first-${name}-390`);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)) <= 0, `sideways on ${name}`);
    assert.deepEqual(await axeFindings(page), [], name);
  };
  const goOn = async (words) => {
    await asAHand(page);
    await page.locator(".next-step", { hasText: words }).click();
  };
  await page.goto("/");
  await page.getByRole("button", { name: /^Add \d+ vessels$/ }).waitFor();
  await seen("empty");
  await page.getByRole("main").getByRole("link", { name: "Planning" }).click();
  await page.getByText(/^Quick forecast with/).waitFor();
  await seen("plan");
  await goOn("Add the vessels");
  await page.getByLabel("Your initials").fill("AB");
  await page.getByRole("button", { name: /^Add \d+ vessels$/ }).click();
  await page.getByRole("heading", { name: "No vessel is filled" }).waitFor();
  await seen("vessels");
  await goOn("Fill ring 1");
  await page.getByText("Order of work").waitFor();
  await seen("filling");
  await page.getByRole("button", { name: "Save the filling" }).click();
  const filled = async () => (await ask(server.address, "/api/yard")).vessels.filter((one) => one.fill);
  const [{ fill }] = await untilServer(filled, (all) => all.length === 1, "a filled vessel");
  // what was never read is due: the verdict and the tasks say the same
  await page.locator(".verdict", { hasText: "1 not read" }).waitFor();
  await page.locator(".task", { hasText: "read the temperatures" }).waitFor();
  assert.equal(await page.getByText("Nothing is due").count(), 0);
  await seen("filled");
  await goOn("Take the first reading of ring 1");
  await page.locator(".rung").nth(4).waitFor();
  await asAHand(page);
  await page.locator(".rung").nth(4).click();
  await page.locator("button.save").click();
  const readings = async () => (await ask(server.address, `/api/fills/${fill.thing}/readings`)).series;
  await untilServer(readings, (series) => series.length === 1, "a reading on the server");
  await page.getByText("Your vessel is fine").waitFor();
  await page.locator(".next-step").waitFor({ state: "detached" });
  await seen("read");
  assert.deepEqual(faults, []);
  await context.close();
});

test("German and Spanish are chosen in Settings, marked as unread by a native maker, with cautions in English too", async () => {
  const { page, context, faults } = await openPage(browser, server.address, 320);
  await page.goto("/#/setup");
  await page.getByText("Works offline").waitFor();
  for (const [code, field, nav, ready, mark, caution] of [
    ["de", "Language", "Platz", "Geht auch ohne Netz", /noch niemand gelesen/, /Das Innere verbrüht/],
    ["es", "Sprache", "Patio", "Funciona sin conexión", /todavía no la ha leído nadie/, /El interior quema/],
  ]) {
    await page.getByLabel(field, { exact: true }).selectOption(code);
    await page.getByRole("link", { name: nav, exact: true }).waitFor();
    await page.locator("#reach").getByText(ready).waitFor();
    assert.equal(await page.locator("html").getAttribute("lang"), code);
    await page.locator("footer", { hasText: mark }).waitFor();
    const seen = async (name) => {
      await shot(page, `${code}-${name}-320`);
      assert.ok((await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)) <= 0, `sideways on ${name} in ${code}`);
      assert.deepEqual(await axeFindings(page), [], `${name} in ${code}`);
    };
    await seen("settings");
    await page.getByRole("link", { name: nav, exact: true }).click();
    await page.locator(".verdict").waitFor();
    await seen("yard");
    const [{ vessel }] = (await ask(server.address, "/api/yard")).vessels.filter((one) => one.fill);
    await page.goto(`/#/note/${vessel.id}`);
    const hazard = page.locator(".hazard", { hasText: caution });
    await hazard.waitFor();
    assert.match(await hazard.locator("[lang=en]").textContent(), /^The inside scalds/);
    await seen("note");
    await page.goto("/#/table");
    await page.locator(".brief-pairs").waitFor();
    await seen("plan");
    await page.goto("/#/setup");
    await page.reload(); // it is remembered
    await page.getByRole("link", { name: nav, exact: true }).waitFor();
  }
  assert.deepEqual(faults, []);
  await context.close();
});

test("a view that is drawn again before it was seen begins at its top", async () => {
  // a worker's own questions cannot be held up
  const { page, context, faults } = await openPage(browser, server.address, 390, { serviceWorkers: "block" });
  await context.addInitScript(() => localStorage.setItem("initials", "AB"));
  const { vessel } = (await ask(server.address, "/api/yard")).vessels.find((one) => !one.fill);
  await page.goto(`/#/fill/${vessel.id}`);
  await page.getByText("Order of work").waitFor();
  const save = page.getByRole("button", { name: "Save the filling" });
  await save.scrollIntoViewIfNeeded();
  assert.ok((await page.evaluate(() => window.scrollY)) > 100);
  // the yard waits for what is due until the filling was stored, and is drawn again for it
  await page.route("**/api/today*", async (route) => {
    await page.waitForTimeout(1500);
    await route.continue().catch(() => undefined);
  });
  await save.click();
  await page.locator(".verdict").waitFor();
  await page.getByText(/is filled\. Noted\.$/).waitFor();
  assert.equal(await page.evaluate(() => window.scrollY), 0);
  assert.deepEqual(faults, []);
  await context.close();
});
