import type { Chance } from "../../ask/contract";
import type { NoValue } from "../../ask/results";
import { type DialDraw, dialAxis, drawDial } from "../../infer/dial/draw";
import { backlashOf, type DialFit, dialSlope, hzAt, readingFor, wideningOf } from "../../infer/dial/fitted";
import type { JudgedDial } from "../../infer/dial/judge";
import { bestNextMarker } from "../../infer/dial/next-marker";
import { dialTerms } from "../../infer/dial/scaling";
import { normalCdf } from "../../numerics/normal";
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
    return drawDial(fit, normalCdf(part[draw]), own, wideningOf(fit));
  };
}

/**
 * The marker that would tell you most: of this spacing, or of half of it where each one is taken.
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
    const off = hzAt(fit, r) - straight(r);
    if (Math.abs(off) > Math.abs(bend)) bend = off;
  }
  return bend;
}

/** The reading at a frequency, and what a draw of the law says there; undefined where the law does not reach it. */
function placeFor(fit: DialFit, hz: number) {
  const reading = readingFor(fit, hz);
  if (reading === undefined) return undefined;
  const step = 0.02 * (fit.high - fit.low);
  const around = dialAxis(fit, [reading - step, reading, reading + step]);
  const [down, up] = [dialAxis(fit, [reading], -1), dialAxis(fit, [reading], 1)];
  const [at, downAt, upAt] = [new Float64Array(3), new Float64Array(1), new Float64Array(1)];
  const by = (law: DialDraw) => {
    law(around, at);
    law(down, downAt);
    law(up, upAt);
    const slope = (at[2] - at[0]) / (2 * step);
    return { hz: at[1], slope, backlash: (downAt[0] - upAt[0]) / slope };
  };
  return { reading, slope: dialSlope(fit, reading), by };
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
  const there = placeFor(fit, best.where);
  const lash = backlashOf(fit).value;
  // taken now: the draws write over the plain inputs
  const { where, markerError } = best;
  return (x: Asked, law: DialDraw | undefined) => {
    const fixed = { ...same, setPointShiftHigh: leverage * x.setPointOff };
    const place = x.where === where ? there : placeFor(fit, x.where);
    if (!place) return { ...fixed, reading: outside, atReading: outside, slope: outside, backlash: lash, backlashHz: outside };
    const { hz: drawn, slope, backlash } = law ? place.by(law) : { hz: x.where, slope: place.slope, backlash: lash };
    return {
      ...fixed,
      reading: place.reading - (drawn - x.where) / slope,
      // the known error is in the law; a draw has what is not known of it
      atReading: drawn * (1 + x.markerError - markerError),
      slope,
      backlash,
      backlashHz: backlash * Math.abs(slope),
    };
  };
}
