import { expect, it } from "vitest";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { answer } from "../answer";
import { regulator } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) =>
  orThrow(answer(regulator, emptyBench, { draws: 100, overrides: { highLine: "1.1", lowLine: "0.9", loadLeast: "0 mA", ...overrides } }));

it("says plainly that no resistor will do: 0A2 on 250 V with 0 to 15 mA", () => {
  const a = ask({ regulatorType: "0A2", supply: "250 V", loadMost: "15 mA" });
  expect(a.headline).toMatch(/^No resistor will do/);
  expect(a.findings[0]).toMatchObject({ id: "regulator-no-window-no", severity: "act" });
});
it("finds a window in which it strikes only while the load is cold, and judges the resistor fitted", () => {
  const a = ask({ regulatorType: "0D3 or VR150", supply: "250 V", loadMost: "15 mA", fitted: "5k" });
  expect(a.headline).toContain("only while the load is cold");
  expect(a.findings.some((f) => f.id === "regulator-fitted-no")).toBe(true);
  expect(a.parts[0]).toMatchObject({ value: "3.3 kΩ", was: "5 kΩ" });
  expect(
    ask({ regulatorType: "0D3 or VR150", supply: "250 V", loadMost: "15 mA", fitted: "3.4k", shunt: "10 uF" }).findings.map((f) => f.id),
  ).toEqual(expect.arrayContaining(["regulator-fitted-yes", "regulator-shunt"]));
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (least|most)\s+\| (\d+) ohm/g)];
  expect(rows).toHaveLength(2);
  const { results } = ask({ regulatorType: "0D3 or VR150", supply: "250 V", loadMost: "15 mA" });
  for (const [, name, ohm] of rows) expect(results[`${name}Ohm`].value).toBeCloseTo(Number(ohm), -1);
});
