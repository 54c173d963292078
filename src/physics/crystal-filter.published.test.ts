import { expect, it } from "vitest";
import { notchHz } from "./crystal-filter";

it("a crystal of 3.3 H, 0.042 pF and 5.8 pF resonates at 427.5 kHz, its parallel resonance 1545 Hz above (source: Terman's 430 kc example, from memory, 0.6 % off its nominal)", () => {
  const seriesHz = 1 / (2 * Math.PI * Math.sqrt(3.3 * 0.042e-12));
  expect(seriesHz / 1e3).toBeCloseTo(427.5, 1);
  expect(Math.abs(seriesHz / 430e3 - 1)).toBeLessThan(0.006);
  expect(notchHz({ seriesHz, motionalF: 0.042e-12, holderF: 5.8e-12, phasingF: 0 })! - seriesHz).toBeCloseTo(1545, -1);
});
