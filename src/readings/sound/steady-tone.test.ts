import { describe, expect, it } from "vitest";
import { SteadyTone } from "./steady-tone";
import { made, tau } from "./waves.testdata";

const rate = 12_000;
/** A tone that hops five times a second, and a line at 120 Hz that stands under it. */
const found = (line: number): readonly number[] => {
  const tone = new SteadyTone(rate, { fromHz: 50, toHz: 4000 });
  tone.push(
    made(
      rate,
      10,
      (t) => {
        const hop = 400 + ((Math.floor(t * 5) * 7919) % 23) * 60;
        return 0.3 * Math.sin(tau * hop * t) + line * Math.sin(tau * 120 * t);
      },
      0.0005,
      3,
    ),
  );
  return tone.events.map((e) => e.hz);
};

describe("the tone that stands without a break", () => {
  it("is found under a stronger one that hops", () => expect(found(0.1)[0]).toBeCloseTo(120, 0));
  it("is no line of the mains far under the rest: 0.25 % of its power is not what is being tuned", () => expect(found(0.015)).toEqual([]));
});
