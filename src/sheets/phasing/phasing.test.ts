import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { phasing } from "./sheet";
import theory from "./theory.md";

const base = { crystalSeries: "455 kHz", crystalMotional: "0.04 pF", crystalHolder: "6 pF" };
const ask = (overrides: Record<string, string>) => orThrow(answer(phasing, emptyBench, { draws: 60, overrides }));

it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (\d pF)\s+\| (-?[\d.]+) kHz/g)];
  expect(rows).toHaveLength(2);
  for (const [, c, khz] of rows) expect(ask({ ...base, phasing: c }).results.notchOff.value! / 1e3).toBeCloseTo(Number(khz), 2);
});
it("calls a crystal of 456.3 kHz in a strip of 455 an act: the cans go to it", () => {
  const a = ask({ ...base, crystalSeries: "456.3 kHz u 20 Hz", phasing: "6 pF" });
  expect(a.findings.find((f) => f.id === "phasing-off-the-if-yes")).toMatchObject({
    severity: "act",
    hazards: expect.arrayContaining(["b-plus", "stored-charge"]),
  });
});
it("says where a phasing capacitor can't balance, and has no notch where it does", () => {
  expect(ask({ ...base, phasing: "10 pF", phasingLow: "8 pF", phasingHigh: "15 pF" }).findings.map((f) => f.id)).toContain(
    "phasing-not-neutral-no",
  );
  expect(ask({ ...base, phasing: "6 pF" }).results.notchAt.value).toBeNull();
});
it.each([
  [{ phasingHigh: "1 pF" }, "phasingHigh", "crossed"],
  [{ phasing: "20 pF" }, "phasing", "out-of-travel"],
  [{ crystalSeries: "500 kHz" }, "crystalSeries", "far-off"],
  [{ crystalQ: "0" }, "crystalQ", "not-positive"],
] as [Record<string, string>, string, string][])("refuses %j", (overrides, path, code) => {
  const r = answer(phasing, emptyBench, { draws: 5, overrides });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
