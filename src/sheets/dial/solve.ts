import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import type { Chance } from "../../ask/contract";
import type { NoValue } from "../../ask/results";
import {
  backlashOf,
  type DialDraw,
  type DialFit,
  dialAt,
  dialSlope,
  dialTerms,
  drawDial,
  readingFor,
  wideningOf,
} from "../../infer/dial/fitted";
import { bestNextMarker, type JudgedDial } from "../../infer/dial/judge";
import { setPointLeverage } from "../../physics/dial-law";
import { straightLine } from "../inputs/dial-figures";
import type { Asked } from "./ask";
import { doubtsAlong, spanHzOf, spanOf } from "./narrow";

/**
 * Streams of an answer that draw the law itself.
 *
 * @param fit the law
 * @param chance the answer's standard normals
 * @returns the law of a draw by its number; undefined at the best values
 * @source the fit's own parts: one by chance, its coefficients by chance
 */
export function lawDraws(fit: DialFit, chance: Chance): (draw: number) => DialDraw | undefined {
  const part = chance.stream("part of the law");
  const xi = Array.from({ length: dialTerms }, (_, k) => chance.stream(`coefficient ${k}`));
  const own = new Float64Array(dialTerms);
  return (draw) => {
    if (draw < 0) return undefined;
    for (let k = 0; k < dialTerms; k++) own[k] = xi[k][draw];
    return drawDial(fit, normalCdf(part[draw], 0, 1), own, wideningOf(fit));
  };
}

/**
 * The marker that would tell most: of this spacing, or of half of it where each one is taken.
 *
 * @param fit the law
 * @param spacingHz spacing of the markers, Hz
 * @returns frequency, Hz; undefined where all are taken
 * @source where the law's doubt is largest
 */
export function nextMarkerOf(fit: DialFit, spacingHz: number): number | undefined {
  const [lowHz, highHz] = spanHzOf(fit);
  return bestNextMarker(fit, lowHz, highHz, spacingHz) ?? bestNextMarker(fit, lowHz, highHz, spacingHz / 2);
}

/** The largest departure of the law from a straight line through its ends, Hz, with its sign. */
function largestBendOf(fit: DialFit): number {
  const [from, to] = spanOf(fit);
  const straight = straightLine(fit);
  let bend = 0;
  for (let i = 0; i <= 80; i++) {
    const r = from + ((to - from) * i) / 80;
    const off = dialAt(fit, r).hz - straight(r);
    if (Math.abs(off) > Math.abs(bend)) bend = off;
  }
  return bend;
}

const outside: NoValue = { none: "the law of these zero beats does not reach that far" };
/**
 * Results of one draw of a dial's law after another; what is the same in all of them is worked out once.
 *
 * @param best plain inputs at their best values
 * @param dial the fit
 * @returns results by inputs and law: frequencies, Hz, and readings, divisions; the best law where none is drawn
 * @source the fit; propagation of the law's draws to first order at the frequency asked about
 */
export function dialSolver(best: Asked, { fit, odd }: JudgedDial) {
  const { typicalHz, worstHz } = doubtsAlong(fit);
  const [lowHz, highHz] = spanHzOf(fit);
  const same = {
    readingNoise: fit.readingNoise,
    worstDoubt: worstHz,
    typicalDoubt: typicalHz,
    largestBend: largestBendOf(fit),
    nextMarker: nextMarkerOf(fit, best.spacing) ?? { none: "every marker of this spacing, and of half of it, is taken" },
    oddCount: odd.length,
  };
  const leverage = setPointLeverage(highHz, lowHz, fit.conversion);
  const reading = readingFor(fit, best.where);
  const slopeThere = reading === undefined ? Number.NaN : dialSlope(fit, reading);
  const lash = backlashOf(fit).value;
  const step = 0.02 * (fit.high - fit.low);
  // taken now: the draws write over the plain inputs
  const { where, markerError } = best;
  return (x: Asked, law: DialDraw | undefined) => {
    const fixed = { ...same, setPointShiftHigh: leverage * x.setPointOff };
    const here = x.where === where ? reading : readingFor(fit, x.where);
    if (here === undefined) return { ...fixed, reading: outside, atReading: outside, slope: outside, backlash: lash, backlashHz: outside };
    const drawn = law ? law.hzAt(here) : x.where;
    const slope = law ? (law.hzAt(here + step) - law.hzAt(here - step)) / (2 * step) : slopeThere;
    const backlash = law ? (law.hzAt(here, -1) - law.hzAt(here, 1)) / slope : lash;
    return {
      ...fixed,
      reading: here - (drawn - x.where) / slope,
      // the known error is in the law; a draw has what is not known of it
      atReading: drawn * (1 + x.markerError - markerError),
      slope,
      backlash,
      backlashHz: backlash * Math.abs(slope),
    };
  };
}
