/** Strips and sweeps invented here: what the fit says must hold the truth as often as it claims, and it must not claim what a sweep cannot tell. */
import { describe, expect, it } from "vitest";
import { inventSweep } from "../../invented/strip";
import { StripResponse } from "../../physics/if-strip";
import { peakOf, widthHz } from "../../physics/passband";
import { ceramicStrip, mediumStrip, wideStrip } from "../../set/patterns/strips";
import { type MutableStrip, plainStrip, setStripLeaf, stripLeaves, stripSlot } from "../../set/strip";
import { orThrow } from "../../units/issue";
import { standardUncertainty } from "../../units/quantity";
import { fitStrip } from "./fit";
import { widenProducts } from "./told";

const kinds = [wideStrip, mediumStrip, ceramicStrip];
const width = (s: MutableStrip) => {
  const r = new StripResponse(s);
  return widthHz(r, peakOf(r, [s.intermediateFrequency]), 6);
};
const cases = Array.from({ length: 24 }, (_, i) => {
  const strip = kinds[i % 3](455e3);
  const invented = inventSweep(strip, { centreHz: 455e3, halfSpanHz: 15_000, points: 401 }, { db: 0.1, peakDb: -10 }, i + 1);
  return { strip, invented, fit: orThrow(fitStrip(strip, { ...invented, noiseDb: 0.1 }, "e", ["r"])) };
});

it("k Q of a can that is left wide open is in doubt by what was asked for, and no leaf by more than beforehand", () => {
  const leaves = stripLeaves(wideStrip(455e3)).filter((l) => l.path.startsWith("strip.can"));
  const square = (u: number): number[][] => leaves.map((_, i) => leaves.map((__, j) => (i === j ? u * u : 0)));
  const product = (cov: readonly (readonly number[])[]): number => {
    const part = leaves.map((l): number => (l.path === "strip.can1.coupling" ? 1 : /^strip\.can1\..*Q$/.test(l.path) ? 0.5 : 0));
    return part.reduce((s, a, i) => s + part.reduce((r, b, j) => r + a * b * cov[i][j], 0), 0);
  };
  const prior = leaves.map(() => 0.7);
  const doubt = new Map([["can1", 0.45]]);
  expect(product(widenProducts(leaves, square(0.1), prior, doubt)) - product(square(0.1))).toBeCloseTo(0.45 ** 2, 9);
  const capped = widenProducts(leaves, square(0.69), prior, doubt);
  for (const [i, p] of prior.entries()) expect(Math.sqrt(capped[i][i])).toBeLessThanOrEqual(p + 1e-12);
});
describe("the fit of a strip to a sweep", () => {
  it("misses the sweep by no more than its noise", () => {
    for (const c of cases) expect(c.fit.rmsDb).toBeLessThan(0.125);
  });
  it("gives the -6 dB width to 0.6 %", () => {
    for (const c of cases) {
      const fitted = plainStrip(c.strip);
      for (const [path, q] of Object.entries(c.fit.values)) setStripLeaf(fitted, path, q.value);
      expect(Math.abs(width(fitted) / width(c.invented.truth) - 1)).toBeLessThan(0.006);
    }
  });
  it("95 % intervals of the leaves hold the truth about that often", () => {
    let inside = 0;
    let all = 0;
    for (const c of cases)
      for (const l of c.fit.leaves) {
        const { holder, key } = stripSlot(c.invented.truth, l.path);
        inside += Math.abs(Number(holder[key]) - l.after.value) <= 1.96 * standardUncertainty(l.after.spread) ? 1 : 0;
        all++;
      }
    // The priors are rectangular and the fit takes them as normal: a little over-coverage is expected.
    expect(inside / all).toBeGreaterThan(0.92);
    expect(inside / all).toBeLessThan(0.995);
  });
  it("tells some directions and says which leaves it does not: k and Q apart stay nearly as wide as they were", () => {
    for (const c of cases) {
      expect(c.fit.directionsCount).toBeGreaterThanOrEqual(4);
      expect(c.fit.directionsCount).toBeLessThan(c.fit.leaves.length / 2);
      const q = c.fit.leaves.filter((l) => l.path.endsWith("Q"));
      expect(Math.max(...q.map((l) => l.leftRatio))).toBeGreaterThan(0.6);
      for (const l of c.fit.leaves) expect(l.leftRatio).toBeLessThan(1.001);
    }
  });
  it("keeps the covariance: without it the width would come out far too uncertain", () => {
    const c = cases[1];
    const k = c.fit.estimate.names.indexOf("strip.can1.coupling");
    const other = c.fit.estimate.names.indexOf("strip.can2.coupling");
    const cov = c.fit.estimate.covariance;
    expect(cov[k][other] / Math.sqrt(cov[k][k] * cov[other][other])).toBeLessThan(-0.15);
  });
  it("refuses a sweep of something else", () => {
    const of = (frequencyHz: Float64Array, levelDb: Float64Array) => {
      const r = fitStrip(wideStrip(455e3), { frequencyHz, levelDb, noiseDb: 0.1 }, "e", []);
      return r.ok ? "" : r.issues[0].code;
    };
    const hz = Float64Array.from({ length: 101 }, (_, i) => 440e3 + 300 * i);
    expect(
      of(
        hz.map((f) => f + 1e6),
        hz.map(() => 0),
      ),
    ).toBe("not-this-strip");
    expect(
      of(
        hz,
        hz.map((_, i) => -30 + 30 * Math.sin(i / 3)),
      ),
    ).toBe("not-this-strip");
  });
  it("refuses a sweep with too few points in the pass band", () => {
    const r = fitStrip(
      wideStrip(455e3),
      { frequencyHz: Float64Array.of(1, 2, 3), levelDb: Float64Array.of(0, 1, 0), noiseDb: 0.1 },
      "e",
      [],
    );
    expect(r.ok || r.issues[0].code).toBe("too-few");
  });
});
