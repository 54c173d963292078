import { median } from "../numerics/order";
import type { Dimension } from "../units/dimensions";
import type { Quantity } from "../units/quantity";
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
  readonly u: number;
}

/**
 * Noise of a sweep's levels, from second differences of neighbouring points (a smooth curve has small ones), robustly.
 *
 * @param levelDb levels in order of frequency, dB
 * @returns standard deviation of one level, dB; at least the rounding that the levels show
 * @source median absolute deviation times 1.4826; variance of a second difference is 6 times that of one point
 */
export function levelNoise(levelDb: Float64Array): number {
  const seconds = Array.from({ length: Math.max(0, levelDb.length - 2) }, (_, i) =>
    Math.abs(levelDb[i] - 2 * levelDb[i + 1] + levelDb[i + 2]),
  );
  if (seconds.length === 0) return 0;
  const flat = [...seconds].sort((a, b) => a - b).slice(0, Math.max(3, Math.ceil(seconds.length * 0.7)));
  return (1.4826 * median(flat) * 1.4) / Math.sqrt(6);
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
    return { hz, u: Math.hypot(noiseDb / slope, bend / slope / Math.sqrt(3), s.resolutionHz / Math.sqrt(3)) };
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

/**
 * What a sweep of a pass band says: peak, centre, widths at 3, 6, 20 and 60 dB, shape factor, ripple, loss at the peak.
 *
 * @param sweep the sweep
 * @param source what the figures are credited to
 * @returns figures, each with its uncertainty from step, noise and printed digits, or "not reached in this sweep"
 * @source definitions; bandwidth as the first crossings outward from the highest point
 */
export function sweepFigures(sweep: Sweep, source: string): SweepFigure[] {
  const { frequencyHz: f, levelDb: y } = sweep;
  const noise = levelNoise(y);
  let top = 0;
  for (let i = 1; i < y.length; i++) if (y[i] > y[top]) top = i;
  const peak = parabola(sweep, top);
  const out: SweepFigure[] = [
    { name: "peak frequency", dimension: "frequency", quantity: measured(peak.hz, peak.u, source) },
    { name: "level at the peak", dimension: "decibel", quantity: measured(peak.db, noise, source) },
  ];
  const notReached = (name: string, dimension: Dimension): SweepFigure => ({ name, dimension, none: "not reached in this sweep" });
  const widths = new Map<number, { width: number; u: number; low: Crossing; high: Crossing }>();
  for (const level of [3, 6, 20, 60]) {
    const low = crossing(sweep, top, y[top] - level, -1, noise);
    const high = crossing(sweep, top, y[top] - level, 1, noise);
    const name = `width at -${level} dB`;
    if (!low || !high) {
      out.push(notReached(name, "frequency"));
      continue;
    }
    const width = high.hz - low.hz;
    const u = Math.hypot(low.u, high.u);
    widths.set(level, { width, u, low, high });
    out.push({ name, dimension: "frequency", quantity: measured(width, u, source) });
  }
  const six = widths.get(6);
  const sixty = widths.get(60);
  const mid = six ?? widths.get(3);
  out.push(
    mid
      ? { name: "centre", dimension: "frequency", quantity: measured((mid.low.hz + mid.high.hz) / 2, mid.u / 2, source) }
      : notReached("centre", "frequency"),
  );
  out.push(
    six && sixty
      ? {
          name: "shape factor 60/6",
          dimension: "ratio",
          quantity: measured(
            sixty.width / six.width,
            (sixty.width / six.width) * Math.hypot(six.u / six.width, sixty.u / sixty.width),
            source,
          ),
        }
      : notReached("shape factor 60/6", "ratio"),
  );
  out.push({
    name: "ripple within the hump",
    dimension: "decibel",
    quantity: measured(rippleDb(sweep, top, noise), noise * Math.SQRT2, source),
  });
  if (sweep.complex || /s21/i.test(sweep.quantity))
    out.push({ name: "insertion loss", dimension: "decibel", quantity: measured(-peak.db, noise, source) });
  if (widths.has(3)) {
    const three = widths.get(3)!;
    out.push({
      name: "loaded Q",
      dimension: "ratio",
      quantity: measured(peak.hz / three.width, ((peak.hz / three.width) * three.u) / three.width, source),
    });
  }
  out.push({ name: "points", dimension: "ratio", quantity: { value: f.length, spread: { shape: "exact" }, origin: "measured", source } });
  return out;
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
