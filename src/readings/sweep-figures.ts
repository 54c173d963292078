import type { Dimension } from "../units/dimensions";
import type { Quantity } from "../units/quantity";
import { sweepNoise } from "./level-noise";
import { type NoisyTop, noisyTop, topReach } from "./noisy-top";
import type { Sweep } from "./sweep";

/** One figure read out of a sweep: with its uncertainty, or why there is none. */
export interface SweepFigure {
  readonly name: string;
  readonly dimension: Dimension;
  readonly quantity?: Quantity;
  readonly none?: string;
}
interface Crossing {
  readonly hz: number;
  /** without what the top is in doubt by */
  readonly u: number;
  /** Hz that a decibel of the top moves it outwards */
  readonly perDb: number;
}

/**
 * First crossing of a level, walking outward from the highest point; the levels between two points are joined by a straight line.
 * Its uncertainty adds the noise over the slope, the bend of the curve between the points, and the printed digits of the frequency.
 */
function crossing(s: Sweep, top: number, level: number, side: -1 | 1, noiseDb: number): Crossing | undefined {
  const n = s.levelDb.length;
  for (let i = top; i + side >= 0 && i + side < n; i += side) {
    const a = s.levelDb[i];
    const b = s.levelDb[i + side];
    if (b > level || a <= level) continue;
    const step = s.frequencyHz[i + side] - s.frequencyHz[i];
    const hz = s.frequencyHz[i] + (step * (a - level)) / (a - b);
    const slope = Math.abs((b - a) / step);
    const bend = Math.max(bendAt(s, i), bendAt(s, i + side)) / 8;
    return { hz, u: Math.hypot(noiseDb / slope, bend / slope / Math.sqrt(3), s.resolutionHz / Math.sqrt(3)), perDb: 1 / slope };
  }
  return undefined;
}
const bendAt = (s: Sweep, i: number): number =>
  i > 0 && i + 1 < s.levelDb.length ? Math.abs(s.levelDb[i - 1] - 2 * s.levelDb[i] + s.levelDb[i + 1]) : 0;

const measured = (value: number, u: number, source: string): Quantity => ({
  value,
  spread: { shape: "normal", u },
  origin: "measured",
  source,
});

interface Width {
  readonly width: number;
  readonly u: number;
  readonly low: Crossing;
  readonly high: Crossing;
}
const levels = [3, 6, 20, 60];
/** Widths by level: near a noisy top from the smoothed curve, else between first crossings outward from the highest point. */
function widthsOf(sweep: Sweep, top: number, noise: number, smooth: NoisyTop | undefined): ReadonlyMap<number, Width> {
  const out = new Map<number, Width>();
  const topDb = smooth?.peakDb.value ?? sweep.levelDb[top];
  for (const level of levels) {
    const edge = smooth?.edges.get(level);
    if (edge) {
      const side = (e: { readonly value: number; readonly u: number }): Crossing => ({ hz: e.value, u: e.u, perDb: 0 });
      out.set(level, { width: edge.width.value, u: edge.width.u, low: side(edge.low), high: side(edge.high) });
      continue;
    }
    // the top's own doubt moves both edges outwards together
    const topU = smooth?.peakDb.u ?? noise;
    const [low, high] = [crossing(sweep, top, topDb - level, -1, noise), crossing(sweep, top, topDb - level, 1, noise)];
    if (low && high) out.set(level, { width: high.hz - low.hz, u: Math.hypot(low.u, high.u, topU * (low.perDb + high.perDb)), low, high });
  }
  return out;
}

/**
 * What a sweep says: of a pass band peak, centre, widths at 3, 6, 20 and 60 dB, shape factor, ripple, loss at the peak; of a reflection its dip.
 *
 * @param sweep the sweep
 * @param source what the figures are credited to
 * @returns figures, each with its uncertainty from step, noise and printed digits, or "not reached in this sweep"
 * @source definitions; near a noisy top smoothed, see noisy-top.ts
 */
