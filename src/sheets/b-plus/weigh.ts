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

/**
 * The causes weighed against a measured B+: chance beforehand times how well each, over all its sizes, gives the reading.
 *
 * @param all causes of this supply
 * @param seen measured on the first filter capacitor, V; 0 is a reading
 * @param expected by the supply as described, V
 * @param uShare standard uncertainty of what the supply is known to, as a share of the volts
 * @returns causes, the likeliest first; `something-else` among them
 * @source Bayes' rule; normal error of 1 % and at least 4 V (1 % of a usual range: common practice, no source)
 */
export function weighCauses(all: readonly Hypothesis[], seen: number, expected: number, uShare: number): readonly Cause[] {
  const u = (v: number): number => Math.hypot(uShare * v, 0.01 * v, 4);
  const weighed = all.map((h) => {
    const each = h.stretches.map((s) => s.weight * densityOver(seen, s, u));
    const sum = each.reduce((a, b) => a + b, 0);
    const best = h.stretches[each.indexOf(Math.max(...each))];
    return { h, sum, best };
  });
  const other = otherWeight / (2 * expected);
  const total = weighed.reduce((a, w) => a + w.sum, other);
  return [
    ...weighed.flatMap(({ h, sum, best }) =>
      best
        ? [
            {
              id: h.id,
              says: h.says(best.size),
              harmful: h.harmful,
              chance: sum / total,
              ampere: best.solved.plateMeanA * h.paths,
              rippleV: best.solved.ripplePp[0],
            },
          ]
        : [],
    ),
    {
      id: "something-else",
      says: "none of the usual single causes",
      harmful: false,
      chance: other / total,
      ampere: Number.NaN,
      rippleV: Number.NaN,
    },
  ].sort((a, b) => b.chance - a.chance);
}

/** Causes worth naming: one in twenty and more; one that goes on doing damage, at one in a hundred already. */
export const namedOf = (causes: readonly Cause[]): readonly Cause[] => causes.filter((c) => c.chance >= (c.harmful ? 0.01 : 0.05));
