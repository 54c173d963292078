import { describe, expect, it } from "vitest";
import { Sidebands } from "./sidebands";
import { made, play, tau } from "./waves.testdata";

const rate = 48_000;
const told = (of: (t: number) => number, noise = 1e-4) => play(new Sidebands(rate, 60), made(rate, 12, of, noise, 6)).told;

describe("sidebands of the mains on a tone", () => {
  it.each([
    [0.1, 0.02],
    [0.01, 0.05],
    [0, 0.01],
  ])("%f at 60 Hz and %f at 120 Hz are told as those depths", (once, twice) => {
    const am = (t: number) => 1 + once * Math.sin(tau * 60 * t) + twice * Math.cos(tau * 120 * t);
    const { toneHz, pairs } = told((t) => 0.2 * am(t) * Math.sin(tau * 1013.7 * t))!;
    expect(toneHz).toBeCloseTo(1013.7, 1);
    expect(pairs.map((p) => p.apartHz)).toEqual([60, 120]);
    expect(pairs[1].stands).toBe(true);
    expect(pairs[1].depth / twice).toBeCloseTo(1, 1);
    expect(pairs[0].stands).toBe(once > 0);
    if (once > 0) expect(pairs[0].depth / once).toBeCloseTo(1, 1);
    else expect(pairs[0].depth).toBeLessThan(1e-3);
  });
  it("hum beside a tone is no sideband of it; without a tone nothing is told", () => {
    const { pairs } = told((t) => 0.2 * Math.sin(tau * 1013.7 * t) + 0.02 * Math.sin(tau * 120 * t))!;
    expect(pairs.map((p) => p.stands)).toEqual([false, false]);
    expect(told(() => 0, 0.05)).toBeUndefined();
  });
});
