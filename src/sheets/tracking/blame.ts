import { chiSquareQuantile } from "../../numerics/chi-square";
import { judgeMisfit } from "../../numerics/misfit";
import { found } from "./amounts";
import { type Off, oscillatorHz, sideOf, type Tracked } from "./circuit";
import type { PeakReading, TrackingInputs } from "./inputs";

/** What the readings say of the oscillator's parts. */
export interface Blamed {
  readonly off: Off;
  /** one standard deviation of each amount, in the order coil, trimmer, padder, gang */
  readonly u: readonly number[];
  readonly prior: readonly number[];
  readonly factor: Float64Array;
  /** worst reading left unexplained, Hz */
  readonly leftHz: number;
  readonly explained: boolean;
  /** whether such amounts are no surprise beforehand */
  readonly likely: boolean;
  /** whether all parts right explain the readings within their noise */
  readonly nothingOff: boolean;
}
const partNames = ["coil", "trimmer", "padder"] as const;
export type PartName = (typeof partNames)[number];
/** A share that can't be off is held at nothing. */
const nothing = 1e-9;
/** The gang's own amount is counted in this, so that all amounts are of a size. */
const gangUnitF = 100e-12;
const offOf = (a: readonly number[]): Off => ({
  coil: a[0],
  trimmer: a[1],
  padder: a[2],
  gangF: [a[3] * gangUnitF, a[4] * gangUnitF, a[5] * gangUnitF],
});
const amountsOf = (o: Off): number[] => [o.coil, o.trimmer, o.padder, ...o.gangF.map((f) => f / gangUnitF)];
/**
 * How the gang's doubt goes over its three shapes: bent plates and a shifted rotor do each of them, alike all over the most. Chosen on invented gangs
 * that are bent by 1 to 2 pF, where the parts' intervals then hold; no source.
 */
const gangShapes = [0.7, 0.5, 0.5] as const;
/** What a reading says of the frequency received: directly, or by the oscillator's own frequency. */
export const receivedOf = (x: TrackingInputs, i: number): number => {
  const { received, counted } = x.readings[i];
  return Number.isFinite(counted) ? counted - sideOf(x) * x.intermediate : received;
};

/** Marks crowd towards the high end, so that a reading there is worth less, in proportion. Source: common practice, no source. */
const noiseAt = (x: TrackingInputs, dialHz: number): number => (x.readingNoise * dialHz) / Math.sqrt(x.low * x.high);

/**
 * Which part of the oscillator circuit is off, from what the dial said and what was received there.
 *
 * Readings that no setting of the parts meets within their noise widen every doubt, or leave nothing to say.
 *
 * @param x inputs, with the readings
 * @param t the circuit as it should be
 * @param ownSide for each reading, whether the oscillator is taken on its own side there; all where not said
 * @param only the one part that may be off, beside the gang, or the gang alone; any where not said
 * @returns amounts with their doubts; undefined without parts or readings
 * @source least squares with what is known beforehand; misses by the rule of every fit, numerics/misfit.ts
 */
export function blame(
  x: TrackingInputs,
  t: Tracked,
  ownSide: (i: number) => boolean = () => true,
  only?: PartName | "gang",
): Blamed | undefined {
  const { parts } = t;
  if (!parts || x.readings.length === 0) return undefined;
  const model = (a: readonly number[], i: number): number =>
    oscillatorHz(t, parts, x.readings[i].dial, offOf(a)) - (ownSide(i) ? 1 : -1) * sideOf(x) * x.intermediate;
  const doubt = (part: PartName, share: number): number => (only === undefined || only === part ? share : nothing);
  const padder = parts.layout === "no padder" ? nothing : x.padderDoubt;
  const prior = [
    doubt("coil", x.coilDoubt),
    doubt("trimmer", x.trimmerDoubt),
    doubt("padder", padder),
    ...gangShapes.map((k) => (k * x.gangDoubt) / gangUnitF),
  ];
  const read = x.readings.map((r, i) => ({ value: receivedOf(x, i), u: noiseAt(x, r.dial) }));
  const f = found(prior, read, model);
  if (!f) return undefined;
  const misfit = judgeMisfit({ residuals: f.misses, noise: 1, parameters: parts.layout === "no padder" ? 2 : 3 });
  const cost = [...f.misses, ...f.at.map((v, i) => v / prior[i])].reduce((sum, v) => sum + v * v, 0);
  const unmoved = read.reduce(
    (s, r, i) =>
      s +
      ((r.value -
        model(
          prior.map(() => 0),
          i,
        )) /
        r.u) **
        2,
    0,
  );
  return {
    off: offOf(f.at),
    u: f.u.map((u) => u * misfit.widenRatio),
    prior,
    factor: f.factor.map((v) => v * misfit.widenRatio),
    leftHz: read.reduce((w, r, i) => Math.max(w, Math.abs(r.value - model(f.at, i))), 0),
    explained: misfit.verdict !== "law-fails",
    likely: cost <= chiSquareQuantile(0.95, read.length),
    nothingOff: unmoved <= chiSquareQuantile(0.95, read.length),
  };
}
/** Amounts of one draw: what was found, moved together by standard normals. */
export function drawnOff(b: Blamed, xi: readonly number[]): Off {
  const at = amountsOf(b.off);
  return offOf(at.map((v, i) => v + xi.slice(0, i + 1).reduce((s, z, j) => s + b.factor[i * at.length + j] * z, 0)));
}

