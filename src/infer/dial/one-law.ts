import type { Conversion } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { evidenceOf } from "./evidence";
import { noisePriorSigma } from "./fit";
import type { DialAssumed } from "./frame";

/** Zero beats that are judged, with what is expected of them. */
export interface Judged {
  /** in the order in which they were taken */
  readonly points: readonly DialPoint[];
  readonly conversion: Conversion;
  readonly assumed: DialAssumed;
  readonly spacingHz: number;
}
/** The points at these places of the list. */
export const pointsAt = (points: readonly DialPoint[], which: readonly number[]): DialPoint[] => which.map((i) => points[i]);

/** times the stated noise that readings may scatter by */
const scatterTimes = [2, 4, 8];
/** what it costs to say that readings scatter by more than was stated: one dial in thirty does; common practice, no source */
const scatterLog = Math.log(30);
const scatterCost = (times: number): number => Math.min(scatterLog, 0.5 * (Math.log(times) / noisePriorSigma) ** 2);
/** A law must bend through its readings so much better than a stiff one with more scatter, in logarithms of the evidence, before its bends are believed. */
const bendLog = 5;

/** How well a dial's readings are explained by one law: as stated, odd ones paid for, and with more scatter. */
export interface OneLaw {
  readonly stated: number;
  readonly scattered: number;
  /** whether what is missed is to be told as scatter: it explains better than odd readings do, and not much worse than bends */
  readonly scatters: boolean;
}
/**
 * Weighs one law through the readings, as stated and with more scatter.
 *
 * @param j what is judged
 * @param unique places of the points that repeat no other
 * @param fitting places of those that fit it
 * @returns logarithms of the evidence, and which it is
 * @source Bayesian model comparison as in `evidenceOf`; rates on invented dials in docs/proof-fits.md
 */
export function oneLaw(j: Judged, unique: readonly number[], fitting: readonly number[]): OneLaw {
  const { assumed, conversion: c } = j;
  const [all, kept] = [pointsAt(j.points, unique), pointsAt(j.points, fitting)];
  const most = (of: readonly number[]): number => Math.max(...of);
  // a backlash far from what was expected is no scatter
  const backlashes = new Set(all.map((p) => p.approach)).size > 1 ? [1, 10] : [1];
  const log = (points: readonly DialPoint[], times: number, stiff: boolean): number =>
    most(
      backlashes.map(
        (b) =>
          evidenceOf(points, c, { ...assumed, readingNoise: times * assumed.readingNoise, backlashU: b * assumed.backlashU }, { stiff })
            ?.log ?? Number.NEGATIVE_INFINITY,
      ),
    ) - scatterCost(times);
  const cost = oddLog * (all.length - kept.length);
  const stated = most([log(all, 1, false), log(kept, 1, false) - cost]);

  const stiff = most(scatterTimes.map((t) => log(all, t, true)));
  const odd = cost > 0 ? log(kept, 1, false) - cost : Number.NEGATIVE_INFINITY;
  const scattered = most([stiff, ...scatterTimes.flatMap((t) => [log(all, t, false), log(kept, t, false) - cost])]);
  // few readings can be bent through, or called odd, whatever they are
  const scatters =
    all.length < fewReadings
      ? stiff > log(all, 1, true) - fewLog && stiff > odd - rivalLog
      : stiff > most([log(all, 1, true), odd, stated - bendLog]);
  return { stated, scattered, scatters };
}
/** With fewer readings than this a law that misses them is widened, whether it could bend through them or not. House rule, no source. */
export const fewReadings = 10;
/** So few hardly tell scatter from the luck of a good fit: they are widened already where it explains them nearly as well, in logarithms of the evidence. */
const fewLog = 1.5;
/** A rival must explain the readings so much better, in logarithms of the evidence, before it is believed: a thousand times. */
export const rivalLog = 7;
/** what an odd point costs: one in thirty is odd, and may then stand anywhere on a hundred divisions; common practice, no source */
export const oddLog = Math.log(30 * 100);
