import type { Learnt, ResolvedQuantity } from "../../ask/resolved";
import type { SupplyAtRest } from "../../physics/supply";
import { meterShareOf } from "../../standards/meters";
import { printValue } from "../../units/print";
import { standardUncertainty } from "../../units/quantity";
import type { SupplyInputs } from "./supply";
import { asMade, described, firstNode, lossTimes, solveChanged } from "./supply-law";

/**
 * B+ on the first filter capacitor of the set as it was made, at the chart's line.
 *
 * @param x plain inputs, SI
 * @param like a like supply solved before
 * @returns V, and the supply solved; undefined where it can't give this load
 * @source supply-law.ts
 */
export function asCharted(x: SupplyInputs, like?: SupplyAtRest): { readonly volts: number; readonly solved: SupplyAtRest } | undefined {
  const d = described(x, like);
  const [made, change] = asMade(x);
  const solved = d && solveChanged({ ...d, x: made }, { ...change, lineV: x.chartLine }, like ?? d.typed);
  if (!solved) return undefined;
  const law = solved.volts[firstNode(x)];
  return { volts: law * lossTimes(made, law, x.chartLine), solved };
}
/**
 * How far a sound set's own B+ may be from the chart's, one standard deviation: the chart's tolerance taken as even over its width, and its meter's class.
 *
 * @param x plain inputs
 * @returns V
 * @source JCGM 100:2008 4.3.7
 */
export const chartDoubtV = (x: Pick<SupplyInputs, "chartTolerance" | "chartMeter">, chartV: number): number =>
  chartV * (Math.hypot(x.chartTolerance, meterShareOf(x.chartMeter)) / Math.sqrt(3));

/** A chart this many of its own doubts and the model's from what the supply as described gives is of another supply: nothing is learnt from it. House rule. */
const farthest = 3;
/** An input is said to have been learnt where it makes this part of what the chart's volts may differ by. House rule. */
const leastPart = 0.15;
/** Read today, whatever a chart says. */
const ofToday: readonly string[] = ["lineVoltage", "highLine", "chartLine"];
const rounds = 3;

interface Free {
  readonly q: ResolvedQuantity;
  /** positive ones go by their logarithm */
  readonly log: boolean;
  readonly u: number;
}
/** The supply with inputs moved from what was said of them. */
const moved = (x: SupplyInputs, free: readonly Free[], p: ArrayLike<number>): SupplyInputs => ({
  ...x,
  ...Object.fromEntries(free.map(({ q, log }, i) => [q.path, movedBy(q, log, p[i])])),
});
const movedBy = (q: ResolvedQuantity, log: boolean, p: number): number => (log ? q.quantity.value * Math.exp(p) : q.quantity.value + p);
/** The chart's volts by the supply so moved, and their slope by each of its inputs. */
function charted(x: SupplyInputs, free: readonly Free[], p: readonly number[], like?: SupplyAtRest) {
  const here = asCharted(moved(x, free, p), like);
  if (!here) return undefined;
  const slopes = free.map(({ u }, i) => {
    const there = asCharted(
      moved(
        x,
        free,
        p.map((v, k) => (k === i ? v + 0.2 * u : v)),
      ),
      here.solved,
    );
    return there ? (there.volts - here.volts) / (0.2 * u) : 0;
  });
  return { ...here, slopes };
}

/**
 * The supply's uncertain inputs as the chart's B+ leaves them: each about as likely as it was said to be, and all together as likely as the chart's volts are.
 *
 * @param x plain inputs at their best, SI
 * @param quantities the same with their doubts
 * @returns values and covariance of those that the chart says something of; undefined where the chart gives no B+, or one that this supply can't give
 * @source conditional normal law at the likeliest point, which is sought by Gauss and Newton; Bayes' rule
 */
export function learntFromChart(x: SupplyInputs, quantities: readonly ResolvedQuantity[]): Learnt | undefined {
  const { chartFirst } = x;
  if (chartFirst === undefined) return undefined;
  const all = quantities.flatMap((q): Free[] => {
    const u = standardUncertainty(q.quantity.spread);
    // those of an estimate have their covariance already
    if (!(u > 0) || q.quantity.joint !== undefined || ofToday.includes(q.path) || !Object.hasOwn(x, q.path)) return [];
    const log = q.positive && q.quantity.value > 0;
    return [{ q, log, u: log ? u / q.quantity.value : u }];
  });
  const start = charted(
    x,
    all,
    all.map(() => 0),
  );
  if (!start) return undefined;
  const doubt = chartDoubtV(x, chartFirst);
  const parts = all.map(({ u }, i) => u * start.slopes[i]);
  const whole = Math.hypot(doubt, ...parts);
  if (Math.abs(chartFirst - start.volts) > farthest * whole) return undefined;
  const isTold = (i: number): boolean => Math.abs(parts[i]) >= leastPart * whole;
  const told = all.filter((_, i) => isTold(i));
  // what is not told of stands beside the chart's own doubt
  const noise = Math.hypot(doubt, ...parts.filter((_, i) => !isTold(i)));
  return told.length > 0 ? conditioned(x, told, noise, start.solved) : undefined;
}
/** What is told of, given the chart's volts. */
function conditioned(x: SupplyInputs, told: readonly Free[], noise: number, like: SupplyAtRest): Learnt | undefined {
  const chartFirst = x.chartFirst ?? 0;
  let p: readonly number[] = told.map(() => 0);
  let slopes: readonly number[] = [];
  let seen = 0;
  for (let round = 0; round < rounds; round++) {
    const here = charted(x, told, p, like);
    if (!here) return undefined;
    slopes = here.slopes;
    seen = noise ** 2 + told.reduce((s, { u }, i) => s + (u * slopes[i]) ** 2, 0);
    const off = chartFirst - here.volts + p.reduce((s, v, i) => s + slopes[i] * v, 0);
    p = told.map(({ u }, i) => (u ** 2 * slopes[i] * off) / seen);
  }
  const gain = told.map(({ u }, i) => u ** 2 * slopes[i]);
  return {
    from: `moved by the chart's B+, ${printValue(chartFirst, "voltage", 3)} at a line of ${printValue(x.chartLine, "voltage", 3)}`,
    estimate: {
      id: "the chart's B+",
      names: told.map(({ q }) => q.path),
      values: told.map(({ q, log }, i) => movedBy(q, log, p[i])),
      logarithmic: told.map(({ log }) => log),
      covariance: told.map(({ u }, i) => told.map((_, k) => (i === k ? u ** 2 : 0) - (gain[i] * gain[k]) / seen)),
      fromReadings: [],
      model: "b-plus by the service chart",
    },
  };
}
