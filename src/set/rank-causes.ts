import { type Node, nodes, readStage, type Stage, solveStage } from "../physics/tube-stage";

/** What a stage's readings may come of. `size` is how bad it is, in the words of the fault. */
export interface Fault {
  readonly id: string;
  /** what it is called, for a person */
  readonly says: string;
  /** how often, against the others, when a set has stood for decades; common practice, no source, and it may be changed */
  readonly prior: number;
  readonly sizes: readonly number[];
  readonly apply: (s: Stage, size: number) => Stage;
  /** what to measure with the power off, or with a wire lifted, is worked out from the stage so changed */
  readonly sizeSays: (size: number, s: Stage) => string;
}

const spread = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from * (to / from) ** (i / Math.max(1, count - 1)));
const ohms = (v: number): string =>
  v >= 1e6
    ? `${Number((v / 1e6).toPrecision(2))} MΩ`
    : v >= 1e3
      ? `${Number((v / 1e3).toPrecision(2))} kΩ`
      : `${Number(v.toPrecision(2))} Ω`;
const times = (k: number): string => `about ${Number(k.toPrecision(2))} times its value`;
const isOpen = 1e9;

/** The faults of a tube stage that show, or fail to show, in its DC. */
export const faults: readonly Fault[] = [
  { id: "none-visible", says: "no fault visible in these readings", prior: 3, sizes: [1], apply: (s) => s, sizeSays: () => "" },
  {
    id: "cathode-resistor-high",
    says: "cathode resistor drifted up",
    prior: 1,
    sizes: spread(1.25, 4, 8),
    apply: (s, k) => ({ ...s, cathodeOhm: s.cathodeOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.cathodeOhm * k)}`,
  },
  {
    id: "cathode-open",
    says: "cathode resistor or its wiring open",
    prior: 0.4,
    sizes: [isOpen],
    apply: (s) => ({ ...s, cathodeOhm: s.cathodeOhm * isOpen }),
    sizeSays: () => "open",
  },
  {
    id: "screen-resistor-high",
    says: "screen resistor drifted up",
    prior: 1.5,
    sizes: spread(1.25, 4, 8),
    apply: (s, k) => ({ ...s, screenOhm: s.screenOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.screenOhm * k)}`,
  },
  {
    id: "screen-resistor-open",
    says: "screen resistor open",
    prior: 0.5,
    sizes: [isOpen],
    apply: (s) => ({ ...s, screenOhm: s.screenOhm * isOpen }),
    sizeSays: () => "open",
  },
  {
    id: "plate-feed-high",
    says: "plate resistor or feed drifted up",
    prior: 1,
    sizes: spread(1.3, 20, 9),
    apply: (s, k) => ({ ...s, plateOhm: s.plateOhm * k }),
    sizeSays: (k, s) => `${times(k)}, ${ohms(s.plateOhm * k)}`,
  },
  {
    id: "plate-open",
    says: "plate feed open: resistor, or the winding of the transformer at the plate",
    prior: 0.6,
    sizes: [isOpen],
    apply: (s) => ({ ...s, plateOhm: s.plateOhm * isOpen }),
    sizeSays: () => "open",
  },
  {
    id: "screen-bypass-leaky",
    says: "screen bypass capacitor leaky",
    prior: 2,
    sizes: spread(1e4, 1e6, 9),
    apply: (s, r) => ({ ...s, screenLeak: s.screenLeak + 1 / r }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "screen-bypass-shorted",
    says: "screen bypass capacitor shorted",
    prior: 0.5,
    sizes: [5],
    apply: (s, r) => ({ ...s, screenLeak: s.screenLeak + 1 / r }),
    sizeSays: () => "a dead short: the screen resistor carries the whole supply and burns",
  },
  {
    id: "cathode-bypass-shorted",
    says: "cathode bypass capacitor shorted, or the cathode grounded",
    prior: 0.6,
    sizes: [1],
    apply: (s, r) => ({ ...s, cathodeLeak: s.cathodeLeak + 1 / r }),
    sizeSays: () => "a short",
  },
  {
    id: "weak-tube",
    says: "tube worn",
    prior: 2,
    sizes: spread(0.25, 0.8, 8),
    apply: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }),
    sizeSays: (k) => `about ${Math.round(100 * k)} % of its emission`,
  },
  {
    id: "dead-tube",
    says: "tube dead, its heater open, or it is not in contact",
    prior: 0.6,
    sizes: [1e-4],
    apply: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }),
    sizeSays: () => "no current at all",
  },
  {
    id: "coupling-leaky",
    says: "coupling capacitor to the grid leaky",
    prior: 2,
    sizes: spread(2e6, 5e8, 9),
    apply: (s, r) => ({ ...s, couplingLeak: s.couplingLeak + 1 / r }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "tube-gassy",
    says: "tube gassy, or its grid emits",
    prior: 0.8,
    sizes: spread(1e-7, 1e-4, 10),
    // a current out of the grid is a leak from very far up
    apply: (s, a) => ({ ...s, gridCurrentA: (s.gridCurrentA ?? 0) + a }),
    sizeSays: (a) => `about ${Number((a * 1e6).toPrecision(2))} µA out of the grid`,
  },
  {
    id: "return-positive",
    says: "the line that the grid returns to is positive: leaky AVC bypass to a positive point, or silver-mica leakage in an IF can (it crackles)",
    prior: 1,
    sizes: spread(0.3, 20, 8),
    apply: (s, v) => ({ ...s, returnV: s.returnV + v }),
    sizeSays: (v) => `about +${Number(v.toPrecision(2))} V on it`,
  },
  {
    id: "oscillating",
    says: "the stage, or another one, oscillates: AVC stands negative with no signal",
    prior: 0.5,
    sizes: spread(0.7, 15, 6),
    apply: (s, v) => ({ ...s, returnV: s.returnV - v }),
    sizeSays: (v) => `about -${Number(v.toPrecision(2))} V on the AVC line`,
  },
  {
    id: "supply-off",
    says: "the supply to this stage is off its value, and the stage follows it",
    prior: 0.8,
    sizes: [0.001, 0.3, 0.6, 0.7, 0.8, 0.88, 1.14, 1.25],
    apply: (s, k) => ({ ...s, supplyV: s.supplyV * k }),
    sizeSays: (k) => (k < 0.01 ? "none at all" : `about ${Math.round(100 * (k - 1))} %`),
  },
  {
    id: "avc-bypass-leaky",
    says: "AVC bypass leaky to the chassis: shows only while AVC volts are there",
    prior: 1,
    sizes: spread(1e5, 5e6, 4),
    apply: (s, r) => ({ ...s, returnV: (s.returnV * r) / (r + 1e6) }),
    sizeSays: (r) => `a leak of about ${ohms(r)}`,
  },
  {
    id: "heater-cathode-leak",
    says: "leakage from heater to cathode: hum, and next to nothing in the DC",
    prior: 0.8,
    sizes: spread(2e4, 1e6, 4),
    apply: (s, r) => ({ ...s, cathodeLeak: s.cathodeLeak + 1 / r }),
    sizeSays: (r) => `about ${ohms(r)}`,
  },
];

