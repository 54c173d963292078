import type { Hypothesis, Stretch } from "./causes";

/** One way in which a measured B+ could have come about. */
export interface Cause {
  readonly id: string;
  /** in a person's words, with its likeliest size */
  readonly says: string;
  /** whether going on with the set on does damage while it is so */
  readonly harmful: boolean;
  /** chance after the reading, 0 to 1: all causes compete, with something else among them */
  readonly chance: number;
  /** current into the filter and ripple on the first capacitor at its likeliest size: what tells causes apart, A and V */
  readonly ampere: number;
  readonly rippleV: number;
}
/** Standard normal distribution function. Source: Abramowitz and Stegun 7.1.26, from memory; good to 1e-7. */
function phi(z: number): number {
  const t = 1 / (1 + 0.3275911 * (Math.abs(z) / Math.SQRT2));
  const erf = 1 - ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t * Math.exp((-z * z) / 2);
  return z >= 0 ? (1 + erf) / 2 : (1 - erf) / 2;
}
/** Density of a reading where the true volts are anywhere between two values. */
function densityOver(seen: number, { fromV, toV }: Stretch, u: (v: number) => number): number {
  const sigma = u((fromV + toV) / 2);
  const [a, b] = [(fromV - seen) / sigma, (toV - seen) / sigma];
  return Math.abs(b - a) < 0.05
    ? Math.exp(-0.5 * ((a + b) / 2) ** 2) / (sigma * Math.sqrt(2 * Math.PI))
    : (phi(b) - phi(a)) / ((b - a) * sigma);
}
/** Chance beforehand of something that is not in the list, spread over every reading that a meter could show. */
const otherWeight = 0.01;

/** One size of one cause with its chance after all that was read. */
export interface Case {
  readonly h: Hypothesis;
  readonly s: Stretch;
  readonly p: number;
}
/** What a supply's causes are weighed against. */
export interface ReadAtSupply {
  /** on the first filter capacitor, V; 0 is a reading */
  readonly seen: number;
  /** by the supply as described, V */
  readonly expected: number;
  /** standard uncertainty of what the supply is known to, as a share of the volts */
  readonly uShare: number;
  /** how well a size of a cause foretells the tests that were made; 1 where none was */
  readonly tests?: (cause: string, s: Stretch) => number;
}
/**
 * Every size of every cause with its chance: chance beforehand times how well it gives the readings.
 *
 * @param all causes of this supply
 * @param read B+ and the tests that were made
 * @returns chances that add up to one with that of something else
 * @source Bayes' rule; normal error of 1 % and at least 4 V (1 % of a usual range: common practice, no source)
 */
export function weighCases(all: readonly Hypothesis[], read: ReadAtSupply): { readonly cases: readonly Case[]; readonly other: number } {
  const u = (v: number): number => Math.hypot(read.uShare * v, 0.01 * v, 4);
  const cases = all.flatMap((h) =>
    h.stretches.map((s): Case => ({ h, s, p: s.weight * densityOver(read.seen, s, u) * (read.tests?.(h.id, s) ?? 1) })),
  );
  const other = otherWeight / (2 * read.expected);
  const total = cases.reduce((a, c) => a + c.p, other);
  return { cases: cases.map((c) => ({ ...c, p: c.p / total })), other: other / total };
}
/**
 * The causes weighed against what was read.
 *
 * @param all causes of this supply
 * @param read B+ and the tests that were made
 * @returns causes, the likeliest first; `something-else` among them
 * @source weighCases
 */
export function weighCauses(all: readonly Hypothesis[], read: ReadAtSupply): readonly Cause[] {
  const { cases, other } = weighCases(all, read);
  return [
    ...all.flatMap((h): Cause[] => {
      const own = cases.filter((c) => c.h === h);
      const [best] = [...own].sort((a, b) => b.p - a.p);
      if (!best) return [];
      const { solved, size } = best.s;
      return [
        {
          id: h.id,
          says: h.says(size),
          harmful: h.harmful,
          chance: own.reduce((sum, c) => sum + c.p, 0),
          ampere: solved.plateMeanA * h.paths,
          rippleV: solved.ripplePp[0],
        },
      ];
    }),
    {
      id: "something-else",
      says: "none of the usual single causes",
      harmful: false,
      chance: other,
      ampere: Number.NaN,
      rippleV: Number.NaN,
    },
  ].sort((a, b) => b.chance - a.chance);
}

/** Causes worth naming: one in twenty and more; one that goes on doing damage, at one in a hundred already. */
export const namedOf = (causes: readonly Cause[]): readonly Cause[] => causes.filter((c) => c.chance >= (c.harmful ? 0.01 : 0.05));
