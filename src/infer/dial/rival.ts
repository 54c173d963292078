import type { Conversion } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import type { Issue } from "../../units/issue";
import { evidenceOf } from "./evidence";
import { type DialAssumed, enoughPoints } from "./frame";

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

/**
 * How well one law with this reading noise explains some of the points.
 *
 * @param j what is judged
 * @param which places of the points
 * @param noise standard deviation of a reading, divisions
 * @returns logarithm of the evidence; minus infinity where no law goes through them
 * @source evidenceOf
 */
export const explained = (j: Judged, which: readonly number[], noise: number): number =>
  evidenceOf(pointsAt(j.points, which), j.conversion, { ...j.assumed, readingNoise: noise })?.log ?? Number.NEGATIVE_INFINITY;

/** A rival must explain the readings so much better, in logarithms of the evidence, before it is believed: a thousand times. */
const rivalLog = 7;
/** what an odd point costs: one in thirty is odd, and may then stand anywhere on a hundred divisions; common practice, no source */
export const oddLog = Math.log(30 * 100);

/** Another account of the readings: how well it explains them, and what it means. */
interface Rival {
  readonly log: number;
  readonly counted: boolean;
  readonly issue: () => Issue;
}

/**
 * Whether the points are better explained by markers miscounted from one of them on, or by a scale that slipped. Either leaves a law that looks
 * well and is wrong by a marker's spacing, so nothing is answered until it is mended.
 *
 * @param j what is judged
 * @param all places of the points that repeat no other
 * @param kept places of those that fit one law
 * @param scatter reading noise that the fit found, divisions
 * @returns the likelier account, located; undefined where one law explains them as well
 * @source Bayesian model comparison, Rasmussen and Williams (2006) 5.4; what is believed is a house rule
 */
export function rivalOf(j: Judged, all: readonly number[], kept: readonly number[], scatter: number): Issue | undefined {
  const stated = j.assumed.readingNoise;
  const cost = oddLog * (all.length - kept.length);
  // what the rivals must beat: one law through all, or one through those that fit with each odd one paid for;
  // one law read with more noise than was stated is a rival of the rivals
  const noises = [stated, ...(scatter > 1.5 * stated ? [scatter, 1.5 * scatter] : [])];
  const base = Math.max(...noises.map((n) => Math.max(explained(j, all, n), explained(j, kept, n) - cost)));
  if (!Number.isFinite(base) || all.length < enoughPoints + 1) return undefined;
  // a slip may make points look odd, and an odd point may hide a slip: each is sought with all, and with those that fit
  const sought = [[all, 0] as const, ...(kept.length < all.length ? [[kept, cost] as const] : [])];
  const believed = sought.flatMap(([which, paid]) =>
    rivals(j, which)
      .filter((r) => r.log - paid > base + rivalLog)
      .map((r) => ({ ...r, log: r.log - paid })),
  );
  if (believed.length === 0) return undefined;
  const best = believed.reduce((a, b) => (b.log > a.log ? b : a));
  const issue = best.issue();
  // on a coarse scale a marker's spacing is a division or two, and both look alike
  return !best.counted && believed.some((r) => r.counted)
    ? {
        ...issue,
        code: "slipped-or-miscounted",
        expected: `${issue.expected}. Or a marker was missed or counted twice about there: tell one from a station first`,
      }
    : issue;
}

/** Every place from which on markers may be miscounted, or the scale have slipped. */
function rivals(j: Judged, which: readonly number[]): Rival[] {
  const own = pointsAt(j.points, which);
  const stride = own.length > 60 ? 2 : 1;
  const byFrequency = own.map((_, i) => i).sort((a, b) => own[a].frequencyHz - own[b].frequencyHz);
  const out: (Rival | undefined)[] = [];
  for (let k = 2; k <= own.length - 2; k += stride) {
    for (const steps of [-1, 1] as const) out.push(miscounted(j, own, which, { byFrequency, k, steps }));
    out.push(slipped(j, own, which, k));
  }
  return out.flatMap((r) => r ?? []);
}
interface Moved {
  readonly byFrequency: readonly number[];
  /** the first of those that moved, by frequency */
  readonly k: number;
  readonly steps: -1 | 1;
}
function miscounted(j: Judged, own: readonly DialPoint[], which: readonly number[], { byFrequency, k, steps }: Moved): Rival | undefined {
  const moved = new Set(byFrequency.slice(k));
  const relabelled = own.map((p, i) => (moved.has(i) ? { ...p, frequencyHz: p.frequencyHz + steps * j.spacingHz } : p));
  const [below, above] = [byFrequency[k - 1], byFrequency[k]];
  if (steps < 0 && relabelled[above].frequencyHz <= relabelled[below].frequencyHz) return undefined;
  const e = evidenceOf(relabelled, j.conversion, j.assumed);
  return (
    e && {
      log: e.log,
      counted: true,
      issue: () => ({
        path: `points rows ${which[below] + 1} and ${which[above] + 1}`,
        code: "miscounted",
        read: `${(own[below].frequencyHz / 1e6).toFixed(3)} and ${(own[above].frequencyHz / 1e6).toFixed(3)} MHz`,
        expected: `markers counted right: between these two a marker was ${steps > 0 ? "missed" : "counted twice"}, so all above or all below are one marker off. Tell one of them from a station or a coarser marker, and write the others anew`,
      }),
    }
  );
}
function slipped(j: Judged, own: readonly DialPoint[], which: readonly number[], k: number): Rival | undefined {
  const e = evidenceOf(own, j.conversion, j.assumed, k);
  return (
    e && {
      log: e.log,
      counted: false,
      issue: () => ({
        path: `points row ${which[k] + 1}`,
        code: "slipped",
        read: String(own[k].reading),
        expected: `one scale throughout: from this row on it reads ${Math.abs(e.slipDiv).toFixed(1)} divisions ${e.slipDiv > 0 ? "higher" : "lower"} than before. The pointer or cord slipped, or the main dial was moved; set it back or take the earlier ones again, under a set-point of their own`,
      }),
    }
  );
}
