import { type Node, nodes, readStage, type Stage } from "../../physics/tube-stage";
import { type Fault, faults } from "./faults";
import { type Likely, type NextTest, nextTests } from "./next-tests";
import type { Evidence, Readings, Tolerances } from "./reading-doubt";
import { type Profile, weigher } from "./weigh-faults";

export interface Ranked {
  readonly fault: Fault;
  readonly probability: number;
  /** its likeliest size, in words */
  readonly size: string;
  readonly sizeValue: number;
  /** what the meter would read at each node in that case */
  readonly predicted: Partial<Readonly<Record<Node, number>>>;
  /** whether it explains every reading within its doubt */
  readonly explains: boolean;
}
export interface Ranking {
  readonly causes: readonly Ranked[];
  /** the first cause, and those that the readings can't tell from it: what does harm if it is left before the rest */
  readonly ties: readonly Ranked[];
  readonly next: readonly NextTest[];
  /** every case that is likely enough to count, with its chance */
  readonly likely: Likely;
  /** how far the readings lie from what the first cause predicts, in standard deviations, the worst node */
  readonly worstMiss: number;
  readonly worstAt: Node | undefined;
  /** whether any single cause explains every reading within its doubt */
  readonly explained: boolean;
}

const oneInThousand = [10.83, 13.82, 16.27, 18.47, 20.52, 22.46, 24.32, 26.12, 27.88, 29.59] as const;
/**
 * Chi-square that one in a thousand exceeds.
 *
 * @param count degrees of freedom, 1 or more
 * @returns the bound
 * @source Abramowitz and Stegun table 26.8 to ten degrees; beyond them Wilson and Hilferty 1931, Proc. Natl. Acad. Sci. 17, 684
 */
export function chiSquareBound(count: number): number {
  const v = 2 / (9 * count);
  return oneInThousand[count - 1] ?? count * (1 - v + 3.0902 * Math.sqrt(v)) ** 3;
}
/** A cause explains as well as the best while its likelihood is not this far under it, in logarithms: 2.4 standard deviations, three where it does harm. */
const [tieDepth, harmfulDepth] = [3, 4.5] as const;
/** A cause with this chance that explains the readings is never left out of a tie. */
const neverLeftOut = 0.1;
/** A cause that does no better than a sound stage with its parts in tolerance says nothing by itself. */
const gainShare = 0.5;
/** Once in so many the readings, the parts or the law are off in a way that nothing here describes: they then say nothing. Less often with a test beside them. Common practice. */
const [saysNothing, besideTest] = [0.01, 0.001] as const;

/**
 * Ranks what the readings of a stage come of. Each fault is solved over all its sizes, with the meter at each node; what parts, tube and supply
 * of a sound stage may be off by is carried as a covariance, the meter's error on top.
 *
 * @param healthy the stage as it should be
 * @param evidence what was read
 * @param tolerances of a sound stage
 * @param priors other priors, by fault; 0 leaves one out
 * @returns causes by probability, the ties, and what to measure next, best first
 * @source Bayes' rule with Student's density of the linearised spread; expected information after Lindley 1956
 */
export const rankCauses = (
  healthy: Stage,
  evidence: Evidence,
  tolerances: Tolerances,
  priors: Readonly<Record<string, number>> = {},
): Ranking | undefined => ranker(healthy, evidence, tolerances, priors)(evidence.tests);

/**
 * The same for whoever makes one test after another: stages are settled once.
 *
 * @param healthy the stage as it should be
 * @param readings volts that were read
 * @param tolerances of a sound stage
 * @param priors other priors, by fault; 0 leaves one out
 * @returns a function of the results of the other tests, by id: causes by probability, the ties, and what to measure next
 * @source rankCauses
 */
