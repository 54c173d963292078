/** A band as its gang sees it: signal from low to high, the oscillator above or below it by the IF. All Hz. */
export interface TrackedBand {
  readonly lowHz: number;
  readonly highHz: number;
  readonly intermediateHz: number;
  readonly oscillator: "above" | "below";
}
/** The oscillator's law in x = 1/f_signal^2: y = 1/f_osc^2 = (b x + c)/(x + a). */
export interface OscillatorLaw {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}
const side = (t: TrackedBand): 1 | -1 => (t.oscillator === "above" ? 1 : -1);
/** Frequency that the oscillator should have, Hz. */
export const wantedHz = (t: TrackedBand, f: number): number => f + side(t) * t.intermediateHz;
/** Oscillator's frequency at the gang's place for a signal frequency, Hz. Source: series padder and trimmer on a gang, either layout. */
export const oscillatorHzAt = (o: OscillatorLaw, f: number): number => {
  const x = f ** -2;
  return ((x + o.a) / (o.b * x + o.c)) ** 0.5;
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
  return { a: a * unit, b: b * unit, c: c * unit ** 2 };
}

/** Middle of the band for the plain choice of points: ends, and their geometric mean. */
export const endsAndMiddle = (t: TrackedBand): [number, number, number] => [t.lowHz, Math.sqrt(t.lowHz * t.highHz), t.highHz];
/** Chebyshev points in frequency. */
export const chebyshevPoints = (t: TrackedBand): [number, number, number] =>
  [5, 3, 1].map((k) => (t.lowHz + t.highHz) / 2 + ((t.highHz - t.lowHz) / 2) * Math.cos((k * Math.PI) / 6)) as [number, number, number];

export interface Minimax {
  readonly law: OscillatorLaw;
  readonly worstHz: number;
  /** where it is exact, Hz */
  readonly points: readonly number[];
}
/**
 * The law whose worst error over the band is the least: four peaks of one size, by exchange.
 *
 * @param t the band
 * @returns the law, its worst error and the three points where it is exact; undefined where the oscillator passes through nothing
 * @source equal ripple (Chebyshev; Remez exchange), on the exact frequencies
 */
export function minimaxTracking(t: TrackedBand): Minimax | undefined {
  const span = t.highHz - t.lowHz;
  let at = [0, 0.2, 0.7, 1].map((k) => t.lowHz + k * span);
  let law: OscillatorLaw | undefined;
  let level = 0;
  for (let round = 0; round < 30; round++) {
    // for a level E the law through three of the peaks is linear; the fourth says which E
    const miss = (e: number): { readonly off: number; readonly law: OscillatorLaw | undefined } => {
      const l = lawThrough(t, [at[0], at[1], at[2]], [e, -e, e]);
      return { off: l ? trackingErrorHz(t, l, at[3]) + e : Number.NaN, law: l };
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
    if (peaks.length !== 4) return undefined;
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
  const f = (i: number): number => t.lowHz * (t.highHz / t.lowHz) ** (i / count);
  const e = Array.from({ length: count + 1 }, (_, i) => trackingErrorHz(t, law, f(i)));
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

/** Where the trimmer sits: across the gang, inside the padder, or across the coil itself. Both give one curve, with other parts. */
export const padderLayouts = ["across the gang", "across the coil"] as const;
export type PadderLayout = (typeof padderLayouts)[number];
/** Parts of the oscillator circuit; the trimmer holds the strays of its place. */
export interface OscillatorParts {
  readonly layout: PadderLayout;
  readonly henry: number;
  readonly trimmerF: number;
  readonly padderF: number;
}
/**
 * Parts that make a law on a gang.
 *
 * @param o the law
 * @param signalH inductance of the signal circuit: it turns x = 1/f^2 into the gang's capacitance
 * @param signalTrimmerF what of the signal circuit's capacitance is not the gang's own
 * @param layout where the trimmer sits
 * @returns parts, H and F; undefined where no positive ones make it
 * @source 1/w^2 = L Cp (C + Ct)/(C + Ct + Cp), or L (Ct + C Cp/(C + Cp)), compared term by term with (b C + c)/(C + a)
 */
export function partsOf(
  o: OscillatorLaw,
  signalH: number,
  signalTrimmerF: number,
  layout: PadderLayout = "across the gang",
): OscillatorParts | undefined {
  // capacitance of the signal circuit is x/(4 pi^2 L); the gang's own is that less the trimmer
  const k = 1 / (4 * Math.PI ** 2 * signalH);
  const shift = signalTrimmerF;
  // y = (b x + c)/(x + a) in C = k x - shift
  const a = k * o.a + shift;
  const b = o.b;
  const c = k * o.c + o.b * shift;
  if (layout === "across the coil") {
    const part = c / (b * a);
    const trimmerF = (a * part) / (1 - part);
    const henry = b / (trimmerF + a) / (4 * Math.PI ** 2);
    return a > 0 && henry > 0 && trimmerF > -shift ? { layout, henry, trimmerF, padderF: a } : undefined;
  }
  const trimmerF = c / b;
  const padderF = a - trimmerF;
  const henry = b / padderF / (4 * Math.PI ** 2);
  return padderF > 0 && henry > 0 && trimmerF > -shift ? { layout, henry, trimmerF, padderF } : undefined;
}
/**
 * Frequency of the oscillator with a gang's capacitance.
 *
 * @param p parts and layout
 * @param gangF capacitance of the gang's section, F
 * @returns Hz
 * @source the same circuits
 */
export function partsHz(p: OscillatorParts, gangF: number): number {
  const whole =
    p.layout === "across the coil"
      ? p.trimmerF + (gangF * p.padderF) / (gangF + p.padderF)
      : (p.padderF * (gangF + p.trimmerF)) / (gangF + p.trimmerF + p.padderF);
  return 1 / (2 * Math.PI * Math.sqrt(p.henry * whole));
}
