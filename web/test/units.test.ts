import { afterEach, describe, expect, it } from "vitest";
import { show, unit, useSystem } from "../src/units/units";

describe("lengths of a US yard", () => {
  afterEach(() => useSystem("metric"));

  // NIST SP 811, appendix B: 1 in = 25.4 mm exactly; written as the sheets write them, docs/site-file.md
  it("are read off a tape, never in decimals of a foot", () => {
    useSystem("us");
    expect(show("length", 0.3048)).toBe("12 in");
    expect(show("length", 1.2127)).toBe("47.7 in");
    expect(show("length", 1.8288)).toBe("6 ft");
    expect(show("length", 3.0)).toBe("9 ft 10 in");
    expect(unit("length").sign).toBe("in");
    expect(unit("length").toSi(54)).toBeCloseTo(1.3716, 9);
  });

  it("and metric ones are metres", () => {
    expect(show("length", 1.2127)).toBe("1.21 m");
  });
});
