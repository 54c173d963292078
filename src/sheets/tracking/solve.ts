import { backSubstitute, choleskyFactor, householderInPlace, inverseOfNormal } from "../../numerics/linear";
import {
  chebyshevPoints,
  endsAndMiddle,
  lawThrough,
  minimaxTracking,
  type OscillatorLaw,
  type OscillatorParts,
  type PadderLayout,
  partsHz,
  partsOf,
  type TrackedBand,
} from "../../physics/tracking";

export const resultNames = [
  "worst",
  "worstLoss",
  "coil",
  "trimmer",
  "padder",
  "signalCoil",
  "coilOff",
  "trimmerOff",
  "padderOff",
  "left",
  "signalCoilOff",
  "signalTrimmerOff",
  "slugBy",
  "trimmerBy",
  "afterwards",
  "slugTurns",
  "trimmerTurns",
  "dialShift",
  "shiftSlug",
  "shiftTrimmer",
  "shiftLeft",
] as const;
export type TrackingNames = (typeof resultNames)[number];
export const pointChoices = ["least worst error", "ends and middle", "Chebyshev"] as const;
/** A mark of the dial, and how the signal circuit stands there: where it peaks, or what its trimmer would need. */
export interface PeakReading {
  readonly dial: number;
  readonly peaksAt: number;
  readonly needs: number;
}
/** What one trial of an adjuster did: which, by how many turns (clockwise positive), at which mark, received before and after. */
export interface Trial {
  readonly what: number;
  readonly turns: number;
  readonly dial: number;
  readonly before: number;
  readonly after: number;
}
export const trialOf = ["slug", "trimmer"] as const;
export interface TrackingInputs {
  readonly readings: readonly { readonly dial: number; readonly received: number }[];
  readonly peaks: readonly PeakReading[];
  readonly trials: readonly Trial[];
  readonly oscillator: "above" | "below";
  readonly padderLayout: PadderLayout;
  readonly points: (typeof pointChoices)[number];
  readonly low: number;
  readonly high: number;
  readonly intermediate: number;
  readonly gangLow: number;
  readonly gangHigh: number;
  readonly signalQ: number;
  readonly readingNoise: number;
  readonly peakDoubt: number;
  readonly ifMoved: number;
  readonly slugRange: number;
  readonly trimmerTravel: number;
  readonly coilDoubt: number;
  readonly trimmerDoubt: number;
  readonly padderDoubt: number;
}
export const bandOf = (x: TrackingInputs): TrackedBand => ({
  lowHz: x.low,
  highHz: x.high,
  intermediateHz: x.intermediate,
  oscillator: x.oscillator,
});

/** The signal circuit that the gang tunes over the band: inductance, and what is across it beside the gang. */
export function signalCircuit(x: TrackingInputs): { readonly henry: number; readonly trimmerF: number } {
  const ratio = (x.high / x.low) ** 2;
  const trimmerF = (x.gangHigh - ratio * x.gangLow) / (ratio - 1);
  return { trimmerF, henry: 1 / ((2 * Math.PI * x.low) ** 2 * (x.gangHigh + trimmerF)) };
}
/** The law as chosen; undefined where the oscillator would have to pass through nothing. */
export function lawOf(x: TrackingInputs): OscillatorLaw | undefined {
  const t = bandOf(x);
  if (x.points === "least worst error") return minimaxTracking(t)?.law;
  return lawThrough(t, x.points === "Chebyshev" ? chebyshevPoints(t) : endsAndMiddle(t));
}
export interface Tracked {
  readonly law: OscillatorLaw;
  readonly parts: OscillatorParts | undefined;
  readonly signal: { readonly henry: number; readonly trimmerF: number };
}
export function tracked(x: TrackingInputs): Tracked | undefined {
  const law = lawOf(x);
  if (!law) return undefined;
  const signal = signalCircuit(x);
  return { law, signal, parts: partsOf(law, signal.henry, signal.trimmerF, x.padderLayout) };
}
const gangAt = (s: Tracked["signal"], f: number): number => 1 / ((2 * Math.PI * f) ** 2 * s.henry) - s.trimmerF;
/** Oscillator's frequency where the dial says f, with its parts changed by these shares and so much more across the gang, Hz. */
export const changedHz = (
  t: Tracked,
  parts: OscillatorParts,
  f: number,
  coil: number,
  trimmer: number,
  padder: number,
  gangMoreF = 0,
): number =>
  partsHz(
    {
      layout: parts.layout,
      henry: parts.henry * (1 + coil),
      trimmerF: parts.trimmerF * (1 + trimmer),
      padderF: parts.padderF * (1 + padder),
    },
    gangAt(t.signal, f) + gangMoreF,
  );

