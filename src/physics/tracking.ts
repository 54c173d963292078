/** A band as its gang sees it: signal from low to high, the oscillator above or below it by the IF. All Hz. */
export interface TrackedBand {
  readonly lowHz: number;
  readonly highHz: number;
  readonly intermediateHz: number;
  readonly oscillator: "above" | "below";
}
/** The oscillator's law in x = 1/f_signal^2: y = 1/f_osc^2 = (b x + c)/(d x + a); d is 1 with a padder, 0 with a trimmer alone, a then 1. */
export interface OscillatorLaw {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: 0 | 1;
}
const side = (t: TrackedBand): 1 | -1 => (t.oscillator === "above" ? 1 : -1);
/** Frequency that the oscillator should have, Hz. */
export const wantedHz = (t: TrackedBand, f: number): number => f + side(t) * t.intermediateHz;
/** Oscillator's frequency at the gang's place for a signal frequency, Hz. Source: series padder and trimmer on a gang, either layout. */
export const oscillatorHzAt = (o: OscillatorLaw, f: number): number => {
  const x = 1 / (f * f);
  return Math.sqrt((o.d * x + o.a) / (o.b * x + o.c));
};
/** The gang's place, as the signal circuit's frequency there, at which the oscillator runs on so many Hz; NaN where it never does. Source: the same law, solved for x. */
export const signalHzAt = (o: OscillatorLaw, oscillatorHz: number): number => {
  const y = 1 / (oscillatorHz * oscillatorHz);
  return Math.sqrt((o.d * y - o.b) / (o.c - o.a * y));
};
/** How far the oscillator is off where the dial says f, Hz: positive where it is high. */
export const trackingErrorHz = (t: TrackedBand, o: OscillatorLaw, f: number): number => oscillatorHzAt(o, f) - wantedHz(t, f);

/**
 * The oscillator's law that is exact at three frequencies.
 *
 * @param t the band
 * @param points three signal frequencies, Hz, all different
 * @param off what the oscillator is to be off by at each, Hz
 * @returns the law; undefined where the points do not tell one
 * @source three-point tracking: one linear solve in a, b, c; both layouts of the padder give the same curve
 */
export function lawThrough(
  t: TrackedBand,
  points: readonly [number, number, number],
  off: readonly [number, number, number] = [0, 0, 0],
): OscillatorLaw | undefined {
  // y (x + a) = b x + c, scaled so that the numbers are near one
  const f0 = Math.sqrt(t.lowHz * t.highHz);
  const x = points.map((f) => (f0 / f) ** 2);
  const y = points.map((f, i) => (f0 / (wantedHz(t, f) + off[i])) ** 2);
  // subtract the first equation from the others: two equations in a and b
  const [p1, p2] = [y[1] - y[0], y[2] - y[0]];
  const [q1, q2] = [x[1] - x[0], x[2] - x[0]];
  const [r1, r2] = [y[0] * x[0] - y[1] * x[1], y[0] * x[0] - y[2] * x[2]];
  const det = -p1 * q2 + p2 * q1;
  if (Math.abs(det) < 1e-14) return undefined;
  const a = (-r1 * q2 + r2 * q1) / det;
  const b = (p1 * r2 - p2 * r1) / det;
  const c = y[0] * (x[0] + a) - b * x[0];
  const unit = f0 ** -2;
  return { a: a * unit, b: b * unit, c: c * unit ** 2, d: 1 };
}
/**
 * The law of an oscillator with a trimmer and no padder, exact at two frequencies.
 *
 * @param t the band
 * @param points two signal frequencies, Hz, different
 * @param off what the oscillator is to be off by at each, Hz
 * @returns the law
 * @source y = b x + c through two points
 */
export function lawThroughTwo(
  t: TrackedBand,
  points: readonly [number, number],
  off: readonly [number, number] = [0, 0],
): OscillatorLaw | undefined {
  const [x0, x1] = points.map((f) => f ** -2);
  const [y0, y1] = points.map((f, i) => (wantedHz(t, f) + off[i]) ** -2);
  if (x0 === x1) return undefined;
  const b = (y1 - y0) / (x1 - x0);
  return { a: 1, b, c: y0 - b * x0, d: 0 };
}

/** Middle of the band for the plain choice of points: ends, and their geometric mean. */
export const endsAndMiddle = (t: TrackedBand): [number, number, number] => [t.lowHz, Math.sqrt(t.lowHz * t.highHz), t.highHz];
/** Point `i` of `count` Chebyshev points in frequency. Source: zeros of the polynomials of that name. */
const chebyshevHz = (t: TrackedBand, i: number, count: number): number =>
  (t.lowHz + t.highHz) / 2 - ((t.highHz - t.lowHz) / 2) * Math.cos(((2 * i + 1) * Math.PI) / (2 * count));
