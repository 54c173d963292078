import type { Conversion } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import type { Issue } from "../../units/issue";
import { evidenceOf } from "./evidence";
import { noisePriorSigma } from "./fit";
import { type DialAssumed, enoughPoints } from "./frame";

/** The points at these places. */
export const at = (points: readonly DialPoint[], which: readonly number[]): DialPoint[] => which.map((i) => points[i]);
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
 * @param all points
 * @param kept those that fit it
 * @param c conversion of the band
 * @param assumed noise and backlash to expect
 * @returns logarithms of the evidence, and which it is
 * @source Bayesian model comparison as in `evidenceOf`; rates on invented dials in docs/proof-fits.md
 */
export function oneLaw(all: readonly DialPoint[], kept: readonly DialPoint[], c: Conversion, assumed: DialAssumed): OneLaw {
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
const rivalLog = 7;
/** what an odd point costs: one in thirty is odd, and may then stand anywhere on a hundred divisions; common practice, no source */
const oddLog = Math.log(30 * 100);

/**
 * Whether the points are better explained by markers miscounted from one of them on, or by a scale that slipped. Either leaves a law that looks
 * well and is wrong by a marker's spacing, so nothing is answered until it is mended.
 *
 * @param points zero beats in the order in which they were taken
 * @param all places of the points that are told apart
 * @param kept places of those that fit one law
 * @param law how well one law explains them
 * @param c conversion of the band
 * @param assumed noise and backlash to expect
 * @param spacingHz spacing of the markers, Hz
 * @returns the issue; undefined where one law does
 * @source Bayesian model comparison as in `evidenceOf`; rates on invented dials in docs/proof-fits.md
 */
export function rivalOf(
  points: readonly DialPoint[],
  all: readonly number[],
  kept: readonly number[],
  law: OneLaw,
  c: Conversion,
  assumed: DialAssumed,
  spacingHz: number,
): Issue | undefined {
  const cost = oddLog * (all.length - kept.length);
  const base = law.stated;
  if (!Number.isFinite(base) || all.length < enoughPoints + 1) return undefined;
  let best: { readonly log: number; readonly issue: Issue } | undefined;
  let alsoCounted = false;
  const consider = (log: number, issue: () => Issue): void => {
    if (log > base + rivalLog && log > (best?.log ?? Number.NEGATIVE_INFINITY)) best = { log, issue: issue() };
  };
  // a slip may make points look odd, and an odd point may hide a slip: each is sought with all, with those that fit, and where all seem to scatter
  // without each that may be the odd one
  const fewer = kept.length < all.length ? [[kept, cost] as const] : law.scatters ? withoutOne(points, all) : [];
  for (const [which, paid] of [[all, 0] as const, ...fewer]) {
    const own = at(points, which);
    const stride = own.length > 60 ? 2 : 1;
    const byFrequency = own.map((_, i) => i).sort((a, b) => own[a].frequencyHz - own[b].frequencyHz);
    const row = (i: number): number => which[i] + 1;
    for (let k = 2; k <= own.length - 2; k += stride) {
      for (const steps of [-1, 1]) {
        const moved = new Set(byFrequency.slice(k));
        const relabelled = own.map((p, i) => (moved.has(i) ? { ...p, frequencyHz: p.frequencyHz + steps * spacingHz } : p));
        if (steps < 0 && relabelled[byFrequency[k]].frequencyHz <= relabelled[byFrequency[k - 1]].frequencyHz) continue;
        const e = evidenceOf(relabelled, c, assumed);
        if (!e) continue;
        alsoCounted ||= e.log - paid > base + rivalLog;
        const [below, above] = [byFrequency[k - 1], byFrequency[k]];
        consider(e.log - paid, () => ({
          path: `points rows ${row(below)} and ${row(above)}`,
          code: "miscounted",
          read: `${(own[below].frequencyHz / 1e6).toFixed(3)} and ${(own[above].frequencyHz / 1e6).toFixed(3)} MHz`,
          expected: `markers counted right: between these two a marker was ${steps > 0 ? "missed" : "counted twice"}, so all above or all below are one marker off. Tell one of them from a station or a coarser marker, and write the others anew`,
        }));
      }
      const slip = evidenceOf(own, c, assumed, { slippedFrom: k });
      if (slip)
        consider(slip.log - paid, () => ({
          path: `points row ${row(k)}`,
          code: "slipped",
          read: String(own[k].reading),
          expected: `one scale throughout: from this row on it reads ${Math.abs(slip.slipDiv).toFixed(1)} divisions ${slip.slipDiv > 0 ? "higher" : "lower"} than before. The pointer or cord slipped, or the main dial was moved; set it back or take the earlier ones again, under a set-point of their own`,
        }));
    }
  }
  if (!best || best.log < law.scattered) return undefined;
  const { issue } = best;
  // on a coarse scale a marker's spacing is a division or two, and both look alike; and few readings that scatter look like either
  const counted = issue.code === "slipped" && alsoCounted;
  const scattered = best.log < law.scattered + rivalLog;
  return {
    ...issue,
    code: `${issue.code}${counted ? "-or-miscounted" : ""}${scattered ? "-or-scattered" : ""}`,
    expected: [
      issue.expected,
      ...(counted ? ["Or a marker was missed or counted twice about there: tell one from a station first"] : []),
      ...(scattered
        ? [
            "Or the readings scatter by far more than was stated: these are too few to tell. Read some of them again, and the same one several times",
          ]
        : []),
    ].join(". "),
  };
}

/** Up to so many points each may be the odd one; of more only those whose marker stands at two readings. Keeps the search short. */
const mostLeftOut = 16;
const withoutOne = (points: readonly DialPoint[], all: readonly number[]): (readonly [number[], number])[] =>
  all
    .filter((i) => all.length <= mostLeftOut || all.some((j) => j !== i && points[j].frequencyHz === points[i].frequencyHz))
    .map((i) => [all.filter((j) => j !== i), oddLog] as const);
