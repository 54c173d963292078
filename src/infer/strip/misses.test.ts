import { describe, expect, it, vi } from "vitest";
import { inventSweep } from "../../invented/strip";
import { normalStream } from "../../numerics/random";
import { StripResponse } from "../../physics/if-strip";
import { ceramicStrip, mediumStrip } from "../../set/patterns/strips";
import { plainStrip, setStripLeaf, stripLeaves } from "../../set/strip";
import { orThrow } from "../../units/issue";
import { fitStrip } from "./fit";
import { missesOf, thinned, type Used } from "./misses";

const hz = Float64Array.from({ length: 41 }, (_, i) => 445e3 + 500 * i);
const flat: Used = { hz, db: hz.map(() => -3), weights: hz.map((_, i) => 1 + i / 50), topDb: 1 };

describe("misses of a strip, worked out can by can", () => {
  it.each([mediumStrip, ceramicStrip])("are those of the whole strip, whichever leaf moved last", (make) => {
    const strip = make(455e3);
    const leaves = stripLeaves(strip);
    const n = leaves.length;
    const value = (i: number, z: number): number => leaves[i].quantity.value * (1 + 0.01 * z);
    const misses = missesOf(plainStrip(strip), leaves, flat, value);
    const z = new Float64Array(n + 1);
    const move = normalStream(1, "leaves", n);
    const out = new Float64Array(hz.length + n);
    for (let i = 0; i <= n; i++) {
      z[i] = i < n ? move[i] : 0.2;
      misses(z, out);
      const model = plainStrip(strip);
      for (const [j, l] of leaves.entries()) setStripLeaf(model, l.path, value(j, z[j]));
      const whole = new StripResponse(model);
      const power = hz.map((f) => whole.at(f));
      const peak = Math.max(...power);
      for (const [p, h] of power.entries())
        expect(out[p]).toBeCloseTo((10 * Math.log10(h / peak) + 10 * z[n] + flat.topDb - flat.db[p]) * flat.weights[p], 8);
      expect(out[hz.length + Math.min(i, n - 1)]).toBe(z[Math.min(i, n - 1)]);
    }
  });
  it("weigh on few points what they do on all", () => {
    const few = thinned(flat, 10);
    expect(few.hz.length).toBeLessThan(15);
    const square = (u: Used): number => u.weights.reduce((s, w) => s + w * w, 0);
    expect(square(few) / square(flat)).toBeCloseTo(1, 1);
    expect(thinned(flat, 30)).toBe(flat);
  });
});
it("a fit of three cans to 401 points asks for less than two million responses of a can: whole strips from every start asked for fifteen", () => {
  const strip = mediumStrip(455e3);
  const swept = inventSweep(strip, { centreHz: 455e3, halfSpanHz: 14_000, points: 401 }, { db: 0.1, peakDb: 0 }, 3);
  const asked = vi.spyOn(StripResponse.prototype, "at");
  orThrow(fitStrip(strip, { ...swept, noiseDb: 0.1 }, "e", []));
  expect(asked.mock.calls.length).toBeLessThan(2e6);
  asked.mockRestore();
});
