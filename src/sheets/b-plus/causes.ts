import type { SupplySolved } from "../../physics/supply-ladder";
import { type Change, type Described, firstNode, solveChanged } from "../supply-law";
import { restoringOhm, sizeThatGives } from "./solve";

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
/** A stretch of sizes of one cause over which its volts run from one value to another. */
interface Stretch {
  readonly weight: number;
  readonly fromV: number;
  readonly toV: number;
  readonly size: number;
  readonly solved: SupplySolved;
}
export interface Hypothesis {
  readonly id: string;
  readonly harmful: boolean;
  readonly says: (size: number) => string;
  readonly stretches: readonly Stretch[];
  readonly paths: number;
}

const span = (size: number): string => (size >= 10 ? size.toFixed(0) : size.toPrecision(2));
/** What is left of something, in percent. */
const left = (share: number): string => (share < 0.01 ? "next to nothing" : `${span(100 * share)} %`);
const ohms = (siemens: number): string => {
  const r = 1 / siemens;
  return r < 10 ? "near nothing" : r < 1000 ? `about ${Number(r.toPrecision(1))} Ω` : `about ${Number((r / 1000).toPrecision(1))} kΩ`;
};

interface Sized {
  readonly id: string;
  readonly harmful?: boolean;
  /** chance beforehand. Common practice, no source */
  readonly weight: number;
  readonly change: (size: number) => Change;
  readonly says: (size: number) => string;
  /** sizes, evenly likely in their logarithm; alike where there is but one */
  readonly from: number;
  readonly to: number;
  /** how likely a size is beside the others, where not evenly */
  readonly likely?: (size: number) => number;
}
const evenly = 30;

/** Every cause that this supply can have, with its sizes. */
function causesOf(d: Described, lineV: number, heatersRead: boolean): Sized[] {
  const { x } = d;
  const vacuum = x.rectifierType !== "silicon";
  const one = { from: 1, to: 1 };
  const out: Sized[] = [
    { id: "as-described", weight: 0.35, change: () => ({}), says: () => "nothing: the supply as described", ...one },
    {
      id: "leaky-filter",
      harmful: true,
      weight: 0.14,
      change: (s) => ({ leakSiemens: s }),
      says: (s) => `a shorted or leaky filter capacitor (${ohms(s)} to the chassis)`,
      from: 1e-5,
      to: 0.5,
    },
    {
      id: "heavy-load",
      harmful: true,
      weight: 0.12,
      change: (s) => ({ loadTimes: s }),
      says: (s) => `a heavy load, ${span(s)} times what is described: a tube that draws too much, a leak or short behind the filter`,
      from: 1.1,
      to: 60,
    },
    {
      id: "first-capacitor",
      weight: 0.1,
      change: (s) => ({ firstTimes: s }),
      says: (s) => `a first filter capacitor that has lost its value, ${left(s)} left`,
      from: 0.8,
      to: 2e-3,
    },
    {
      id: "light-load",
      weight: 0.06,
      change: (s) => ({ loadTimes: s }),
      says: (s) => `a light load, ${span(100 * s)} % of what is described: a dead output tube, an open bleeder`,
      from: 0.9,
      to: 0.02,
    },
    {
      id: "line",
      weight: 0.05,
      change: (s) => ({ lineV: s * lineV }),
      says: (s) => `a line of ${(s * lineV).toFixed(0)} V, or a wrong tap`,
      from: 0.75,
      to: 1.3,
      // the outlet or the heaters were read; what is left is how well
      likely: (s) => Math.exp(-0.5 * (Math.log(s) / (heatersRead ? 0.02 : 0.05)) ** 2),
    },
    // a dead rectifier and an open winding give nothing at all
    {
      id: "no-supply",
      weight: 0.02,
      change: () => ({ perveanceTimes: 1e-9, lineV: 1e-3 * lineV }),
      says: () => "nothing reaches the filter: a dead rectifier, an open winding or fuse",
      ...one,
    },
  ];
  if (vacuum)
    out.push({
      id: "weak-rectifier",
      weight: 0.1,
      change: (s) => ({ perveanceTimes: s }),
      says: (s) => `a weak rectifier tube, ${left(s)} of its emission left`,
      from: 0.85,
      to: 1e-4,
    });
  const restoring = vacuum ? restoringOhm(d) : 0;
  if (vacuum) {
    const silicon = { id: "silicon", says: () => "silicon in place of the rectifier tube" };
    out.push({ ...silicon, weight: 0.03, change: () => ({ silicon: true }), ...one });
    if (restoring > 2) out.push({ ...silicon, weight: 0.02, change: (s) => ({ silicon: true, addedOhm: s }), from: 1, to: restoring });
  }
  if (x.arrangement !== "half-wave" && x.filterInput === "capacitor")
    out.push({
      id: "one-half",
      weight: 0.03,
      change: () => ({ oneHalf: true }),
      says: () => "one half of the winding or one plate dead",
      ...one,
    });
  return x.filterInput === "capacitor" ? out : out.filter((c) => c.id !== "first-capacitor");
}

