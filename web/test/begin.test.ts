import { describe, expect, it } from "vitest";
import { typed } from "../src/begin/fields";
import { type Said, fillsOf, pageOf, wishOf, wishSoFar, wrongBy } from "../src/begin/wish";

const said: Said = {
  page: 0,
  units: "metric",
  name: "Hill yard",
  first_fill: "2026-12-01",
  latitude: 33.5,
  south: true,
  longitude: 70.25,
  west: true,
  elevation_m: 520,
  climate: "",
  extremes: { coldest_low_c: 3, coldest_high_c: 14, warmest_low_c: 13, warmest_high_c: 30, rain_m_year: 0.3 },
  materials: [
    { like: "wood-chips", stock_m3: 5 },
    { like: "leaves", stock_m3: null },
    { like: "horse-manure", stock_m3: 2 },
  ],
  shares: null,
  wants: "vessels",
  vessels: 3,
  compost_m3: 4,
  diameter_m: 1.2,
  fill_height_m: 1.4,
};

describe("what was said of a yard that is begun", () => {
  it("is sent with the signs of its hemispheres and one goal alone", () => {
    const wish = wishOf(said);
    expect([wish.latitude_deg, wish.longitude_deg]).toEqual([-33.5, -70.25]);
    expect(wish.vessels).toBe(3);
    expect("compost_m3" in wish).toBe(false);
    expect("vessels" in wishOf({ ...said, wants: "compost" })).toBe(false);
  });

  it("names no shares until one was moved; then they add up to 1", () => {
    expect(wishOf(said).materials.every((one) => one.share_by_volume === undefined)).toBe(true);
    const moved = wishOf({ ...said, shares: { "wood-chips": 2, leaves: 1, "horse-manure": 1 } });
    expect(moved.materials.map((one) => one.share_by_volume)).toEqual([0.5, 0.25, 0.25]);
  });

  it("is told to be wrong on the page that asked for it, not before", () => {
    const at = (where: string) => ({ where, what: "", mend: "" });
    const all = ["vessel.diameter", "place.latitude", "site.name", "feedstock.stock", "weather.low"].map(at);
    expect(wrongBy(0, all).map((one) => one.where)).toEqual(["site.name"]);
    expect(wrongBy(1, all).map((one) => one.where)).toEqual(["place.latitude", "site.name", "weather.low"]);
    expect(wrongBy(4, all)).toHaveLength(5);
    expect(all.map(pageOf)).toEqual([4, 1, 0, 2, 1]);
  });

  it("tells which material ends first", () => {
    const of_one = { "wood-chips": 0.5, leaves: 0.4, "horse-manure": 0.7 };
    expect(fillsOf(said, of_one)).toEqual({ fills: 2, like: "horse-manure" });
    expect(fillsOf({ ...said, materials: [{ like: "leaves", stock_m3: null }] }, of_one)).toBeNull();
  });

  it("reads a number with point, comma or a typographic minus", () => {
    expect(["46.5", " 46,5 ", "−3", "", "x"].map(typed)).toEqual([46.5, 46.5, -3, null, Number.NaN]);
  });
});

it("is judged before later pages were filled in", () => {
  const offer = { feedstocks: [{ id: "leaves" }], starter: { vessels: 2 } } as Parameters<typeof wishSoFar>[1];
  const early = wishSoFar({ ...said, page: 1, materials: [], wants: "compost", compost_m3: null }, offer);
  expect([early.materials, early.vessels]).toEqual([[{ like: "leaves", stock_m3: null }], 2]);
  expect(wishSoFar({ ...said, page: 4, vessels: 7 }, offer).vessels).toBe(7);
  expect(wishSoFar({ ...said, page: 3, materials: [] }, offer).materials).toEqual([]);
});