export interface Blamed {
  /** share by which each part is off, and one standard deviation of it */
  readonly coil: readonly [value: number, u: number];
  readonly trimmer: readonly [value: number, u: number];
  readonly padder: readonly [value: number, u: number];
  /** worst reading left unexplained, Hz */
  readonly leftHz: number;
  /** how the three shares go together */
  readonly factor: Float64Array;
}
/** Shares by least squares, each with what it may be off by beforehand. */
interface Shares {
  readonly share: readonly number[];
  readonly u: readonly number[];
  /** lower factor of their covariance */
  readonly factor: Float64Array;
}
/**
 * Shares of parts from readings: linear Bayesian least squares, four rounds.
 *
 * @param prior what each share may be off by beforehand, one standard deviation
 * @param read what was read, and its standard deviation
 * @param model what the shares would make of each reading
 * @source least squares about the circuit with what is known beforehand as rows above the readings
 */
function sharesFrom(
  prior: readonly number[],
  read: readonly { readonly value: number; readonly u: number }[],
  model: (share: readonly number[], i: number) => number,
): Shares | undefined {
  const k = prior.length;
  const rows = k + read.length;
  let d: number[] = prior.map(() => 0);
  let covariance: Float64Array | undefined;
  for (let round = 0; round < 4; round++) {
    const design = new Float64Array(rows * k);
    const target = new Float64Array(rows);
    prior.forEach((p, i) => {
      design[i * k + i] = 1 / p;
      target[i] = -d[i] / p;
    });
    read.forEach((r, n) => {
      const base = model(d, n);
      target[k + n] = (r.value - base) / r.u;
      for (let i = 0; i < k; i++) {
        const more = d.map((v, j) => (j === i ? v + 1e-4 : v));
        design[(k + n) * k + i] = (model(more, n) - base) / 1e-4 / r.u;
      }
    });
    householderInPlace(design, target, rows, k);
    const step = backSubstitute(design, target, k);
    d = d.map((v, i) => Math.max(-0.9, v + step[i]));
    covariance = inverseOfNormal(design, k);
  }
  if (!covariance || d.some((v) => !Number.isFinite(v))) return undefined;
  const spread = covariance;
  return { share: d, u: prior.map((_, i) => Math.sqrt(spread[i * (k + 1)])), factor: choleskyFactor(spread, k) ?? new Float64Array(k * k) };
}
const priorsOf = (x: TrackingInputs): readonly number[] => [x.coilDoubt, x.trimmerDoubt, x.padderDoubt];

/**
 * Which part of the oscillator circuit is off, from what the dial said and what was received there.
 *
 * @param x inputs, with the readings
 * @param t the circuit as it should be
 * @param side for each reading, whether the oscillator is taken on its own side there; all where not said
 * @returns shares with their doubts; undefined without parts or readings
 * @source sharesFrom
 */
export function blame(x: TrackingInputs, t: Tracked, side: (i: number) => boolean = () => true): Blamed | undefined {
  const { parts } = t;
  if (!parts || x.readings.length === 0) return undefined;
  const sign = x.oscillator === "above" ? 1 : -1;
  const receivedAt = (i: number, s: readonly number[]): number =>
    changedHz(t, parts, x.readings[i].dial, s[0], s[1], s[2]) - (side(i) ? sign : -sign) * x.intermediate;
  const found = sharesFrom(
    priorsOf(x),
    x.readings.map((r) => ({ value: r.received, u: x.readingNoise })),
    (s, i) => receivedAt(i, s),
  );
  if (!found) return undefined;
  const of = (i: number): readonly [number, number] => [found.share[i], found.u[i]];
  return {
    coil: of(0),
    trimmer: of(1),
    padder: of(2),
    leftHz: x.readings.reduce((w, r, i) => Math.max(w, Math.abs(r.received - receivedAt(i, found.share))), 0),
    factor: found.factor,
  };
}
/** Where on the band the oscillator would have to be on its other side to explain the readings; undefined where that explains no more. */
export function otherSideAt(x: TrackingInputs, t: Tracked): "all of the band" | "its low end" | "its high end" | undefined {
  const own = blame(x, t);
  if (!own || x.readings.length < 2) return undefined;
  const middle = Math.sqrt(x.low * x.high);
  const tries = [
    ["all of the band", () => false],
    ["its low end", (i: number) => x.readings[i].dial > middle],
    ["its high end", (i: number) => x.readings[i].dial <= middle],
  ] as const;
  // how far parts would have to be from their values, and what stays unexplained, together
  const cost = (b: Blamed): number =>
    (b.leftHz / x.readingNoise) ** 2 +
    (b.coil[0] / x.coilDoubt) ** 2 +
    (b.trimmer[0] / x.trimmerDoubt) ** 2 +
    (b.padder[0] / x.padderDoubt) ** 2;
  const best = tries
    .map(([says, side]) => ({ says, b: blame(x, t, side) }))
    .filter((c) => c.b !== undefined)
    .map((c) => ({ says: c.says, cost: cost(c.b as Blamed) }))
    .sort((a, b) => a.cost - b.cost)[0];
  return best && best.cost < cost(own) / 4 && cost(own) > 16 ? best.says : undefined;
}

/** Which part of the signal circuit is off, from where it peaks or what its trimmer needs. */
export interface SignalBlamed {
  readonly coil: readonly [value: number, u: number];
  readonly trimmer: readonly [value: number, u: number];
  readonly factor: Float64Array;
}
/** Shares of one draw: what was found, moved together by standard normals. */
export const drawnShares = (found: readonly number[], factor: Float64Array, xi: readonly number[]): number[] =>
  found.map((v, i) => v + xi.slice(0, i + 1).reduce((s, z, j) => s + factor[i * found.length + j] * z, 0));
