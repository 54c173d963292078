import { chiSquareQuantile } from "../../numerics/chi-square";
import { median } from "../../numerics/order";
import type { Spectrum } from "./welch";

/** A response at one frequency. */
export interface ResponsePoint {
  readonly hz: number;
  readonly levelDb: number;
  /** standard uncertainty, dB */
  readonly uDb: number;
}
/** Points by so many to the octave, or every so many hertz. */
export type Spacing = { readonly perOctave: number } | { readonly everyHz: number };
/** A tone on top of noise: no part of a response to noise. It stands so many deviations of a bin, and so many times, above the bins beside it. */
const toneDeviations = 7;
const toneRatio = 1.6;
const besideBins = 8;
const decibels = (power: number): number => 10 * Math.log10(Math.max(1e-30, power));

/** Bins that belong to a tone, with the two beside each that its line takes. */
function toneBins({ power, freedom }: Spectrum): ReadonlySet<number> {
  const least = Math.max(toneRatio, 1 + toneDeviations * Math.sqrt(2 / freedom));
  const out = new Set<number>();
  for (let k = 2; k < power.length - 2; k++) {
    const beside = power.slice(Math.max(1, k - besideBins), k + besideBins + 1);
    if (power[k] > least * median([...beside])) for (let d = -2; d <= 2; d++) out.add(k + d);
  }
  return out;
}
/**
 * What the power of some neighbouring bins together is known to.
 *
 * @param freedom degrees of freedom of one
 * @param count how many, one beside another
 * @returns degrees of freedom of their mean
 * @source derived: power in bins one and two apart of Hann's window goes together by 4/9 and 1/36
 */
export const freedomOf = (freedom: number, count: number): number =>
  (freedom * count * count) / (count + (8 / 9) * (count - 1) + (count > 2 ? (1 / 18) * (count - 2) : 0));

/**
 * Interval of a power by Welch's method, about its estimate.
 *
 * @param freedom degrees of freedom, 10 or more
 * @returns dB below and above that hold the true power 95 times in 100
 * @source chi-square law of a mean of periodograms, Welch 1967
 */
export function welchInterval(freedom: number): { readonly lowDb: number; readonly highDb: number } {
  return {
    lowDb: decibels(freedom / chiSquareQuantile(0.975, freedom)),
    highDb: decibels(freedom / chiSquareQuantile(0.025, freedom)),
  };
}

/**
 * Noise of a sound by frequency, tones left out.
 *
 * @param s its spectrum
 * @param within from and to, Hz
 * @param spacing of the points
 * @returns points, dB re nothing in particular; frequencies of the tones that were left out
 * @source Welch
 */
export function noisePoints(
  s: Spectrum,
  within: { readonly fromHz: number; readonly toHz: number },
  spacing: Spacing,
): { readonly points: readonly ResponsePoint[]; readonly tonesHz: readonly number[] } {
  const { binHz, power, freedom } = s;
  const left = toneBins(s);
  const points: ResponsePoint[] = [];
  const last = Math.min(power.length - 3, Math.floor(within.toHz / binHz));
  for (let k = Math.max(2, Math.ceil(within.fromHz / binHz)); k <= last; ) {
    const wide = "everyHz" in spacing ? spacing.everyHz : k * binHz * (2 ** (1 / spacing.perOctave) - 1);
    const end = Math.min(last, k + Math.max(1, Math.round(wide / binHz)) - 1);
    const own = Array.from({ length: end - k + 1 }, (_, i) => k + i).filter((i) => !left.has(i));
    if (own.length > 0) {
      const { lowDb, highDb } = welchInterval(freedomOf(freedom, own.length));
      const mean = own.reduce((t, i) => t + power[i], 0) / own.length;
      const at = own.reduce((t, i) => t + i, 0) / own.length;
      points.push({ hz: at * binHz, levelDb: decibels(mean), uDb: (highDb - lowDb) / (2 * 1.96) });
    }
    k = end + 1;
  }
  const tones = [...left].filter(
    (k) => left.has(k) && power[k] >= power[k - 1] && power[k] > power[k + 1] && left.has(k - 2) && left.has(k + 2),
  );
  const inside = tones.map((k) => k * binHz).filter((hz) => hz >= within.fromHz && hz <= within.toHz);
  return { points, tonesHz: inside };
}

/**
 * Level of a response at a frequency; undefined beyond its points.
 *
 * @source a straight line between two points over the logarithm of the frequency; so is its uncertainty, since two neighbours may be off together
 */
export function levelAt(of: readonly ResponsePoint[], hz: number): ResponsePoint | undefined {
  const above = of.findIndex((p) => p.hz >= hz);
  if (above < 0) return undefined;
  const [a, b] = [of[above - 1], of[above]];
  if (b.hz === hz) return b;
  if (a === undefined) return undefined;
  const part = Math.log(hz / a.hz) / Math.log(b.hz / a.hz);
  return { hz, levelDb: a.levelDb + part * (b.levelDb - a.levelDb), uDb: a.uDb + part * (b.uDb - a.uDb) };
}
/**
 * A response with another one, that it was measured through, divided out.
 *
 * @returns points where both are known
 * @source gains in a row multiply; uncertainties add by their squares
 */
