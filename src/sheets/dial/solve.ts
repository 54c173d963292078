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
import type { DialPlain } from "../inputs/dial";
import { straightLine } from "../inputs/dial-figures";
import { doubtsAlong, spanHzOf, spanOf } from "./narrow";

export interface DialInputs extends DialPlain {
  readonly spacing: number;
  readonly where: number;
  readonly setPointOff: number;
}
const outside: NoValue = { none: "the law of these zero beats does not reach that far" };
/** Streams of an answer that draw the law itself. */
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
/** What is the same in every draw. */
export function fixedFigures(x: DialInputs, dial: JudgedDial) {
  const { fit, odd } = dial;
  const { typicalHz, worstHz } = doubtsAlong(fit);
  const [from, to] = spanOf(fit);
  const straight = straightLine(fit);
  let bend = 0;
  for (let i = 0; i <= 80; i++) {
    const r = from + ((to - from) * i) / 80;
    const off = dialAt(fit, r).hz - straight(r);
    if (Math.abs(off) > Math.abs(bend)) bend = off;
  }
  const [lowHz, highHz] = spanHzOf(fit);
  const next = bestNextMarker(fit, lowHz, highHz, x.spacing) ?? bestNextMarker(fit, lowHz, highHz, x.spacing / 2);
  const here = readingFor(fit, x.where);
  return {
    readingNoise: fit.readingNoise,
    worstDoubt: worstHz,
    typicalDoubt: typicalHz,
    largestBend: bend,
    lowHz,
    highHz,
    setPointShiftHigh: x.setPointOff * setPointLeverage(highHz, lowHz, fit.conversion),
    nextMarker: next ?? { none: "every marker of this spacing, and of half of it, is taken" },
    oddCount: odd.length,
    here: { hz: x.where, reading: here, slope: here === undefined ? Number.NaN : dialSlope(fit, here), backlash: backlashOf(fit).value },
  };
}
/** Results of one draw of the law, or of the best one. */
export function solveDial(
  x: DialInputs,
  fit: DialFit,
  fixed: ReturnType<typeof fixedFigures>,
  law: DialDraw | undefined,
  knownError: number,
) {
  const { lowHz: _l, highHz: _h, here: at, ...same } = fixed;
  const here = x.where === at.hz ? at.reading : readingFor(fit, x.where);
  if (here === undefined)
    return { ...same, reading: outside, atReading: outside, slope: outside, backlash: at.backlash, backlashHz: outside };
  const step = 0.02 * (fit.high - fit.low);
  const slope = law ? (law.hzAt(here + step) - law.hzAt(here - step)) / (2 * step) : at.slope;
  const drawn = law ? law.hzAt(here) : x.where;
  const backlash = law ? (law.hzAt(here, -1) - law.hzAt(here, 1)) / slope : at.backlash;
  return {
    ...same,
    reading: here - (drawn - x.where) / slope,
    // the known error is in the law; a draw has what is not known of it
    atReading: drawn * (1 + x.markerError - knownError),
    slope,
    backlash,
    backlashHz: backlash * Math.abs(slope),
  };
}
