/** When a warm-up comes to rest, against the closed form of one exponential and against a walk in small steps where two parts work against each other. */
import { describe, expect, it } from "vitest";
import { settledAfterS, speedHzPerS, type WarmUp } from "./warm-up";

const of = (...parts: WarmUp["parts"]): WarmUp => ({ endHz: 0, parts });
describe("when a warm-up comes to rest", () => {
  it("is tau ln(|hz| / (tau limit)) for one exponential: where its own derivative is the limit", () => {
    for (const [hz, tauS, limit] of [
      [2000, 1200, 0.05],
      [-800, 400, 0.01],
      [150, 7200, 0.001],
    ])
      expect(settledAfterS(of({ hz, tauS, power: 1 }), limit, 0) / (tauS * Math.log(Math.abs(hz) / (tauS * limit)))).toBeCloseTo(1, 8);
  });
  it("is the first moment looked at where it never moves faster", () => {
    expect(settledAfterS(of({ hz: 1, tauS: 1200, power: 1 }), 0.01, 300)).toBe(300);
    expect(settledAfterS(of(), 0.01, 300)).toBe(300);
    // two that undo each other, however fast each is
    expect(settledAfterS(of({ hz: 3000, tauS: 900, power: 1 }, { hz: -3000, tauS: 900, power: 1 }), 0.01, 300)).toBe(300);
  });
  it("is the last time that it was faster, where two parts stand still against each other before", () => {
    const w = of({ hz: 3600, tauS: 2000, power: 1 }, { hz: -3300, tauS: 2200, power: 1 });
    const limit = 0.005;
    let last = 0;
    for (let s = 10; s < 100_000; s += 0.5) if (Math.abs(speedHzPerS(w, s)) > limit) last = s;
    expect(Math.abs(settledAfterS(w, limit, 0) - last)).toBeLessThan(0.5 + 1e-6);
    // it does stand still in between
    expect(Math.sign(speedHzPerS(w, 60))).not.toBe(Math.sign(speedHzPerS(w, last)));
  });
});