/** Standard deviations of what the parts and the tube of a healthy stage may be off by, relative. */
export interface Tolerances {
  readonly resistor: number;
  readonly tube: number;
  readonly supply: number;
}
/** What was read: volts at nodes on a meter; ohms and other evidence with the power off. */
export interface Evidence {
  readonly volts: Partial<Readonly<Record<Node, number>>>;
  /** conductance of the meter at a reading, S, by the volts that stand there */
  readonly meterOf: (volts: number) => number;
  /** of the meter: relative, and V */
  readonly meterShare: number;
  readonly meterFloorV: number;
  /** results of the other tests, by id */
  readonly tests: Readonly<Record<string, number>>;
}

/** A test beyond the volts at the pins: what each cause predicts of it, in a scale where its error is even. */
export interface Test {
  readonly id: string;
  readonly says: string;
  readonly how: string;
  /** how readily it is done: one that tells nearly as much and is easier or safer comes first */
  readonly ease: number;
  readonly predict: (s: Stage, fault: Fault, size: number) => number | undefined;
  readonly toScale: (v: number) => number;
  /** standard deviation on that scale, its part's tolerance apart */
  readonly error: number;
}
const logScale = (v: number): number => Math.log(Math.max(v, 0.3));
const parallel = (a: number, leak: number): number => 1 / (1 / a + leak);
export const tests: readonly Test[] = [
  {
    id: "screen-ohm",
    says: "the screen resistor, cold, one lead lifted",
    how: "plug out, discharged and measured; lift one lead of the screen resistor, ohmmeter across it",
    ease: 1.3,
    predict: (s) => (s.tube.kind === "pentode" ? Math.min(s.screenOhm, 2e8) : undefined),
    toScale: logScale,
    error: 0.02,
  },
  {
    id: "cathode-ohm",
    says: "the cathode to the chassis, in ohms",
    how: "plug out, discharged and measured; ohmmeter from the cathode pin to the chassis",
    ease: 1.3,
    predict: (s) => Math.min(parallel(s.cathodeOhm, s.cathodeLeak), 2e8),
    toScale: logScale,
    error: 0.02,
  },
  {
    id: "plate-ohm",
    says: "the plate to B+, in ohms",
    how: "plug out, discharged and measured; ohmmeter from the plate pin to the B+ point that feeds it",
    ease: 1.3,
    predict: (s) => Math.min(s.plateOhm, 2e8),
    toScale: logScale,
    error: 0.03,
  },
  {
    id: "screen-leak-ohm",
    says: "the screen bypass to the chassis, one lead lifted, at its working volts",
    how: "plug out, discharged and measured; lift the bypass, leakage tester at its working voltage (an ohmmeter misses leaks that need volts)",
    ease: 1.1,
    predict: (s) => (s.tube.kind === "pentode" ? Math.min(1 / Math.max(s.screenLeak, 5e-9), 2e8) : undefined),
    toScale: logScale,
    error: 0.5,
  },
  {
    id: "grid-lifted",
    says: "the grid's volts with the coupling capacitor's driver end lifted",
    how: "set off, discharged and measured before the wire is lifted; meter of 10 MΩ clipped on, stand clear, switch on: it falls to zero where the capacitor leaked, and stays where the tube or the AVC line is at fault",
    ease: 1,
    predict: (s) => solveStage({ ...s, couplingLeak: 0 })?.grid,
    toScale: (v) => v,
    error: 0.05,
  },
  {
    id: "grid-new-tube",
    says: "the grid's volts with another tube in the socket",
    how: "set off and cooled; change the tube for a good one, meter of 10 MΩ on the grid, switch on",
    ease: 0.95,
    predict: (s, f) => solveStage({ ...s, gridCurrentA: f.id === "tube-gassy" ? 0 : (s.gridCurrentA ?? 0) })?.grid,
    toScale: (v) => v,
    error: 0.05,
  },
  {
    id: "cathode-new-tube",
    says: "the cathode's volts with another tube in the socket",
    how: "set off and cooled; change the tube for a good one, meter on the cathode, switch on",
    ease: 0.95,
    predict: (s, f, size) =>
      solveStage(f.id === "weak-tube" || f.id === "dead-tube" ? { ...s, tube: { ...s.tube, perveance: s.tube.perveance / size } } : s)
        ?.cathode,
    toScale: (v) => Math.log(Math.max(v, 0.01)),
    error: 0.12,
  },
  {
    id: "return-volts",
    says: "the AVC or bias line that the grid returns to, no signal, on a meter of 10 MΩ or more",
    how: "meter clipped on with the set off, antenna off, gain up, stand clear, switch on",
    ease: 1.05,
    predict: (s) => s.returnV,
    toScale: (v) => v,
    error: 0.1,
  },
  {
    id: "tester",
    says: "a tube tester's figure, as part of a new tube's",
    how: "tube tester; its figure is worth give or take a quarter, and a good one clears no hum and no grid current",
    ease: 1,
    predict: (_s, f, size) => (f.id === "weak-tube" || f.id === "dead-tube" ? Math.max(size, 0.01) : 1),
    toScale: (v) => Math.log(Math.max(v, 0.01)),
    error: 0.25,
  },
];
export const testById = (id: string): Test | undefined => tests.find((t) => t.id === id);

