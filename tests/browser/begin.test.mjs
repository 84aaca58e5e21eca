// A new maker's way from an empty folder to the first forecast in the page alone, at 390 and 1440 px.
import assert from "node:assert/strict";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { asAHand, ask, axeFindings, openPage, shot, startBrowser, startEmptyFolder } from "./yard.mjs";

let browser;
before(async () => (browser = await startBrowser()));
after(() => browser?.close());

for (const width of [390, 1440]) {
  test(`from an empty folder to the first forecast at ${width} px`, async () => {
    const server = await startEmptyFolder();
    const { page, context, faults } = await openPage(browser, server.address, width);
    const file = join(server.folder, "site.toml");
    const seen = async (name) => {
      await shot(page, `begin-${name}-${width}`);
      assert.ok((await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)) <= 0, `sideways on ${name}`);
      assert.deepEqual(await axeFindings(page), [], name);
    };
    const heading = (name) => page.getByRole("heading", { level: 1, name }).waitFor();
    const goOn = async () => {
      await asAHand(page);
      await page.getByRole("button", { name: "Go on", exact: true }).click();
    };
    await page.goto("/");
    await heading("Your yard");
    await seen("1-yard");
    // a browser logs what the server refuses; the page tells it
    const refusals = () => faults.splice(0).every((one) => /422/.test(one));
    await goOn();
    await page.getByRole("alert").getByText(/give the yard a name/).waitFor();
    assert.ok(refusals());
    await page.getByLabel("Name of the yard").fill('The "hill" yard');
    await page.getByRole("radio", { name: /metric/i }).check();
    await goOn();
    await heading("Where it lies");
    faults.splice(0);
    await page.getByLabel("Latitude, in degrees").fill("97");
    await page.getByLabel("Longitude, in degrees").fill("8,5");
    await page.getByLabel(/^Height above the sea/).fill("450");
    await page.getByRole("radio", { name: "Cool and damp all year" }).check();
    await goOn();
    await page.getByRole("alert").getByText(/90 deg/).waitFor();
    assert.ok(refusals());
    await page.getByLabel("Latitude, in degrees").fill("46.5");
    await seen("2-place");
    await goOn();
    await heading("What you have");
    faults.splice(0);
    await page.reload(); // what was said is kept
    await heading("What you have");
    for (const name of ["Wood chips", "Leaves", "Horse manure"]) {
      await asAHand(page);
      await page.locator(".material", { hasText: name }).first().click();
    }
    await page.locator(".picked").nth(2).waitFor();
    await page.locator(".picked").nth(0).getByLabel(/^I have/).fill("5");
    await seen("3-materials");
    await goOn();
    await heading("The mix");
    await page.getByText("The cheapest mix that suits a hot heap").waitFor();
    await page.locator(".gauges li").nth(3).waitFor();
    await page.locator(".share input").first().focus();
    await page.keyboard.press("ArrowRight");
    await page.getByText("Your own mix, in shares by loose volume.").waitFor();
    await seen("4-mix");
    await goOn();
    await heading("What you want");
    await page.locator(".facts", { hasText: "1.20 m across" }).waitFor();
    await page.getByRole("button", { name: "Inside diameter: more" }).click();
    await page.locator(".facts", { hasText: "1.30 m across" }).waitFor();
    await page.getByLabel("How many vessels").fill("3");
    await page.locator(".facts", { hasText: /Wood chips: enough for \d+ fillings/ }).waitFor();
    await seen("5-vessel");
    assert.ok(!existsSync(file), "nothing is written before it is asked for");
    await asAHand(page);
    await page.getByRole("button", { name: "Write site.toml and plan" }).click();
    await page.getByText(/^Quick forecast with/).waitFor();
    await seen("6-plan");
    const text = readFileSync(file, "utf8");
    for (const part of ['name = "The \\"hill\\" yard"', 'latitude = "46.5 deg"', "vessels = 3", "# Pipes stand in the heap"])
      assert.ok(text.includes(part), part);
    assert.equal((await ask(server.address, "/api/site")).vessels_wanted, 3);
    await asAHand(page);
    await page.locator(".next-step", { hasText: "Add the vessels" }).click();
    await page.getByLabel("Your initials").fill("AB");
    await page.getByRole("button", { name: /^Add / }).click();
    await page.getByRole("heading", { name: "No vessel is filled" }).waitFor();
    await page.reload(); // the beginning is over
    await page.getByRole("heading", { name: "No vessel is filled" }).waitFor();
    assert.deepEqual(faults, []);
    await context.close();
    await server.stop();
  });
}

const wish = {
  units: "us", first_fill: "2026-12-01", latitude_deg: 40, longitude_deg: 4, elevation_m: 10, vessels: 1,
  climate: { coldest_low_c: 0, coldest_high_c: 5, warmest_low_c: 12, warmest_high_c: 25, rain_m_year: 0.8 },
  materials: [{ like: "wood-chips" }, { like: "horse-manure" }, { like: "leaves" }],
};

test("a second page that was open while the yard was begun is told, and writes nothing", async () => {
  const server = await startEmptyFolder();
  const { page, context } = await openPage(browser, server.address, 390);
  await page.goto("/");
  await page.getByRole("heading", { level: 1, name: "Your yard" }).waitFor();
  await page.evaluate(() => localStorage.setItem("beginning", JSON.stringify({
    page: 4, name: "Late", latitude: 40, longitude: 4, elevation_m: 10, materials: [{ like: "leaves", stock_m3: null }],
    extremes: { coldest_low_c: 0, coldest_high_c: 5, warmest_low_c: 12, warmest_high_c: 25, rain_m_year: 0.8 },
  })));
  await page.reload();
  await page.locator(".facts li").first().waitFor();
  const first = { ...wish, name: "Early" };
  const headers = { "Content-Type": "application/json", Origin: server.address };
  assert.equal((await fetch(`${server.address}/api/beginning`, { method: "POST", headers, body: JSON.stringify(first) })).status, 201);
  await page.getByRole("button", { name: "Write site.toml and plan" }).click();
  await page.getByRole("alert").getByText(/nothing was written/).waitFor();
  await page.getByRole("button", { name: "Load the page anew" }).click();
  await page.getByRole("button", { name: /^Add / }).waitFor();
  assert.equal((await ask(server.address, "/api/site")).name, "Early");
  await context.close();
  await server.stop();
});
