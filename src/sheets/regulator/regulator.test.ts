import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { regulator } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) =>
  orThrow(
    answer(regulator, emptyBench, { draws: 100, overrides: { highLine: "1.1 ±0", lowLine: "0.9 ±0", loadLeast: "0 mA", ...overrides } }),
  );

it("says plainly that no resistor will do: 0A2 on 250 V with 0 to 15 mA", () => {
  const a = ask({ regulatorType: "0A2", supply: "250 V", loadMost: "15 mA ±0" });
  expect(a.headline).toMatch(/(^|For later: )No resistor will do/);
  expect(a.findings.find((f) => f.id === "regulator-no-window-no")).toMatchObject({ severity: "act" });
});
it("finds a window in which it strikes only while the load is cold, and judges the resistor fitted", () => {
  const a = ask({ regulatorType: "0D3 or VR150", supply: "250 V", loadMost: "15 mA", fitted: "5k" });
  expect(a.headline).toContain("only while the load is cold");
  expect(a.findings.some((f) => f.id === "regulator-fitted-no")).toBe(true);
  expect(a.parts[0]).toMatchObject({ value: "3.3 kΩ", was: "5 kΩ" });
  expect(
    ask({ regulatorType: "0D3 or VR150", supply: "250 V", loadMost: "15 mA", fitted: "3.4k ±0", shunt: "10 uF" }).findings.map((f) => f.id),
  ).toEqual(expect.arrayContaining(["regulator-fitted-dark", "regulator-shunt"]));
});
describe("a dark tube takes nothing: the load and the resistor share the supply", () => {
  const b2 = { regulatorType: "0B2", supply: "225 V ±0", loadLeast: "5 mA ±0", loadMost: "12 mA ±0" };
  it("5.5 kΩ holds a 0B2 on 225 V -10 % with 5 to 12 mA, and does not strike it: 125.7 of 133 V, the most is 4.703 kΩ", () => {
    const a = ask({ ...b2, fitted: "5.5k ±0" });
    expect(a.results.dark.value).toBeCloseTo(125.7, 1);
    expect(a.results.strikesOhm.value).toBeCloseTo(4703, 0);
    expect(a.results.leastOhm.value!).toBeLessThan(4703);
    expect(a.results.mostOhm.value!).toBeGreaterThan(5500);
    expect(a.headline).toContain("of the 133 V that strike it");
    expect(a.headline).not.toContain("It strikes with the load connected.");
    const f = a.findings.find((x) => x.id === "regulator-fitted-dark")!;
    expect(f.severity).toBe("act");
    expect(f.says).toContain("stays dark");
    // and what it asks for instead strikes
    const ohm = Number(/([\d.]+) kΩ/.exec(a.parts[0].value)![1]) * 1000;
    expect(ask({ ...b2, fitted: `${ohm}` }).results.dark.value!).toBeGreaterThan(133);
  });
  it("says in words that there is none, and prints no negative resistance or heat, whatever the supply", () => {
    for (const type of ["0A2", "0B2", "0C2", "0D3 or VR150"])
      for (const supply of [40, 80, 100, 108, 112, 120, 150, 165, 185, 250, 400]) {
        const a = ask({ ...b2, regulatorType: type, supply: `${supply} V`, fitted: "5.5k" });
        const words = JSON.stringify([a.headline, a.findings.map((f) => [f.says, f.do]), a.parts]);
        expect(words, `${type} ${supply}`).not.toMatch(/-\d|[Nn]a[Nn]|Infinity|undefined/);
        for (const f of Object.values(a.results))
          for (const v of [f.value, f.low, f.high]) if (v !== null) expect(v).toBeGreaterThanOrEqual(0);
      }
    expect(ask({ ...b2, supply: "80 V" }).headline).toMatch(
      /(^|For later: )No resistor will do: the supply reaches 88.* and the tube holds 108 V/,
    );
  });
  it("no resistor recorded is nothing; none at all, 0 Ω, is outside the window", () => {
    expect(ask(b2).findings.some((f) => f.id.startsWith("regulator-fitted"))).toBe(false);
    expect(ask({ ...b2, fitted: "0" }).findings.some((f) => f.id === "regulator-fitted-no")).toBe(true);
  });
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (least|most)\s+\| (\d+) ohm/g)];
  expect(rows).toHaveLength(2);
  const { results } = ask({ regulatorType: "0D3 or VR150", supply: "250 V", loadMost: "15 mA" });
  for (const [, name, ohm] of rows) expect(results[`${name}Ohm`].value).toBeCloseTo(Number(ohm), -1);
});
