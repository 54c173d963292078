import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { bfo } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) => orThrow(answer(bfo, emptyBench, { draws: 60, overrides }));

it("recomputes the worked example of its page, and the envelope itself says the same", () => {
  const [, percent] = /second harmonic \| ([\d.]+) %/.exec(theory)!;
  expect(ask({ bfoVolts: "5 V", signalVolts: "1 V" }).results.distortion.value! * 100).toBeCloseTo(Number(percent), 1);
  // it never passes a fifth, and is the same for a signal so much over the BFO
  const at = (signalVolts: string) => ask({ bfoVolts: "1 V", signalVolts }).results.distortion.value!;
  expect(at("1 V")).toBeCloseTo(0.2, 3);
  expect(at("10 V")).toBeCloseTo(at("0.1 V"), 9);
  // the envelope's own Fourier sums: first and second harmonic of sqrt(1 + r^2 + 2 r cos) at r = 0.2
  const n = 4096;
  const harmonic = (k: number): number =>
    (2 / n) *
    Array.from({ length: n }, (_, i) => (2 * Math.PI * i) / n).reduce(
      (s, t) => s + Math.sqrt(1.04 + 0.4 * Math.cos(t)) * Math.cos(k * t),
      0,
    );
  expect(Math.abs(harmonic(2) / harmonic(1))).toBeCloseTo(0.05, 2);
});
describe("sidebands", () => {
  it("turn round with the oscillator's side", () => {
    const [a, b] = [ask({}), ask({ oscillator: "below" })];
    expect(a.results.upperOff.value!).toBeGreaterThan(0);
    expect(b.results.upperOff.value!).toBeLessThan(0);
    expect(a.results.upperAt.value).toBeCloseTo(b.results.lowerAt.value!, 6);
  });
  it("lie the lowest audio outside the -6 dB points", () => {
    const [near, far] = [ask({ audioLow: "100 Hz" }), ask({ audioLow: "600 Hz" })];
    expect(far.results.upperAt.value! - near.results.upperAt.value!).toBeCloseTo(500, 6);
    expect(far.results.opposite.value!).toBeGreaterThan(near.results.opposite.value!);
  });
});
it("asks for more BFO, or less signal, by the detector's own need", () => {
  expect(ask({ bfoVolts: "1 V ± 1%", signalVolts: "1 V ± 1%" }).findings.map((f) => f.id)).toContain("bfo-weak-yes");
  expect(ask({ cwDetector: "product", bfoVolts: "12 V ± 1%", signalVolts: "1 V ± 1%" }).findings.map((f) => f.id)).not.toContain(
    "bfo-weak-yes",
  );
  expect(ask({ bfoRange: "1 kHz ± 1%" }).findings.map((f) => f.id)).toContain("bfo-range-no");
});
it("refuses volts that are none", () => {
  const r = answer(bfo, emptyBench, { draws: 5, overrides: { bfoVolts: "0 V" } });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([["bfoVolts", "not-positive"]]);
});
