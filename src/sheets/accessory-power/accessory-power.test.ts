import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet } from "../../job/view";
import { emptyBench } from "../../set/bench";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { accessoryPower } from "./sheet";

const isolated = { state: "isolated", isolation: "none", note: "" } as const;
const on = (overrides: Record<string, string> = {}, fitting = "qm", pattern = 1) =>
  orThrow(
    answer(accessoryPower, benchOfSet({ ...patterns[pattern], chassis: isolated }, `fittings.${fitting}`), {
      draws: 200,
      points: 11,
      overrides,
    }),
  );
const value = (a: ReturnType<typeof on>, n: string): number => a.results[n].value!;
const second = { powerTap: "after the first choke or filter resistor" };
const third = { powerTap: "after the second choke or filter resistor" };
const steady = { loadExponent: "0", bleeder: "100 Meg", lossRatio: "1" };

describe("B+ at the tap", () => {
  it("falls one node further on by exactly what the resistor between takes besides", () => {
    const few = { ...steady, supplyCurrent: "1 mA", secondResistance: "1500" };
    const [a, b] = [on({ ...few, ...second }), on({ ...few, ...third })];
    expect(value(b, "sourceResistance") - value(a, "sourceResistance")).toBeCloseTo(1500, 0);
  });
  it("falls by nothing where nothing is drawn, and by less where its tubes give way", () => {
    expect(value(on({ supplyCurrent: "0 mA" }), "fall")).toBeCloseTo(0, 6);
    const held = value(on({ ...third, supplyCurrent: "5 mA", loadExponent: "0" }), "fall");
    const giving = value(on({ ...third, supplyCurrent: "5 mA", loadExponent: "1.4" }), "fall");
    expect(giving).toBeLessThan(held);
    expect(giving).toBeGreaterThan(0.3 * held);
  });
  it("is fed back: what a node falls by another's current is the same the other way round, held currents", () => {
    const table = (tap: Record<string, string>) => on({ ...steady, ...tap, supplyCurrent: "1 mA" }).tables[0].rows;
    const [bySecond, byThird] = [table(second), table(third)];
    const fell = (rows: typeof bySecond, k: number) => (rows[k][1] as number) - (rows[k][2] as number);
    expect(fell(bySecond, 2)).toBeCloseTo(fell(byThird, 1), 3);
  });
  it("rises in ripple as the accessory draws more", () => {
    const a = on({ supplyCurrent: "20 mA" });
    expect(value(a, "rippleWith")).toBeGreaterThan(value(a, "rippleWithout"));
  });
});
describe("what the receiver can carry", () => {
  it("a nine-tube set can carry a Q multiplier; its heater winding's rating is said to be unknown", () => {
    const a = on();
    expect(a.headline).toContain("The heater winding's rating is not known");
    expect(a.findings.some((f) => f.id === "power-b-plus-yes")).toBe(true);
    expect(a.findings.find((f) => f.id === "power-heaters-open")?.do).toContain("AC meter");
    // 6BZ6, 6BE6, 6BA6 twice, 6AV6 at 0.3 A, 6C4 twice at 0.15, 6K6 at 0.4, two lamps; the 5Y3 has a winding of its own
    expect(value(a, "heaterTotal")).toBeCloseTo(5 * 0.3 + 2 * 0.15 + 0.4 + 0.3 + 0.3, 9);
  });
  it("says no where a converter passes the rectifier's limit or the winding's rating", () => {
    const a = on({ supplyCurrent: "90 mA", heaterRating: "2.6 A" }, "converter");
    expect(a.headline).toContain("can't carry");
    expect(a.findings.map((f) => f.id)).toEqual(expect.arrayContaining(["power-b-plus-no", "power-direct-yes", "power-heaters-no"]));
  });
  it("feeds nothing from a set with a string of heaters, nor from a live one", () => {
    const live = orThrow(answer(accessoryPower, benchOfSet(patterns[0], "fittings.qm"), { draws: 60, points: 11 }));
    expect(live.findings.map((f) => f.id)).toEqual(expect.arrayContaining(["power-live-set", "power-string"]));
    expect(live.headline).toMatch(/^Stop/);
  });
  it("takes nothing from it with a supply of its own", () => {
    const a = on({ powerFrom: "a battery" });
    expect(a.headline).toContain("takes nothing");
    expect(a.results.fall.why).toContain("takes nothing");
  });
});
describe("both states read", () => {
  const expected = on({ supplyCurrent: "3 mA" });
  const fall = value(expected, "fall");
  const read = (times: number) =>
    on({ supplyCurrent: "3 mA", tapWithout: "250 V", tapWith: `${250 - times * fall} V` }).findings.find((f) =>
      f.id.startsWith("power-draws"),
    )!;
  it("holds what was expected, and names a leak where it draws three times as much", () => {
    expect(read(1)).toMatchObject({ id: "power-draws-as-said", severity: "note" });
    expect(read(4)).toMatchObject({ id: "power-draws-more", severity: "act", state: "open-dead" });
    expect(read(0.05)).toMatchObject({ id: "power-draws-less" });
  });
  it("asks for them where they are not there", () => {
    expect(expected.findings.find((f) => f.id === "power-read")?.state).toBe("open-live");
  });
});
it("drops B+ by Ohm's law", () => {
  const a = on({ supplyVolts: "150 V", supplyCurrent: "2 mA" });
  expect(value(a, "dropping")).toBeCloseTo((value(a, "with") - 150) / 0.002, 3);
  expect(a.parts).toHaveLength(1);
  expect(orThrow(answer(accessoryPower, emptyBench, { draws: 20, points: 11 })).parts).toEqual([]);
});