export function ranker(
  healthy: Stage,
  readings: Readings,
  tolerances: Tolerances,
  priors: Readonly<Record<string, number>>,
): (made: Evidence["tests"]) => Ranking | undefined {
  const priorOf = (f: Fault): number => priors[f.id] ?? f.prior;
  const own = faults.filter((f) => priorOf(f) > 0 && (healthy.tube.kind !== "triode" || !f.id.startsWith("screen")));
  const weigh = weigher(healthy, readings, tolerances);
  return (made) => {
    const profiles = own.flatMap((f) => weigh(f, made) ?? []);
    return profiles.length === 0
      ? undefined
      : rankingOf(profiles, priorOf, { healthy, evidence: { ...readings, tests: made }, tolerances });
  };
}
interface Asked {
  readonly healthy: Stage;
  readonly evidence: Evidence;
  readonly tolerances: Tolerances;
}
function rankingOf(profiles: readonly Profile[], priorOf: (f: Fault) => number, { healthy, evidence, tolerances }: Asked): Ranking {
  const top = profiles.reduce((m, p) => Math.max(m, p.logMean), Number.NEGATIVE_INFINITY);
  const weightOf = (p: Profile): number => priorOf(p.fault) * Math.exp(p.logMean - top);
  const total = profiles.reduce((s, p) => s + weightOf(p), 0);
  const priorSum = profiles.reduce((s, p) => s + priorOf(p.fault), 0);
  const nothing = Object.keys(evidence.tests).length > 0 ? besideTest : saysNothing;
  const chanceOf = (p: Profile): number => ((1 - nothing) * weightOf(p)) / total + (nothing * priorOf(p.fault)) / priorSum;
  const bound = chiSquareBound(Math.max(1, profiles[0].best.count));
  const order = [...profiles].sort((a, b) => chanceOf(b) - chanceOf(a));
  const ranked = order.map(
    (p): Ranked => ({
      fault: p.fault,
      probability: chanceOf(p),
      size: p.fault.sizeSays(p.best.size, healthy),
      sizeValue: p.best.size,
      predicted: readStage(p.best.stage, evidence.meterOf, nodes, p.best.ideal) ?? {},
      explains: p.best.chiSquare <= bound,
    }),
  );
  const likely = order.flatMap((p) => {
    const own = weightOf(p) / total;
    return p.parts.map(({ c, part }) => ({ c, p: own * part })).filter((x) => x.p > 1e-3);
  });
  const keeps = (f: Fault): boolean => f.neverDropped?.(evidence.volts, healthy) ?? false;
  const tied = tiesOf(order, ranked, keeps);
  return {
    causes: ranked,
    ties: harmFirst(
      ranked.filter((_, i) => tied[i]),
      keeps,
    ),
    next: nextTests(likely, evidence, tolerances),
    likely,
    worstMiss: order[0].best.worst,
    worstAt: order[0].best.worstAt,
    explained: order[0].best.chiSquare <= bound,
  };
}

/** The first cause, then what the readings never let drop, then what does harm, then the rest, each likeliest first. */
function harmFirst([first, ...others]: readonly Ranked[], keeps: (f: Fault) => boolean): readonly Ranked[] {
  const place = ({ fault }: Ranked): number => (fault.harmful ? (keeps(fault) ? 0 : 1) : 2);
  return [first, ...others.sort((a, b) => place(a) - place(b))];
}

/** Which of the profiles, the likeliest first, the readings can't tell from the first one. */
function tiesOf(order: readonly Profile[], ranked: readonly Ranked[], keeps: (f: Fault) => boolean): boolean[] {
  const [first] = order;
  const best = order.reduce((m, p) => Math.max(m, p.best.logLikelihood), Number.NEGATIVE_INFINITY);
  const sound = order.find((p) => p.fault.id === "none-visible")?.best.logLikelihood ?? Number.NEGATIVE_INFINITY;
  return order.map((p, i) => {
    if (p === first) return true;
    // beside no visible fault stand those that look like it at most of their sizes
    if (first.fault.id === "none-visible") return p.logMean > first.logMean - Math.log(3);
    if (p.fault.id === "none-visible") return false;
    if (keeps(p.fault)) return true;
    if (ranked[i].explains && ranked[i].probability > neverLeftOut) return true;
    if (p.best.logLikelihood - sound < gainShare * (best - sound)) return false;
    return p.best.logLikelihood > best - (p.fault.harmful ? harmfulDepth : tieDepth);
  });
}