/** One part that explains the readings by itself, all others right, and by how much it is then off. */
export interface Alone {
  readonly part: PartName;
  readonly share: number;
  readonly u: number;
}
export function aloneOf(x: TrackingInputs, t: Tracked): readonly Alone[] {
  return partNames.flatMap((part, i) => {
    const b = part === "padder" && x.padderLayout === "no padder" ? undefined : blame(x, t, () => true, part);
    return b?.likely ? [{ part, share: amountsOf(b.off)[i], u: b.u[i] }] : [];
  });
}

/** Whether a gang that is bent within its doubt, all parts right, explains the readings as well. */
export const gangAlone = (x: TrackingInputs, t: Tracked): boolean => blame(x, t, () => true, "gang")?.likely ?? false;

/** Two parts of which more of the one does what more, or less, of the other does, as far as these readings tell. */
export interface Trade {
  readonly one: PartName;
  readonly other: PartName;
  readonly together: boolean;
}
/** Pairs that the readings can't tell apart: one of them hardly better known than before, and the other strongly with it. */
export function tradesOf(b: Blamed): readonly Trade[] {
  const k = b.prior.length;
  const cov = (i: number, j: number): number => b.prior.reduce((s, _, m) => s + b.factor[i * k + m] * b.factor[j * k + m], 0);
  const openness = (i: number): number => (b.prior[i] > nothing ? b.u[i] / b.prior[i] : 0);
  return [
    [0, 1],
    [0, 2],
    [1, 2],
  ].flatMap(([i, j]) => {
    const r = cov(i, j) / Math.sqrt(cov(i, i) * cov(j, j));
    const open = [openness(i), openness(j)];
    return Math.abs(r) > 0.9 && Math.max(...open) > 0.3 && Math.min(...open) > 0.05
      ? [{ one: partNames[i], other: partNames[j], together: r > 0 }]
      : [];
  });
}

/** Where on the band the oscillator would have to be on its other side to explain the readings; undefined where that explains no more. */
export function otherSideAt(x: TrackingInputs, t: Tracked): "all of the band" | "its low end" | "its high end" | undefined {
  const own = blame(x, t);
  // a counted oscillator shows its side by itself
  if (!own || x.readings.length < 2 || x.readings.some((r) => Number.isFinite(r.counted))) return undefined;
  const middle = Math.sqrt(x.low * x.high);
  const tries = [
    ["all of the band", () => false],
    ["its low end", (i: number) => x.readings[i].dial > middle],
    ["its high end", (i: number) => x.readings[i].dial <= middle],
  ] as const;
  // how far parts would have to be from their values, and what stays unexplained, together
  const cost = (b: Blamed): number => (b.leftHz / x.readingNoise) ** 2 + amountsOf(b.off).reduce((s, v, i) => s + (v / b.prior[i]) ** 2, 0);
  const best = tries
    .flatMap(([says, ownSide]) => {
      const b = blame(x, t, ownSide);
      return b ? [{ says, cost: cost(b) }] : [];
    })
    .sort((a, b) => a.cost - b.cost)[0];
  return best && best.cost < cost(own) / 4 && cost(own) > 16 ? best.says : undefined;
}

/** Which part of the signal circuit is off, from where it peaks or what its trimmer needs; its trimmer holds what the gang's section has too much. */
export interface SignalBlamed {
  readonly coil: number;
  readonly trimmer: number;
  readonly factor: Float64Array;
}
export function blameSignal(x: TrackingInputs, t: Tracked): SignalBlamed | undefined {
  if (x.peaks.length === 0) return undefined;
  const { henry, trimmerF } = t.signal;
  const asHz = (p: PeakReading): boolean => p.peaksAt > 0;
  const whole = (p: PeakReading, s: readonly number[]): number => t.gangF(p.dial) + trimmerF * (1 + s[1]);
  const f = found(
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
  return f && { coil: f.at[0], trimmer: f.at[1], factor: f.factor };
}
