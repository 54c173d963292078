import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { sMeter } from "./sheet";
import theory from "./theory.md";

const ask = (steps: string, more: Record<string, string> = {}) =>
  orThrow(answer(sMeter, emptyBench, { draws: 200, overrides: { steps, ...more } }));
/** A set whose meter has 4.5 dB a unit and S9 at -67 dBm, and whose output rises by 2 dB from 10 uV on. */
const set = Array.from({ length: 9 }, (_, i) => -107 + 10 * i)
  .map((dbm) => {
    const units = 9 + (dbm + 67) / 4.5;
    const reading = dbm > -67 ? `S9+${dbm + 67}` : units > 0 ? `S${Math.round(units * 10) / 10}` : "";
    return `${dbm} dBm, ${reading}, ${(-0.2 * (dbm + 107)).toFixed(1)} V, ${dbm < -87 ? (dbm + 107).toFixed(0) : (20 + (2 * (dbm + 87)) / 60).toFixed(2)} dB`;
  })
  .join("; ");

it("finds the law of a meter of its own: S9 at -67 dBm, 4.5 dB a unit, 2 dB of rise", () => {
  const { results, headline } = ask(set, { generatorError: "0 ± 0.01 dB" });
  expect(results.s9Level.value).toBeCloseTo(-67, 6);
  expect(results.s9Off.value).toBeCloseTo(6, 6);
  // readings are written to a tenth of a unit
  expect(Math.abs(results.perUnit.value! - 4.5)).toBeLessThan(0.05);
  expect(results.overNine.value).toBeCloseTo(1, 6);
  expect(results.flatness.value).toBeCloseTo(2, 6);
  expect(results.avcDecade.value).toBeCloseTo(4, 6);
  expect(headline).toContain("100 µV in 50 Ω");
});
it("carries the generator's own error into S9, and not into the unit", () => {
  const a = ask(set, { generatorError: "-2 ± 0.01 dB" });
  expect(a.results.s9Level.value).toBeCloseTo(-69, 6);
  expect(Math.abs(a.results.perUnit.value! - 4.5)).toBeLessThan(0.05);
  // -67 dBm by the generator is -69 dBm: 4 dB over S9, in the drawn law as in the table's
  const { wanted } = a.curves;
  expect(wanted.y[wanted.x.findIndex((dbm) => Math.abs(dbm + 67) < 1e-6)]).toBeCloseTo(9 + 4 / 6, 6);
  expect(a.tables[0].rows.find((r) => r[0] === -67)![3]).toBeCloseTo(4, 6);
});
it("gives no unit for a meter whose law is bent far beyond what its needle can be misread, and a wide one where it is bent a little", () => {
  const bent = (part: number): string =>
    Array.from({ length: 9 }, (_, i) => `${-107 + 5 * i} dBm, S${(1 + i + part * Math.sin((i * Math.PI) / 4)).toFixed(2)}, , `).join("; ");
  expect(ask(bent(1.5), { needleRead: "0.1" }).results.perUnit.why).toContain("no one unit fits");
  const [straight, little] = [0, 0.25].map((p) => ask(bent(p), { needleRead: "0.1" }).results.perUnit);
  expect(little.high! - little.low!).toBeGreaterThan(1.3 * (straight.high! - straight.low!));
});
describe("what it finds", () => {
  it("a positive AVC line is an act, at the inside of the set", () => {
    const f = ask("-107 dBm, S1, 0.8 V, 0 dB; -87 dBm, S5, -2 V, 20 dB; -67 dBm, S9, -6 V, 21 dB").findings.find(
      (x) => x.id === "s-meter-avc-positive",
    )!;
    expect(f).toMatchObject({ severity: "act" });
    expect(f.hazards).toEqual(expect.arrayContaining(["b-plus", "stored-charge"]));
  });
  it("an output that rises with the signal, and one that falls at the top", () => {
    const up = [-107, -87, -67, -47, -27].map((d, i) => `${d} dBm, , , ${5 * i} dB`).join("; ");
    expect(ask(up).findings.map((f) => f.id)).toContain("s-meter-flat-yes");
    const down = [-87, -67, -47, -27, -7].map((d, i) => `${d} dBm, , , ${[20, 21, 21, 21, 12][i]} dB`).join("; ");
    expect(ask(down).findings.map((f) => f.id)).toContain("s-meter-overload");
  });
});
it.each([
  ["-107 dBm, S1; -87 dBm, S5", "steps", "too-few"],
  ["-107 dBm, S1; -107 dBm, S5; -87 dBm, S6", "steps row 2", "not-rising"],
  ["-107 dBm, S1; -87 dBm, S5; 90 dBm, S9", "steps row 3", "no-level"],
])("refuses %s", (steps, path, code) => {
  const r = answer(sMeter, emptyBench, { draws: 5, overrides: { steps } });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (-\d+) dBm\s+\| ([\d.]+) µV\s+\| S(\d)/g)];
  expect(rows).toHaveLength(2);
  const a = ask("-121 dBm, S1; -97 dBm, S5; -73 dBm, S9", { generatorError: "0 ± 0.001 dB" });
  for (const [, dbm, uv, s] of rows) {
    const row = a.tables[0].rows.find((r) => r[0] === Number(dbm))!;
    expect(Number(row[1]) * 1e6).toBeCloseTo(Number(uv), 1);
    expect(9 + Number(row[3]) / 6).toBeCloseTo(Number(s), 6);
  }
});