/** A grid near its cathode stands where contact potential puts it, which differs from tube to tube, V; common practice, no source. */
const contactDoubtV = 0.15;

interface Case {
  readonly fault: Fault;
  readonly size: number;
  readonly stage: Stage;
  readonly logLikelihood: number;
}
export interface Ranked {
  readonly fault: Fault;
  readonly probability: number;
  /** its likeliest size, in words */
  readonly size: string;
  readonly sizeValue: number;
  /** what the meter would read at each node in that case */
  readonly predicted: Partial<Readonly<Record<Node, number>>>;
}
export interface NextTest {
  readonly test: Test;
  /** expected information on which cause it is, bits */
  readonly bits: number;
}
export interface Ranking {
  readonly causes: readonly Ranked[];
  /** those that the readings can't tell from the first: none of them less than a third as likely for its prior */
  readonly ties: readonly Ranked[];
  readonly next: readonly NextTest[];
  /** how far the readings lie from what the best cause predicts, in standard deviations, the worst node */
  readonly worstMiss: number;
}

const choleskyLog = (a: number[][], r: number[]): number => {
  const n = r.length;
  const l: number[][] = [];
  let log = 0;
  let square = 0;
  const z: number[] = [];
  for (let i = 0; i < n; i++) {
    l.push([]);
    for (let j = 0; j <= i; j++) {
      let s = a[i][j];
      for (let k = 0; k < j; k++) s -= l[i][k] * l[j][k];
      l[i].push(i === j ? Math.sqrt(Math.max(s, 1e-12)) : s / l[j][j]);
    }
    let y = r[i];
    for (let k = 0; k < i; k++) y -= l[i][k] * z[k];
    z.push(y / l[i][i]);
    square += z[i] ** 2;
    log += Math.log(l[i][i]);
  }
  return -0.5 * square - log - 0.5 * n * Math.log(2 * Math.PI);
};

