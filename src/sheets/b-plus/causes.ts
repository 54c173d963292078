import type { SupplyAtRest } from "../../physics/supply";
import { type Change, type Described, firstNode, solveChanged } from "../inputs/supply-law";
import { restoringOhm, sizeThatGives } from "./solve";

/** A stretch of sizes of one cause over which its volts run from one value to another. */
export interface Stretch {
  readonly weight: number;
  readonly fromV: number;
  readonly toV: number;
  readonly size: number;
  readonly solved: SupplyAtRest;
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
/** Steps from the least size to the largest, and in a rough answer. */
const evenly = 30;
const evenlyRough = 15;
const one = { from: 1, to: 1 };

/** Causes of what is drawn: named first, since two of them go on doing damage while the set is on. */
const byLoad: readonly Sized[] = [
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
    id: "light-load",
    weight: 0.06,
    change: (s) => ({ loadTimes: s }),
    says: (s) => `a light load, ${span(100 * s)} % of what is described: a dead output tube, an open feed`,
    from: 0.9,
    to: 0.02,
  },
];
/** A bleeder that draws less than this part of the load is not told by its loss. House rule. */
const leastBleed = 0.03;
/** Causes between the first capacitor and what is fed: a bleeder, a choke or resistor that is open. */
function behind({ x, typed }: Described): readonly Sized[] {
  const bled = (typed.volts[2] ?? 0) / x.bleeder;
  const bleeder = { id: "bleeder-open", weight: 0.04, change: () => ({ bleederOpen: true }), says: () => "an open bleeder", ...one };
  const choke: Sized = {
    id: "choke-open",
    weight: 0.03,
    change: (s) => ({ chokeTimes: s }),
    says: () => "the first choke or filter resistor open, or nearly: nothing behind it gets any B+",
    from: 300,
    to: 3000,
  };
  return [...(bled > leastBleed * (x.plateCurrent + x.restCurrent) ? [bleeder] : []), ...(x.filterInput === "capacitor" ? [choke] : [])];
}
/** Causes of what comes in: the line, or nothing at all. */
const byLine = (lineV: number, heatersRead: boolean): readonly Sized[] => [
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

/** Causes at a vacuum rectifier: weak, or no longer there. */
function byRectifier(d: Described): readonly Sized[] {
  if (d.x.rectifierType === "silicon") return [];
  const silicon = { id: "silicon", says: () => "silicon in place of the rectifier tube" };
  const restoring = restoringOhm(d);
  return [
    {
      id: "weak-rectifier",
      weight: 0.1,
      change: (s) => ({ perveanceTimes: s }),
      says: (s) => `a weak rectifier tube, ${left(s)} of its emission left`,
      from: 0.85,
      to: 1e-4,
    },
    { ...silicon, weight: 0.03, change: () => ({ silicon: true }), ...one },
    ...(restoring > 2
      ? [{ ...silicon, weight: 0.02, change: (s: number) => ({ silicon: true, addedOhm: s }), from: 1, to: restoring }]
      : []),
  ];
}

/** Causes of a capacitor-input filter and its winding. */
function byFilter({ x }: Described): readonly Sized[] {
  if (x.filterInput !== "capacitor") return [];
  const lost: Sized = {
    id: "first-capacitor",
    weight: 0.1,
    change: (s) => ({ firstTimes: s }),
    says: (s) => `a first filter capacitor that has lost its value, ${left(s)} left`,
    from: 0.8,
    to: 2e-3,
  };
  const half: Sized = {
    id: "one-half",
    weight: 0.03,
    change: () => ({ oneHalf: true }),
    says: () => "one half of the winding or one plate dead",
    ...one,
  };
  return x.arrangement === "half-wave" ? [lost] : [lost, half];
}

/** Every cause that this supply can have, with its sizes. */
const causesOf = (d: Described, lineV: number, heatersRead: boolean): readonly Sized[] => [
  { id: "as-described", weight: 0.35, change: () => ({}), says: () => "nothing wrong: the supply as described", ...one },
  ...byLoad,
  ...behind(d),
  ...byFilter(d),
  ...byLine(lineV, heatersRead),
  ...byRectifier(d),
];

/**
 * Every cause of a B+ that is off, with the volts that each of its sizes gives.
 *
 * @param d the supply with its loads
 * @param lineV line, V, as the outlet or the heaters have it
 * @param heatersRead whether the heaters say so too
 * @param rough in coarse steps, half of the work
 * @returns causes, to be weighed against any reading
 * @source the supply's own equations; how common each is: common practice, no source
 */
export function hypothesesOf(d: Described, lineV: number, heatersRead: boolean, rough = false): readonly Hypothesis[] {
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
    const count = c.from === c.to ? 0 : rough ? evenlyRough : evenly;
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

/**
 * The line that would by itself give a reading, V; undefined where none would.
 *
 * @source bisection on the solved supply
 */
export function lineThatGives(d: Described, seen: number): number | undefined {
  const volts = (lineV: number): number => solveChanged(d, { lineV })?.volts[firstNode(d.x)] ?? Number.NaN;
  return sizeThatGives(volts, seen, 0.4 * d.x.ratedLine, 1.7 * d.x.ratedLine);
}
