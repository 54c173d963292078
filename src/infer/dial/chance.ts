import { normalCdf } from "../../numerics/normal";
import { onceFor } from "../../numerics/once";
import { smoothBasis, smoothTerms } from "../../numerics/smooth-basis";
import { type DialFit, hzOf, type Part, reach, slopeInZ, wideningOf, zAt } from "./fitted";
import { dialTerms, leverageHz, placeOf } from "./scaling";

/** What each part of a fit says at a place along its reach: where the dial stands, and how one more setting scatters about that, Hz. */
interface Place {
  readonly hz: Float64Array;
  readonly uHz: Float64Array;
}
/** Places along a fit's reach, each worked out when it is first asked for. */
interface Spread {
  readonly from: number;
  readonly step: number;
  readonly at: (i: number) => Place;
}
const spreadPoints = 401;
const spreadOf = onceFor(findSpread, (approach: number) => approach);
function findSpread(fit: DialFit, approach: number): Spread {
  const [from, to] = reach(fit);
  const step = (to - from) / (spreadPoints - 1);
  const coefficients = fit.parts.map((p) => p.mean.map((m, i) => m * p.size[i]));
  const places: Place[] = [];
  const at = (i: number): Place => {
    places[i] ??= placeAt(fit, coefficients, from + i * step, approach);
    return places[i];
  };
  return { from, step, at };
}
function placeAt(fit: DialFit, coefficients: readonly Float64Array[], reading: number, approach: number): Place {
  const slope = slopeInZ(fit, reading);
  const row = new Float64Array(dialTerms);
  smoothBasis(placeOf(reading, fit.scaling), row);
  row[smoothTerms] = -0.5 * approach * slope;
  const solved = new Float64Array(dialTerms);
  const z = coefficients.map((w) => zAt(fit, w, reading, approach));
  return {
    hz: Float64Array.from(z, (v) => hzOf(v, fit)),
    uHz: Float64Array.from(fit.parts, (p, k) => {
      const noise = slope * p.noise;
      return Math.abs(leverageHz(z[k], fit.scaling)) * Math.sqrt(varianceOf(p, row, solved) + noise * noise);
    }),
  };
}
/** Variance of the smooth law under one part, for a row of the model; `solved` is room to work in. */
function varianceOf(p: Part, row: Float64Array, solved: Float64Array): number {
  let v = 0;
  for (let i = 0; i < dialTerms; i++) {
    let s = row[i] * p.size[i];
    for (let k = 0; k < i; k++) s -= p.factor[i * dialTerms + k] * solved[k];
    solved[i] = s / p.factor[i * dialTerms + i];
    v += solved[i] * solved[i];
  }
  return v;
}

/**
 * With few zero beats the parts of the fit leave long tails, and a setting asked to be sure at 99 % is surer than that. What each part is wide by is
 * narrowed for them, so that on invented dials at most 1 % are still outside (docs/proof.md).
 */
const withFewBeats = (count: number): number => (count >= 10 ? 1 : 1 - (0.12 * (10 - Math.max(6, count))) / 4);

/**
 * Chance that the dial, set to a reading once more, stands below a frequency: the law's doubt, the reading noise of the setting, and the rest.
 * Between 401 readings laid out along the fit's reach the law is taken as straight, which is off by less than a ten-thousandth of its bend.
 *
 * @param fit the fit
 * @param reading scale, divisions, within the fit's reach
 * @param edgeHz frequency, Hz
 * @param otherHz standard deviation of what neither law nor reading holds: marker, drift, Hz
 * @param approach side that the setting is made from; the fit's own where it is not said
 * @returns 0 to 1, over all parts of the fit
 * @source normal parts of the fit, weighted: Bayesian model average
 */
export function chanceBelow(fit: DialFit, reading: number, edgeHz: number, otherHz: number, approach: number = fit.side): number {
  const spread = spreadOf(fit, approach);
  const at = Math.min(spreadPoints - 1.000001, Math.max(0, (reading - spread.from) / spread.step));
  const i = Math.floor(at);
  const t = at - i;
  const [a, b] = [spread.at(i), spread.at(i + 1)];
  const narrowing = fit.leans ? wideningOf(fit) : withFewBeats(fit.points.length);
  let chance = 0;
  for (let k = 0; k < fit.parts.length; k++) {
    const mean = a.hz[k] * (1 - t) + b.hz[k] * t;
    const u = a.uHz[k] * (1 - t) + b.uHz[k] * t;
    chance += fit.parts[k].weight * normalCdf((edgeHz - mean) / Math.sqrt(narrowing * narrowing * u * u + otherHz * otherHz));
  }
  return chance;
}
