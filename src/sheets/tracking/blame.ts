import { chiSquareQuantile } from "../../numerics/chi-square";
import { judgeMisfit } from "../../numerics/misfit";
import { found } from "./amounts";
import type { Asked } from "./ask";
import { type Off, type Place, placeOf, runsHz, sideOf, type Tracked } from "./circuit";

/** What the readings say of the oscillator's parts. */
export interface Blamed {
  readonly off: Off;
  /** one standard deviation of each amount, in the order coil, trimmer, padder, gang */
  readonly u: Float64Array;
  readonly prior: readonly number[];
  readonly factor: Float64Array;
  /** worst reading left unexplained, Hz */
  readonly leftHz: number;
  readonly explained: boolean;
  /** number of readings, and sums of squares in standard deviations: of the amounts and what they leave, and of the readings with all parts right */
  readonly count: number;
  readonly cost: number;
  readonly unmoved: number;
}
const partNames = ["coil", "trimmer", "padder"] as const;
export type PartName = (typeof partNames)[number];
/** A share that can't be off is held at nothing. */
const nothing = 1e-9;
/** The gang's own amount is counted in this, so that all amounts are of a size. */
const gangUnitF = 100e-12;
const offOf = (a: ArrayLike<number>): Off => ({
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
const receivedOf = (x: Asked, i: number): number => {
  const { received, counted } = x.readings[i];
  return Number.isFinite(counted) ? counted - sideOf(x) * x.intermediate : received;
};

/**
 * Which part of the oscillator circuit is off, from what the dial said and what was received there.
 *
 * Marks crowd towards the high end, so that a reading there is worth less, in proportion (common practice, no source). Readings that no setting of the
 * parts meets within their noise widen every doubt, or leave nothing to say.
 *
 * @param x inputs, with the readings
 * @param t the circuit as it should be
 * @param ownSide for each reading, whether the oscillator is taken on its own side there; all where not said
 * @param only the one part that may be off, beside the gang, or the gang alone; any where not said
 * @returns amounts with their doubts; undefined without parts or readings
 * @source least squares with what is known beforehand; misses by the rule of every fit, numerics/misfit.ts
 */
export function blame(x: Asked, t: Tracked, ownSide: (i: number) => boolean = () => true, only?: PartName | "gang"): Blamed | undefined {
  const { parts } = t;
  if (!parts || x.readings.length === 0) return undefined;
  const sides = x.readings.map((_, i) => (ownSide(i) ? 1 : -1) * sideOf(x) * x.intermediate);
  const places: readonly Place[] = x.readings.map((r) => placeOf(t, t.gangF(r.dial)));
  const model = (a: ArrayLike<number>, i: number): number => runsHz(parts, places[i], offOf(a)) - sides[i];
  const prior = priorOf(x, parts.layout === "no padder" ? nothing : x.padderDoubt, only);
  const read = x.readings.map((r, i) => ({ value: receivedOf(x, i), u: x.readingNoise * r.dial }));
  const f = found(prior, read, model);
  if (!f) return undefined;
  const misfit = judgeMisfit({ residuals: f.misses, noise: 1, parameters: parts.layout === "no padder" ? 2 : 3 });
  const right = new Float64Array(prior.length);
  const squares = (values: ArrayLike<number>, by: (v: number, i: number) => number): number => {
    let sum = 0;
    for (let i = 0; i < values.length; i++) sum += by(values[i], i) ** 2;
    return sum;
  };
  let leftHz = 0;
  for (let i = 0; i < read.length; i++) leftHz = Math.max(leftHz, Math.abs(f.misses[i] * read[i].u));
  return {
    off: offOf(f.at),
    u: f.u.map((u) => u * misfit.widenRatio),
    prior,
    factor: f.factor.map((v) => v * misfit.widenRatio),
    leftHz,
    explained: misfit.verdict !== "law-fails",
    count: read.length,
    cost: squares(f.misses, (v) => v) + squares(f.at, (v, i) => v / prior[i]),
    unmoved: squares(f.misses, (_, i) => (read[i].value - model(right, i)) / read[i].u),
  };
}
/** How far off each amount may be before any reading: shares, and the gang's three in its own unit. */
function priorOf(x: Asked, padder: number, only: PartName | "gang" | undefined): readonly number[] {
  const doubt = (part: PartName, share: number): number => (only === undefined || only === part ? share : nothing);
  const gang = x.gangDoubt / gangUnitF;
  return [
    doubt("coil", x.coilDoubt),
    doubt("trimmer", x.trimmerDoubt),
    doubt("padder", padder),
    gangShapes[0] * gang,
    gangShapes[1] * gang,
    gangShapes[2] * gang,
  ];
}
/** Whether so large a sum of squares is no surprise among so many readings. */
const isLikely = (squares: number, count: number): boolean => squares <= chiSquareQuantile(0.95, count);
/**
 * Whether all parts right explain the readings within their noise.
 *
 * @param b what the readings say
 * @returns true where nothing is off as far as they tell
 * @source chi square, 95 %
 */
export const isNothingOff = (b: Blamed): boolean => isLikely(b.unmoved, b.count);
/**
 * Amounts of one draw: what was found, moved together.
 *
 * @param b what the readings say
 * @param xi standard normals, one for each amount at least
 * @returns amounts
 * @source a multivariate normal by its Cholesky factor
 */
export function drawnOff(b: Blamed, xi: ArrayLike<number>): Off {
  const at = amountsOf(b.off);
  const k = at.length;
  for (let i = 0; i < k; i++) for (let j = 0; j <= i; j++) at[i] += b.factor[i * k + j] * xi[j];
  return offOf(at);
}

/** One part that explains the readings by itself, all others right, and by how much it is then off. */
export interface Alone {
  readonly part: PartName;
  readonly share: number;
  readonly u: number;
}
/**
 * The parts that could do it each by itself.
 *
 * @param x inputs, with the readings
 * @param t the circuit as it should be
 * @returns shares, with one standard deviation
 * @source least squares with one part free, and chi square, 95 %
 */
export function aloneOf(x: Asked, t: Tracked): readonly Alone[] {
  return partNames.flatMap((part, i) => {
    const b = part === "padder" && x.padderLayout === "no padder" ? undefined : blame(x, t, () => true, part);
    return b && isLikely(b.cost, b.count) ? [{ part, share: amountsOf(b.off)[i], u: b.u[i] }] : [];
  });
}

/**
 * Whether a gang that is bent within its doubt, all parts right, explains the readings as well.
 *
 * @param x inputs, with the readings
 * @param t the circuit as it should be
 * @returns true where it does
 * @source least squares with the gang alone free, and chi square, 95 %
 */
export function gangAlone(x: Asked, t: Tracked): boolean {
  const b = blame(x, t, () => true, "gang");
  return b !== undefined && isLikely(b.cost, b.count);
}

/** Two parts of which more of the one does what more, or less, of the other does, as far as these readings tell. */
export interface Trade {
  readonly one: PartName;
  readonly other: PartName;
  readonly together: boolean;
}
/**
 * Pairs that the readings can't tell apart: one of them hardly better known than before, and the other strongly with it.
 *
 * @param b what the readings say
 * @returns pairs, and whether more of the one goes with more of the other
 * @source correlation of the amounts; its limits are common practice, no source
 */
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

/**
 * Where on the band the oscillator would have to be on its other side to explain the readings.
 *
 * @param x inputs, with the readings
 * @param t the circuit as it should be
 * @returns the part of the band; undefined where that explains no more
 * @source sums of squares compared; the ratio of 4 is common practice, no source
 */
export function otherSideAt(x: Asked, t: Tracked): "all of the band" | "its low end" | "its high end" | undefined {
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
  const cost = (b: Blamed): number =>
    (b.leftHz / (x.readingNoise * middle)) ** 2 + amountsOf(b.off).reduce((s, v, i) => s + (v / b.prior[i]) ** 2, 0);
  const best = tries
    .flatMap(([says, ownSide]) => {
      const b = blame(x, t, ownSide);
      return b ? [{ says, cost: cost(b) }] : [];
    })
    .sort((a, b) => a.cost - b.cost)[0];
  return best && best.cost < cost(own) / 4 && cost(own) > 16 ? best.says : undefined;
}
