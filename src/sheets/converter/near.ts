import { type ConverterPlan, type Response, responsesOf, tunedOver } from "../../physics/converter";
import type { Asked } from "./ask";
import { inputLeavesDb } from "./solve";

/** Products up to this order are loud enough near the band to be taken for signals. Common practice, no source. */
const nearOrder = 7;
/** Beside the band the input must take this off a strong signal before it is harmless, as of the image, dB. Common practice, no source. */
const harmlessDb = 40;
/**
 * Ways in for signals in the band or near it, where the input takes less than 40 dB off them, that cross no wanted signal: they come out elsewhere
 * on the dial and are taken for signals there.
 *
 * @param x inputs
 * @param p the plan
 * @returns responses, of the lowest order first
 * @source responsesOf; the input's own curve
 */
export function nearWithoutCrossing(x: Asked, p: ConverterPlan): Response[] {
  const middle = (tunedOver(p)[0] + tunedOver(p)[1]) / 2;
  return responsesOf(p, nearOrder, 0.7 * x.wantedLow, 1.4 * x.wantedHigh)
    .filter((r) => r.m > 0 && r.crossHz === undefined)
    .filter((r) => Math.min(...[r.lowHz, r.highHz].map((f) => inputLeavesDb(x, p, middle, f))) < harmlessDb)
    .sort((a, b) => a.m + a.n - b.m - b.n);
}