/** Parts of a stage that vary from set to set, each by its own relative deviation. */
const variations = (t: Tolerances): readonly { readonly by: number; readonly change: (s: Stage, k: number) => Stage }[] => [
  { by: t.resistor, change: (s, k) => ({ ...s, plateOhm: s.plateOhm * k }) },
  { by: t.resistor, change: (s, k) => ({ ...s, screenOhm: s.screenOhm * k }) },
  { by: t.resistor, change: (s, k) => ({ ...s, cathodeOhm: s.cathodeOhm * k }) },
  { by: t.resistor, change: (s, k) => ({ ...s, gridOhm: s.gridOhm * k }) },
  { by: t.tube, change: (s, k) => ({ ...s, tube: { ...s.tube, perveance: s.tube.perveance * k } }) },
  { by: 0.4 * t.tube, change: (s, k) => ({ ...s, tube: { ...s.tube, mu: s.tube.mu * k } }) },
  { by: t.supply, change: (s, k) => ({ ...s, supplyV: s.supplyV * k, beforeV: s.beforeV * k }) },
];

/**
 * Ranks what the readings of a stage come of. Each fault is solved at each of its sizes, with the meter at each node; what parts, tube and supply
 * of a sound stage may be off by is carried as a covariance, the meter's error on top; a fault's sizes count alike.
 *
 * @param healthy the stage as it should be
 * @param evidence what was read
 * @param tolerances of a sound stage
 * @param priors other priors, by fault
 * @returns causes by probability, the ties, and what to measure next, best first
 * @source Bayes' rule with a Gaussian of the linearised spread; expected information after Lindley 1956
 */