/**
 * Every cause of a B+ that is off, with the volts that each of its sizes gives.
 *
 * @param d the supply with its loads
 * @param lineV line, V, as the outlet or the heaters have it
 * @param heatersRead whether the heaters say so too
 * @returns causes, to be weighed against any reading
 * @source the supply's own equations; how common each is: common practice, no source
 */
export function hypothesesOf(d: Described, lineV: number, heatersRead: boolean): readonly Hypothesis[] {
  const node = firstNode(d.x);
  const base = solveChanged(d, { lineV });
  const yielding: Described = {
    ...d,
    loads: [
      { ...d.loads[0], exponent: 1 },
      { ...d.loads[1], exponent: 1 },
    ],
  };
  const out = new Map<string, Hypothesis>();
  for (const c of causesOf(d, lineV, heatersRead)) {
    const count = c.from === c.to ? 0 : evenly;
    const sizes = Array.from({ length: count + 1 }, (_, i) => c.from * (c.to / c.from) ** (count === 0 ? 0 : i / count));
    let like = base;
    const solved = sizes.map((s) => {
      // currents that do not answer the volts have no answer deep down: there they fall as in a resistor
      const r = solveChanged(d, { lineV, ...c.change(s) }, like) ?? solveChanged(yielding, { lineV, ...c.change(s) }, like);
      like = r ?? like;
      return r;
    });
    const likely = sizes.map((s) => c.likely?.(s) ?? 1);
    const stretches: Stretch[] = [];
    for (let i = 0; i < Math.max(1, count); i++) {
      const [a, b] = [solved[i], solved[Math.min(i + 1, count)]];
      if (!a || !b) continue;
      const weight = (likely[i] + likely[Math.min(i + 1, count)]) / 2;
      stretches.push({
        weight,
        fromV: a.volts[node],
        toV: b.volts[node],
        size: Math.sqrt(sizes[i] * sizes[Math.min(i + 1, count)]),
        solved: a,
      });
    }
    const whole = stretches.reduce((sum, s) => sum + s.weight, 0);
    const paths = d.x.arrangement === "half-wave" || c.id === "one-half" ? 1 : 2;
    const weighed = stretches.map((s) => ({ ...s, weight: (c.weight * s.weight) / whole }));
    const before = out.get(c.id);
    out.set(c.id, {
      id: c.id,
      harmful: c.harmful ?? false,
      says: c.says,
      paths,
      stretches: [...(before?.stretches ?? []), ...weighed],
    });
  }
  return [...out.values()];
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

/** The line that would by itself give a reading, V; undefined where none would. */
export function lineThatGives(d: Described, seen: number): number | undefined {
  const volts = (lineV: number): number => solveChanged(d, { lineV })?.volts[firstNode(d.x)] ?? Number.NaN;
  return sizeThatGives(volts, seen, 0.4 * d.x.ratedLine, 1.7 * d.x.ratedLine);
}
