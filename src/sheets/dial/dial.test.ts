import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import { setPointLeverage } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { dial } from "./sheet";
import theory from "./theory.md";

const rows = (points: readonly DialPoint[]): string =>
  points.map((p) => `${p.reading}, ${p.frequencyHz} Hz, ${p.approach === 1 ? "up" : p.approach === -1 ? "down" : "not-said"}`).join("; ");
const ask = (points: string, more = {}) => answer(dial, emptyBench, { draws: 400, points: 41, overrides: { points, ...more } });
const invented = inventDial(dialCases[2], 21);

describe("the dial", () => {
  it("brackets the truth at the frequency asked about, and its interval there is that of the law", () => {
    const a = orThrow(ask(rows(invented.points), { where: "3.61 MHz", markerError: "0 ppm" }));
    const f = a.results.atReading;
    const truth = invented.truthHz(a.results.reading.value!, 1);
    expect(f.low!).toBeLessThan(truth);
    expect(f.high!).toBeGreaterThan(truth);
    expect(f.value).toBe(3.61e6);
    expect(a.headline).not.toContain("Nothing to say");
  });
  it("takes the markers' known error out, from the reading and the table alike, and leaves what is not known on top", () => {
    const [none, high] = ["0 ppm", "100 ppm"].map((markerError) => orThrow(ask(rows(invented.points), { where: "3.61 MHz", markerError })));
    // markers that are 361 Hz high there: the same frequency is found so much further down
    const moved = (high.results.reading.value! - none.results.reading.value!) * none.results.slope.value!;
    expect(Math.abs(moved + 361)).toBeLessThan(5);
    expect(high.results.atReading.value).toBe(3.61e6);
    const at = (a: typeof none, i: number) => a.tables[0].rows.find((r) => r[0] === 3.7e6)![i] as number;
    expect(Math.abs((at(high, 1) - at(none, 1)) * at(none, 3) + 370)).toBeLessThan(5);
    const wide = orThrow(ask(rows(invented.points), { where: "3.61 MHz", markerError: "0 ppm ± 2000 ppm" }));
    expect(wide.results.atReading.high! - wide.results.atReading.low!).toBeGreaterThan(10e3);
  });
  it("names a marker that was mistaken for its neighbour, and leaves it out", () => {
    const wrong = invented.points.map((p, i) => (i === 4 ? { ...p, frequencyHz: p.frequencyHz + 50e3 } : p));
    const a = orThrow(ask(rows(wrong), { spacing: "50 kHz" }));
    expect(a.results.oddCount.value).toBe(1);
    const f = a.findings.find((x) => x.id === "dial-odd-5")!;
    expect(f.says).toContain("mistaken for its neighbour");
    expect(f.says).toContain("it is the marker at 3.7 MHz");
  });
  it("answers what can't be fitted with the row that is wrong", () => {
    const issue = (text: string) => {
      const r = ask(text);
      return r.ok ? "" : `${r.issues[0].path}: ${r.issues[0].code}`;
    };
    expect(issue("12, 3.5 MHz")).toBe("points: too-few");
    expect(issue("12, 3.5 MHz, up; x, 3.6 MHz")).toMatch(/^points row 2 reading/);
    expect(issue("12, 3.5 pF")).toBe("points row 1 frequency: wrong-unit");
    expect(issue("12, 3.5 MHz, sideways")).toBe("points row 1 approach: not-an-option");
    expect(issue(`${rows(invented.points)}; 140, 4 MHz, up`)).toBe("points row 12: off-the-scale");
  });
  it("draws nest: the first 200 of 400 are the 200", () => {
    const few = orThrow(answer(dial, emptyBench, { draws: 200, points: 11 }));
    expect(orThrow(answer(dial, emptyBench, { draws: 200, points: 11 })).results.slope).toEqual(few.results.slope);
    expect(few.results.slope.low).toBeLessThan(few.results.slope.value!);
  });
  it("recomputes the worked example of its page", () => {
    const found = [...theory.matchAll(/\| ([\d.]+) MHz \| ([\d.]+) kHz \|/g)];
    expect(found).toHaveLength(3);
    for (const [, mhz, khz] of found)
      expect(setPointLeverage(Number(mhz) * 1e6, 3.5e6, { intermediateHz: 455e3, oscillator: "above" })).toBeCloseTo(Number(khz), 3);
  });
});
