/** Laws and limiting cases. */
import { expect, it } from "vitest";
import { humpSpacingHz, pairFromHumps, pairWidthHz, valleyDb } from "./coupled-pair";

it("laws: humps and pair are each other's inverse; up to critical coupling there is one hump; widths meet there", () => {
  const back = pairFromHumps(humpSpacingHz(1.7, 85, 465e3), valleyDb(1.7), 465e3);
  expect(back.a).toBeCloseTo(1.7, 9);
  expect(back.q).toBeCloseTo(85, 9);
  expect([humpSpacingHz(0.8, 85, 465e3), valleyDb(1)]).toEqual([0, 0]);
  expect(pairWidthHz(1 + 1e-9, 85, 465e3, 6) / pairWidthHz(1, 85, 465e3, 6)).toBeCloseTo(1, 6);
});
