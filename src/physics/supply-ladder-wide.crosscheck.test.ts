/**
 * The ladder of a supply by WebAssembly, two nodes side by side, against the same law in plain arithmetic. The two take their steps in another order,
 * so that they differ by rounding. The drop of a vacuum diode is sought from another start besides: Halley's last step, of 10^-4 at most, leaves 2/3 of
 * its cube of the root, three times that of what lies across the diode and its source, and a capacitor keeps twice that. Over the 576 steps of six
 * periods that is 3.3e-9 of the plate's volts if the whole crest lay there all the time; in 18 000 supplies it came to 2e-11.
 */
import fc from "fast-check";
import { afterEach, describe, expect, it, vi } from "vitest";
import { afresh } from "../numerics/afresh.testdata";
import { perveanceOf, solveSupply } from "./supply";
import { Ladder, stateSize } from "./supply-ladder";
import { wideLadder } from "./supply-ladder-wide";
import { numberCount, numbersOf, type Supply } from "./supply-numbers";

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const someSection = fc.record({
  ohm: number(50, 5000),
  henry: fc.constantFrom(0, 4, 12),
  farad: number(1e-6, 80e-6),
  ampere: number(0, 0.08),
  siemens: number(0, 1e-4),
  tube: fc.option(fc.record({ ampere: number(1e-3, 0.06), atV: number(100, 300), exponent: number(0.5, 1.6) }), { nil: undefined }),
});
const someSupply = fc
  .record({
    plateV: number(50, 500),
    lineHz: fc.constantFrom(50, 60),
    fullWave: fc.boolean(),
    sourceOhm: number(20, 600),
    silicon: fc.boolean(),
    firstF: fc.constantFrom(0, 8e-6, 40e-6),
    sections: fc.array(someSection, { minLength: 0, maxLength: 2 }),
  })
  .map(
    ({ silicon, firstF, sections, ...own }): Supply => ({
      ...own,
      diode: silicon ? { drop: 1.5 } : { perveance: perveanceOf(50, 0.125), drop: 0 },
      first: { farad: firstF, ampere: 0.01, siemens: 1e-5 },
      sections: sections.map(({ tube, ...s }) => ({ ...s, ...(tube ? { tube } : {}) })),
    }),
  );
const ladderOf = (s: Supply, plain: boolean, steps = 96): Ladder => {
  const ladder = new Ladder(steps, plain);
  ladder.load(numbersOf(s, new Float64Array(numberCount)), s.fullWave);
  return ladder;
};
const startOf = (s: Supply): Float64Array => Float64Array.of(1.2 * s.plateV, 1.1 * s.plateV, s.plateV, 40, 20);
/** Periods in a row, so that what one leaves the next is seen; gives the state after them. */
function periods(ladder: Ladder, s: Supply, count: number): Float64Array {
  const x = startOf(s);
  const end = new Float64Array(stateSize);
  for (let k = 0; k < count; k++) {
    ladder.tune(x);
    ladder.run(x, end);
    x.set(end);
  }
  return x;
}
/** So many parts of the largest of the kind: volts here, amperes there. */
const near = (got: readonly number[], want: readonly number[], tolerance: number, scale: number): void => {
  for (const [k, w] of want.entries()) expect(Math.abs(got[k] - w), `${k}: ${got[k]} for ${w}`).toBeLessThan(tolerance * scale);
};
const tolerance = 1e-9;
/** Where no drop is sought. */
const rounding = 1e-11;

describe("the wide ladder", () => {
  it("is to be had here", () => {
    expect(wideLadder(96)).toBeDefined();
  });
  it("leaves the state of the plain one, and tells the same of its last period", () => {
    fc.assert(
      fc.property(someSupply, fc.integer({ min: 1, max: 6 }), (s, count) => {
        const [wide, plain] = [ladderOf(s, false), ladderOf(s, true)];
        const most = "perveance" in s.diode ? tolerance : rounding;
        const [x, y] = [periods(wide, s, count), periods(plain, s, count)];
        near([...x.subarray(0, 3)], [...y.subarray(0, 3)], most, s.plateV);
        near([...x.subarray(3)], [...y.subarray(3)], most, 1e3);
        const nodes = s.sections.length + 1;
        const [a, b] = [wide.solved(nodes), plain.solved(nodes)];
        expect(a.volts).toHaveLength(nodes);
        near(
          [...a.volts, ...a.ripplePp, ...a.rippleRms, a.firstPeakV],
          [...b.volts, ...b.ripplePp, ...b.rippleRms, b.firstPeakV],
          most,
          s.plateV,
        );
        near([a.peakA, a.plateRmsA, a.plateMeanA], [b.peakA, b.plateRmsA, b.plateMeanA], most, 1);
      }),
      { numRuns: 150 },
    );
  });
  it("lends its memory to one after the other: each keeps what it ran", () => {
    fc.assert(
      fc.property(someSupply, someSupply, (s, other) => {
        const [one, two] = [ladderOf(s, false), ladderOf(other, false, 64)];
        const alone = ladderOf(s, false);
        periods(alone, s, 3);
        const want = alone.solved(1);
        periods(one, s, 3);
        periods(two, other, 2);
        near(one.solved(1).volts, want.volts, tolerance, s.plateV);
        periods(two, other, 1);
        near([...periods(one, s, 3).subarray(0, 3)], [...periods(alone, s, 3).subarray(0, 3)], tolerance, s.plateV);
      }),
      { numRuns: 60 },
    );
  });
  it("has no room for more steps than its memory: they run in plain arithmetic", () => {
    const s = fc.sample(someSupply, { numRuns: 1, seed: 3 })[0];
    near([...periods(ladderOf(s, false, 1500), s, 2)], [...periods(ladderOf(s, true, 1500), s, 2)], 1e-15, 1);
  });
});

describe("where WebAssembly is refused", () => {
  afterEach(() => vi.unstubAllGlobals());
  it("the plain law gives the same supply", async () => {
    const supply: Supply = {
      plateV: 325,
      lineHz: 60,
      fullWave: true,
      sourceOhm: 130,
      diode: { perveance: perveanceOf(50, 0.125), drop: 0 },
      first: { farad: 20e-6, ampere: 0, siemens: 0 },
      sections: [
        { ohm: 250, henry: 8, farad: 20e-6, ampere: 0.045, siemens: 0 },
        { ohm: 1500, henry: 0, farad: 10e-6, ampere: 0.035, siemens: 1 / 50e3 },
      ],
    };
    const want = solveSupply(supply);
    vi.stubGlobal("WebAssembly", {
      Memory: class {
        constructor() {
          throw new Error("not allowed by the policy of this page");
        }
      },
    });
    expect(
      (await afresh<typeof import("./supply-ladder-wide")>(new URL("./supply-ladder-wide.ts", import.meta.url))).wideLadder(96),
    ).toBeUndefined();
    const { solveSupply: plainly } = await afresh<typeof import("./supply")>(new URL("./supply.ts", import.meta.url));
    near(plainly(supply)?.volts ?? [], want?.volts ?? [Number.NaN], 1e-6, 325);
  });
});