export function rankCauses(
  healthy: Stage,
  evidence: Evidence,
  tolerances: Tolerances,
  priors: Readonly<Record<string, number>> = {},
): Ranking | undefined {
  const read = nodes.filter((n) => evidence.volts[n] !== undefined);
  const vary = variations(tolerances);
  const own = healthy.tube.kind === "triode" ? faults.filter((f) => !f.id.startsWith("screen")) : faults;
  const evaluate = (fault: Fault, size: number): (Case & { readonly worst: number }) | undefined => {
    const stage = fault.apply(healthy, size);
    const ideal = solveStage(stage);
    const at = ideal && readStage(stage, evidence.meterOf, read, ideal);
    if (!ideal || !at) return undefined;
    const spreads = vary.map(({ by, change }) => {
      const step = 0.05;
      const changed = change(stage, 1 + step);
      const there = solveStage(changed, {}, ideal) ?? solveStage(changed);
      return read.map(
        (n) => ((((n === "supply" ? changed.supplyV : there?.[n]) ?? ideal[n]) - (n === "supply" ? stage.supplyV : ideal[n])) / step) * by,
      );
    });
    const covariance = read.map((n, i) =>
      read.map(
        (_, j) =>
          spreads.reduce((s, g) => s + g[i] * g[j], 0) +
          (i === j ? (evidence.meterShare * (at[n] ?? 0)) ** 2 + evidence.meterFloorV ** 2 + (n === "grid" ? contactDoubtV ** 2 : 0) : 0),
      ),
    );
    const off = read.map((n) => (evidence.volts[n] ?? 0) - (at[n] ?? 0));
    let log = choleskyLog(covariance, off);
    for (const [id, value] of Object.entries(evidence.tests)) {
      const t = testById(id);
      const p = t?.predict(stage, fault, size);
      if (!t || p === undefined) continue;
      const sd = Math.hypot(t.error, t.toScale === logScale ? tolerances.resistor : 0);
      log += -0.5 * ((t.toScale(value) - t.toScale(p)) / sd) ** 2 - Math.log(sd * Math.sqrt(2 * Math.PI));
    }
    const worst = off.reduce((w, o, i) => Math.max(w, Math.abs(o) / Math.sqrt(covariance[i][i])), 0);
    return { fault, size, stage, logLikelihood: log, worst };
  };
  const cases: Case[] = [];
  let misses: { readonly log: number; readonly worst: number } | undefined;
  for (const fault of own)
    for (const size of fault.sizes) {
      const c = evaluate(fault, size);
      if (!c) continue;
      if (!misses || c.logLikelihood > misses.log) misses = { log: c.logLikelihood, worst: c.worst };
      cases.push(c);
    }
  /** The likeliest size between the neighbours of the best one tried: for saying it, not for weighing it. */
  const refined = (c: Case): Case => {
    const k = c.fault.sizes.indexOf(c.size);
    const [low, high] = [c.fault.sizes[k - 1] ?? c.size, c.fault.sizes[k + 1] ?? c.size];
    if (!(low > 0) || low === high) return c;
    const between = Array.from({ length: 9 }, (_, i) => evaluate(c.fault, low * (high / low) ** ((i + 1) / 10)));
    return between.reduce<Case>((a, b) => (b && b.logLikelihood > a.logLikelihood ? b : a), c);
  };
  if (cases.length === 0 || !misses) return undefined;
  const top = cases.reduce((m, c) => Math.max(m, c.logLikelihood), Number.NEGATIVE_INFINITY);
  const weightOf = (c: Case): number => ((priors[c.fault.id] ?? c.fault.prior) / c.fault.sizes.length) * Math.exp(c.logLikelihood - top);
  const total = cases.reduce((s, c) => s + weightOf(c), 0);
  const causes = own
    .map((fault): Ranked | undefined => {
      const mine = cases.filter((c) => c.fault === fault);
      if (mine.length === 0) return undefined;
      const tried = mine.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
      // a size is refined where the cause has a chance at all
      const best = mine.reduce((s, c) => s + weightOf(c), 0) / total > 0.02 ? refined(tried) : tried;
      return {
        fault,
        probability: mine.reduce((s, c) => s + weightOf(c), 0) / total,
        size: fault.sizeSays(best.size, healthy),
        sizeValue: best.size,
        predicted: readStage(best.stage, evidence.meterOf, nodes) ?? {},
      };
    })
    .filter((c) => c !== undefined)
    .sort((a, b) => b.probability - a.probability);
  const perPrior = (c: Ranked): number => c.probability / (priors[c.fault.id] ?? c.fault.prior);
  // a cause whose weight is nothing cannot tie
  const ties = causes.filter((c) => c.probability > 0.02 && perPrior(c) >= perPrior(causes[0]) / 3);
  const likely = cases.map((c) => ({ c, p: weightOf(c) / total })).filter((x) => x.p > 2e-4);
  return { causes, ties, next: nextTests(likely, evidence, tolerances), worstMiss: misses.worst };
}

/** Nodes and weights of Gauss-Hermite, for a standard normal. Source: Abramowitz and Stegun table 25.10, seven points, scaled. */
const hermite: readonly (readonly [number, number])[] = [
  [0, 0.4571428571],
  [1.1544053948, 0.2401231786],
  [-1.1544053948, 0.2401231786],
  [2.366759411, 0.030757124],
  [-2.366759411, 0.030757124],
  [3.7504397177, 0.00054826886],
  [-3.7504397177, 0.00054826886],
];

function nextTests(likely: readonly { readonly c: Case; readonly p: number }[], evidence: Evidence, tolerances: Tolerances): NextTest[] {
  const ids = [...new Set(likely.map((l) => l.c.fault.id))];
  const prior = ids.map((id) => likely.filter((l) => l.c.fault.id === id).reduce((s, l) => s + l.p, 0));
  const out: NextTest[] = [];
  for (const test of tests) {
    if (test.id in evidence.tests) continue;
    const sd = Math.hypot(test.error, test.toScale === logScale ? tolerances.resistor : 0);
    const seen = likely.map((l) => {
      const v = test.predict(l.c.stage, l.c.fault, l.c.size);
      return v === undefined ? undefined : { at: test.toScale(v), p: l.p, k: ids.indexOf(l.c.fault.id) };
    });
    if (seen.some((x) => x === undefined)) continue;
    const known = seen as { at: number; p: number; k: number }[];
    let bits = 0;
    for (const x of known)
      for (const [z, w] of hermite) {
        const y = x.at + z * sd;
        let all = 0;
        let mine = 0;
        for (const o of known) {
          const d = (y - o.at) / sd;
          const n = o.p * Math.exp(-0.5 * d * d);
          all += n;
          if (o.k === x.k) mine += n;
        }
        bits += x.p * w * Math.log2(mine / all / prior[x.k]);
      }
    out.push({ test, bits });
  }
  return out.sort((a, b) => b.bits * b.test.ease - a.bits * a.test.ease);
}