/** Chebyshev points in frequency, where there are two to choose. */
export const twoChebyshevPoints = (t: TrackedBand): [number, number] => [chebyshevHz(t, 0, 2), chebyshevHz(t, 1, 2)];
/** Chebyshev points in frequency, where there are three to choose. */
export const threeChebyshevPoints = (t: TrackedBand): [number, number, number] => [
  chebyshevHz(t, 0, 3),
  chebyshevHz(t, 1, 3),
  chebyshevHz(t, 2, 3),
];

export interface Minimax {
  readonly law: OscillatorLaw;
  readonly worstHz: number;
  /** where it is exact, Hz */
  readonly points: readonly number[];
}
/**
 * The law whose worst error over the band is the least: peaks of one size, one more than the points where it is exact, by exchange.
 *
 * @param t the band
 * @param padder whether there is one: three exact points with, two without
 * @returns the law, its worst error and the points where it is exact; undefined where the oscillator passes through nothing
 * @source equal ripple (Chebyshev; Remez exchange), on the exact frequencies
 */
export function minimaxTracking(t: TrackedBand, padder = true): Minimax | undefined {
  const span = t.highHz - t.lowHz;
  let at = (padder ? [0, 0.2, 0.7, 1] : [0, 0.5, 1]).map((k) => t.lowHz + k * span);
  let law: OscillatorLaw | undefined;
  let level = 0;
  for (let round = 0; round < 30; round++) {
    // for a level E the law through all peaks but one is linear; the last says which E
    const miss = (e: number): { readonly off: number; readonly law: OscillatorLaw | undefined } => {
      const l = padder ? lawThrough(t, [at[0], at[1], at[2]], [e, -e, e]) : lawThroughTwo(t, [at[0], at[1]], [e, -e]);
      return { off: l ? trackingErrorHz(t, l, at[at.length - 1]) + (padder ? e : -e) : Number.NaN, law: l };
    };
    let [e0, e1] = [level, level + 1e-3 * span];
    let [m0, m1] = [miss(e0), miss(e1)];
    for (let n = 0; n < 40 && Math.abs(m1.off) > 1e-7 * span * 1e-3; n++) {
      const next = e1 - (m1.off * (e1 - e0)) / (m1.off - m0.off);
      if (!Number.isFinite(next)) return undefined;
      [e0, m0] = [e1, m1];
      e1 = next;
      m1 = miss(e1);
    }
    law = m1.law;
    level = e1;
    if (!law) return undefined;
    const peaks = peaksOf(t, law);
    if (peaks.length !== at.length) return undefined;
    const sizes = peaks.map((f) => Math.abs(trackingErrorHz(t, law as OscillatorLaw, f)));
    at = peaks;
    if (Math.max(...sizes) - Math.min(...sizes) < 1e-6 * Math.max(...sizes)) break;
  }
  if (!law) return undefined;
  return { law, worstHz: Math.abs(level), points: zeros(t, law, at) };
}
/** Ends and the inner extremes of the error, ascending. */
function peaksOf(t: TrackedBand, law: OscillatorLaw): number[] {
  const count = 400;
  const step = Math.log(t.highHz / t.lowHz) / count;
  const f = (i: number): number => t.lowHz * Math.exp(step * i);
  const e = new Float64Array(count + 1);
  for (let i = 0; i <= count; i++) e[i] = trackingErrorHz(t, law, f(i));
  const out = [t.lowHz];
  for (let i = 1; i < count; i++)
    if ((e[i] - e[i - 1]) * (e[i + 1] - e[i]) < 0) {
      // the top of the parabola through three neighbours
      const d = (0.5 * (e[i - 1] - e[i + 1])) / (e[i - 1] - 2 * e[i] + e[i + 1]);
      out.push(f(i + d));
    }
  out.push(t.highHz);
  return out;
}
function zeros(t: TrackedBand, law: OscillatorLaw, peaks: readonly number[]): number[] {
  return peaks.slice(1).map((high, i) => {
    let [a, b] = [peaks[i], high];
    const at = trackingErrorHz(t, law, a);
    for (let n = 0; n < 60; n++) {
      const m = (a + b) / 2;
      if (trackingErrorHz(t, law, m) * at > 0) a = m;
      else b = m;
    }
    return (a + b) / 2;
  });
}