export function blameSignal(x: TrackingInputs, t: Tracked): SignalBlamed | undefined {
  if (x.peaks.length === 0) return undefined;
  const { henry, trimmerF } = t.signal;
  const asHz = (p: PeakReading): boolean => p.peaksAt > 0;
  const whole = (p: PeakReading, s: readonly number[]): number => gangAt(t.signal, p.dial) + trimmerF * (1 + s[1]);
  const found = sharesFrom(
    [x.coilDoubt, x.trimmerDoubt],
    x.peaks.map((p) =>
      asHz(p)
        ? { value: p.peaksAt, u: x.peakDoubt * p.dial }
        : // a share of the frequency is half a share of the capacitance
          { value: p.needs, u: 2 * x.peakDoubt * whole(p, [0, 0]) },
    ),
    (s, i) => {
      const p = x.peaks[i];
      return asHz(p)
        ? 1 / (2 * Math.PI * Math.sqrt(henry * (1 + s[0]) * whole(p, s)))
        : 1 / ((2 * Math.PI * p.dial) ** 2 * henry * (1 + s[0])) - whole(p, s);
    },
  );
  return found && { coil: [found.share[0], found.u[0]], trimmer: [found.share[1], found.u[1]], factor: found.factor };
}

/** The next adjustment: slug and trimmer so that two marks are right, and the worst error that is then left on the band. */
export interface Adjustment {
  /** of the coil as it is */
  readonly slugShare: number;
  readonly trimmerF: number;
  readonly leftHz: number;
}
/** Marks that a band is set at: a tenth of the band from its ends. Common practice, no source. */
export const marksOf = (x: Pick<TrackingInputs, "low" | "high">): readonly [number, number] => [
  x.low + 0.05 * (x.high - x.low),
  x.high - 0.08 * (x.high - x.low),
];
/**
 * Slug and trimmer that bring two marks right at once: both change both marks, so both are solved together.
 *
 * @param x inputs
 * @param t the circuit as it should be
 * @param now shares by which coil, trimmer and padder are off now
 * @param shiftHz by how much the oscillator is to run higher than by design, Hz
 * @returns the adjustment; undefined where none brings it there
 * @source Newton's method on the circuit with its two-by-two Jacobian
 */
export function adjustment(x: TrackingInputs, t: Tracked, now: readonly [number, number, number], shiftHz = 0): Adjustment | undefined {
  const { parts } = t;
  if (!parts) return undefined;
  const sign = x.oscillator === "above" ? 1 : -1;
  const marks = marksOf(x);
  const wanted = (f: number): number => f + sign * x.intermediate + shiftHz;
  const at = (f: number, c: number, r: number): number => changedHz(t, parts, f, c, r, now[2]);
  let [c, r] = [now[0], now[1]];
  for (let round = 0; round < 30; round++) {
    const miss = marks.map((f) => at(f, c, r) - wanted(f));
    const h = 1e-5;
    const [a11, a21] = marks.map((f) => (at(f, c + h, r) - at(f, c, r)) / h);
    const [a12, a22] = marks.map((f) => (at(f, c, r + h) - at(f, c, r)) / h);
    const det = a11 * a22 - a12 * a21;
    if (!(Math.abs(det) > 0)) return undefined;
    const [dc, dr] = [(-miss[0] * a22 + miss[1] * a12) / det, (-miss[1] * a11 + miss[0] * a21) / det];
    c = Math.max(-0.9, c + dc);
    r += dr;
    if (Math.abs(dc) + Math.abs(dr) < 1e-12) break;
  }
  if (!Number.isFinite(c) || !Number.isFinite(r)) return undefined;
  let leftHz = 0;
  for (let i = 0; i <= 40; i++) {
    const f = x.low + ((x.high - x.low) * i) / 40;
    leftHz = Math.max(leftHz, Math.abs(at(f, c, r) - wanted(f)));
  }
  return Number.isFinite(leftHz) ? { slugShare: (1 + c) / (1 + now[0]) - 1, trimmerF: (r - now[1]) * parts.trimmerF, leftHz } : undefined;
}
/** What one turn of an adjuster does, from the trials of it: a share of the coil, or farads; undefined without a trial. Source: the circuit's own slope there. */
export function perTurn(x: TrackingInputs, t: Tracked, now: readonly [number, number, number], what: 0 | 1): number | undefined {
  const { parts } = t;
  const own = x.trials.filter((r) => r.what === what && r.turns !== 0);
  if (!parts || own.length === 0) return undefined;
  const h = 1e-4;
  const slopes = own.map((r) => {
    const at = (m: number): number => changedHz(t, parts, r.dial, now[0] + (what === 0 ? m : 0), now[1] + (what === 1 ? m : 0), now[2]);
    return (r.after - r.before) / r.turns / ((at(h) - at(0)) / h);
  });
  const share = slopes.reduce((s, v) => s + v, 0) / slopes.length;
  return what === 0 ? share : share * parts.trimmerF;
}