export const divided = (points: readonly ResponsePoint[], by: readonly ResponsePoint[]): readonly ResponsePoint[] =>
  points.flatMap((p) => {
    const own = levelAt(by, p.hz);
    return own ? [{ hz: p.hz, levelDb: p.levelDb - own.levelDb, uDb: Math.hypot(p.uDb, own.uDb) }] : [];
  });
/**
 * Two responses, one after the other.
 *
 * @returns points of the first where both are known
 * @source as divided
 */
export const inARow = (first: readonly ResponsePoint[], second: readonly ResponsePoint[]): readonly ResponsePoint[] =>
  divided(
    first,
    second.map((p) => ({ ...p, levelDb: -p.levelDb })),
  );
/**
 * Response of an input alone, of which only that of output and input together is known: between none of it and all of it.
 *
 * @source rectangular between both ends, JCGM 101:2008 6.4.2
 */
export const inputOf = (loop: readonly ResponsePoint[]): readonly ResponsePoint[] =>
  loop.map((p) => ({ hz: p.hz, levelDb: p.levelDb / 2, uDb: Math.hypot(p.uDb / 2, Math.abs(p.levelDb) / 2 / Math.sqrt(3)) }));

/** Weights of a parabola through five neighbours, at the middle one; flatter than this it may be laid through them, dB. */
const smooth = [-3, 12, 17, 12, -3].map((w) => w / 35);
const flatDb = 3;
/**
 * The highest level, by a parabola through it and its neighbours where the curve is no steeper than that, and what it is known to.
 *
 * @source Savitzky and Golay, Anal. Chem. 36 (1964) 1627: quadratic, five points
 */
function topOf(points: readonly ResponsePoint[]): { readonly at: number; readonly db: number; readonly uDb: number } {
  const smoothed = (p: ResponsePoint, i: number) => {
    const own = points.slice(Math.max(0, i - 2), i + 3);
    if (own.length < smooth.length || own.some((q) => Math.abs(q.levelDb - p.levelDb) > flatDb))
      return { at: i, db: p.levelDb, uDb: p.uDb };
    return {
      at: i,
      db: own.reduce((t, q, k) => t + smooth[k] * q.levelDb, 0),
      uDb: Math.hypot(...own.map((q, k) => smooth[k] * q.uDb)),
    };
  };
  return points.map(smoothed).reduce((x, y) => (y.db > x.db ? y : x));
}
/**
 * Levels relative to the highest.
 *
 * @source definition
 */
export function fromTop(points: readonly ResponsePoint[]): readonly ResponsePoint[] {
  if (points.length === 0) return points;
  const { db } = topOf(points);
  return points.map((p) => ({ ...p, levelDb: p.levelDb - db }));
}
/** Where a response is so far below its highest for good, outward from there. */
export interface Edge {
  readonly hz: number;
  /** standard uncertainty, Hz */
  readonly uHz: number;
}
/**
 * Ends of a response.
 *
 * @param points relative to whatever, ascending
 * @param downDb so far below the highest
 * @returns both ends; one that is beyond the points is none
 * @source definition; levels between points by a straight line over the logarithm of the frequency
 */
export function endsAt(points: readonly ResponsePoint[], downDb: number): { readonly low?: Edge; readonly high?: Edge } {
  if (points.length < 3) return {};
  const top = topOf(points);
  const level = top.db - downDb;
  const walk = (side: -1 | 1): Edge | undefined => {
    for (let i = top.at; i + side >= 0 && i + side < points.length; i += side) {
      const [a, b] = [points[i], points[i + side]];
      if (b.levelDb > level || a.levelDb <= level) continue;
      const hz = a.hz * (b.hz / a.hz) ** ((a.levelDb - level) / (a.levelDb - b.levelDb));
      const dbPerHz = Math.abs((a.levelDb - b.levelDb) / (a.hz - b.hz));
      return { hz, uHz: Math.hypot(a.uDb, b.uDb, top.uDb) / dbPerHz };
    }
    return undefined;
  };
  const [low, high] = [walk(-1), walk(1)];
  return { ...(low ? { low } : {}), ...(high ? { high } : {}) };
}

/** How a BFO stood while the noise of a set was recorded through its product detector. */
export interface BfoStood {
  readonly bfoHz: number;
  readonly sideband: "upper" | "lower";
  /** the far sideband is so far below the top of the near one at least, dB */
  readonly farDownDb: number;
}
/** More than this the far sideband may add to no point that is kept, dB. */
const mostFarDb = 1;
/**
 * Audio beside a BFO as the strip that it came through.
 *
 * @param points audio response divided out, relative to the top
 * @param stood how the BFO stood
 * @returns points at frequencies in the IF, ascending; those left out that the far sideband may reach
 * @source product detector: audio f is what lies f off the BFO on both sides, powers added
 */
export function besideBfo(points: readonly ResponsePoint[], stood: BfoStood): readonly ResponsePoint[] {
  const way = stood.sideband === "upper" ? 1 : -1;
  const kept = points.flatMap((p) => {
    const far = 10 ** (-(stood.farDownDb + p.levelDb) / 10);
    if (far >= 1) return [];
    // what is measured is near and far together: the near one alone is less by this at most
    const mayBe = -decibels(1 - far);
    return mayBe > mostFarDb ? [] : [{ hz: stood.bfoHz + way * p.hz, levelDb: p.levelDb, uDb: Math.hypot(p.uDb, mayBe / Math.sqrt(3)) }];
  });
  return kept.sort((a, b) => a.hz - b.hz);
}