export function sweepFigures(sweep: Sweep, source: string): SweepFigure[] {
  const { frequencyHz: f, levelDb: y } = sweep;
  const count: SweepFigure = {
    name: "points",
    dimension: "ratio",
    quantity: { value: f.length, spread: { shape: "exact" }, origin: "measured", source },
  };
  if (sweep.reflection) return [...dipFigures(sweep, source), count];
  const noise = sweepNoise(sweep);
  let top = 0;
  for (let i = 1; i < y.length; i++) if (y[i] > y[top]) top = i;
  const smooth = noisyTop(sweep, [3, 6]);
  const point = parabola(sweep, top);
  const peak = smooth
    ? { hz: smooth.peakHz.value, u: smooth.peakHz.u, db: smooth.peakDb.value }
    : { ...point, u: Math.max(point.u, topReach(f, y, point.hz, Math.SQRT2 * noise)) };
  const peakU = smooth?.peakDb.u ?? noise;
  const figure = (name: string, dimension: Dimension, value: number, u: number): SweepFigure => ({
    name,
    dimension,
    quantity: measured(value, u, source),
  });
  const notReached = (name: string, dimension: Dimension): SweepFigure => ({ name, dimension, none: "not reached in this sweep" });
  const widths = widthsOf(sweep, top, noise, smooth);
  const out = [figure("peak frequency", "frequency", peak.hz, peak.u), figure("level at the peak", "decibel", peak.db, peakU)];
  for (const level of levels) {
    const w = widths.get(level);
    const name = `width at -${level} dB`;
    out.push(w ? figure(name, "frequency", w.width, w.u) : notReached(name, "frequency"));
  }
  const [three, six, sixty] = [3, 6, 60].map((l) => widths.get(l));
  const mid = six ?? three;
  out.push(mid ? figure("centre", "frequency", (mid.low.hz + mid.high.hz) / 2, mid.u / 2) : notReached("centre", "frequency"));
  const shape = "shape factor 60/6";
  const ratio = six && sixty ? sixty.width / six.width : 0;
  out.push(
    six && sixty ? figure(shape, "ratio", ratio, ratio * Math.hypot(six.u / six.width, sixty.u / sixty.width)) : notReached(shape, "ratio"),
  );
  out.push(figure("ripple within the hump", "decibel", rippleDb(sweep, top, noise), noise * Math.SQRT2));
  if (sweep.complex || /s21/i.test(sweep.quantity)) out.push(figure("insertion loss", "decibel", -peak.db, peakU));
  if (three) out.push(figure("loaded Q", "ratio", peak.hz / three.width, ((peak.hz / three.width) * three.u) / three.width));
  return [...out, count];
}

/** Where least comes back, how little, and the standing wave ratio there. */
function dipFigures(sweep: Sweep, source: string): SweepFigure[] {
  const dip = parabola(
    { ...sweep, levelDb: sweep.levelDb.map((v) => -v) },
    sweep.levelDb.reduce((b, v, i, y) => (v < y[b] ? i : b), 0),
  );
  const noise = sweepNoise(sweep);
  const reflected = Math.min(0.999, 10 ** (-dip.db / 20));
  const swr = (1 + reflected) / (1 - reflected);
  return [
    { name: "least reflection at", dimension: "frequency", quantity: measured(dip.hz, dip.u, source) },
    { name: "reflection there", dimension: "decibel", quantity: measured(-dip.db, noise, source) },
    {
      name: "VSWR there",
      dimension: "ratio",
      quantity: measured(swr, ((2 / (1 - reflected) ** 2) * reflected * noise) / 8.686, source),
    },
  ];
}

/** Vertex of the parabola through the top three points (equal spacing assumed). */
function parabola(s: Sweep, top: number): { hz: number; db: number; u: number } {
  const { frequencyHz: f, levelDb: y } = s;
  if (top === 0 || top === y.length - 1) return { hz: f[top], db: y[top], u: Math.abs(f[1] - f[0]) };
  const [a, b, c] = [y[top - 1], y[top], y[top + 1]];
  const curve = a - 2 * b + c;
  const step = (f[top + 1] - f[top - 1]) / 2;
  const shift = curve < 0 ? (0.5 * (a - c)) / curve : 0;
  return { hz: f[top] + shift * step, db: b - 0.25 * (a - c) * shift, u: Math.hypot(step / Math.sqrt(12), s.resolutionHz / Math.sqrt(3)) };
}

/** Deepest dip between the highest point and any other local peak that lies within 6 dB of it, less what noise alone would show. */
function rippleDb(s: Sweep, top: number, noise: number): number {
  let ripple = 0;
  for (const side of [-1, 1]) {
    let lowest = s.levelDb[top];
    for (let i = top + side; i >= 0 && i < s.levelDb.length && s.levelDb[i] > s.levelDb[top] - 6; i += side) {
      lowest = Math.min(lowest, s.levelDb[i]);
      if (s.levelDb[i] - lowest > 4 * noise) ripple = Math.max(ripple, s.levelDb[top] - lowest);
    }
  }
  return ripple;
}
