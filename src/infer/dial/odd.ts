import type { DialPoint } from "../../readings/zero-beats";
import { backlashOf, type DialFit, dialAt, dialSlope } from "./fitted";

export type OddCause = "neighbour" | "wrong-side" | "unexplained";
export interface OddPoint {
  /** place in the list of points, from 0 */
  readonly index: number;
  readonly point: DialPoint;
  /** what the law says at that reading, Hz, and how far the point is off in standard deviations */
  readonly lawHz: number;
  readonly sigmas: number;
  readonly cause: OddCause;
  /** frequency that it would be, where it was mistaken for its neighbour, Hz */
  readonly likelyHz?: number;
  /** divisions that it lies off */
  readonly offDiv: number;
}
/**
 * How far a point lies off the law.
 *
 * @param fit the law
 * @param p the point
 * @param inside whether it takes part in the fit: then it has pulled the law towards itself
 * @returns standard deviations of what the law expects of it
 * @source propagation of uncertainty to first order, JCGM 100
 */
export function sigmasOf(fit: DialFit, p: DialPoint, inside: boolean): number {
  const law = dialAt(fit, p.reading, p.approach);
  const slope = dialSlope(fit, p.reading);
  const noise = Math.abs(slope) * Math.hypot(fit.readingNoise, p.approach === 0 ? fit.scaling.backlash / 2 : 0);
  const spread = inside ? Math.sqrt(Math.max(noise ** 2 - law.uHz ** 2, 0.2 * noise ** 2)) : Math.hypot(noise, law.uHz);
  return (p.frequencyHz - law.hz) / spread;
}

/** Divisions that a point lies off the law. */
const offOf = (fit: DialFit, p: DialPoint): number => (p.frequencyHz - dialAt(fit, p.reading, p.approach).hz) / dialSlope(fit, p.reading);

/** The marker that a point is, where the law says another one than was written, and says it clearly. */
function neighbourOf(fit: DialFit, p: DialPoint, spacingHz: number): number | undefined {
  const { hz } = dialAt(fit, p.reading, p.approach);
  const spread = Math.abs((p.frequencyHz - hz) / sigmasOf(fit, p, false));
  const steps = Math.round((hz - p.frequencyHz) / spacingHz);
  const likely = p.frequencyHz + steps * spacingHz;
  return steps !== 0 && Math.abs(steps) <= 5 && Math.abs(likely - hz) < 3.5 * spread && 5 * spread < spacingHz ? likely : undefined;
}

/**
 * A point that does not fit, with its likely cause.
 *
 * @param fit the law of the others
 * @param points all zero beats
 * @param index place of the odd one, from 0
 * @param spacingHz spacing of the markers, Hz
 * @returns what the law says there, and whether a neighbouring marker or the backlash explains it
 * @source house rule
 */
export function explain(fit: DialFit, points: readonly DialPoint[], index: number, spacingHz: number): OddPoint {
  const point = points[index];
  const law = dialAt(fit, point.reading, point.approach);
  const sigmas = sigmasOf(fit, point, false);
  const offDiv = offOf(fit, point);
  const common = { index, point, lawHz: law.hz, sigmas, offDiv };
  const neighbour = neighbourOf(fit, point, spacingHz);
  if (neighbour !== undefined) return { ...common, cause: "neighbour", likelyHz: neighbour };
  const lash = backlashOf(fit);
  const expected = (point.approach || fit.side) * lash.value;
  if (Math.abs(Math.abs(offDiv) - Math.abs(expected)) < 3 * Math.hypot(lash.u, fit.readingNoise) && offDiv * expected > 0)
    return { ...common, cause: "wrong-side" };
  return { ...common, cause: "unexplained" };
}
