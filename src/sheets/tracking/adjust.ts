import { allRight, type Off, oscillatorHz, sideOf, type Tracked } from "./circuit";
import type { TrackingInputs } from "./inputs";

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
 * @param now by how much the parts are off now
 * @param shiftHz by how much the oscillator is to run higher than by design, Hz
 * @returns the adjustment; undefined where none brings it there
 * @source Newton's method on the circuit with its two-by-two Jacobian
 */
export function adjustment(x: TrackingInputs, t: Tracked, now: Off, shiftHz = 0): Adjustment | undefined {
  const { parts } = t;
  if (!parts) return undefined;
  const marks = marksOf(x);
  const wanted = (f: number): number => f + sideOf(x) * x.intermediate + shiftHz;
  const at = (f: number, coil: number, trimmer: number): number => oscillatorHz(t, parts, f, { ...now, coil, trimmer });
  let [c, r] = [now.coil, now.trimmer];
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
    if (Math.abs(dc) + Math.abs(dr) < 1e-9) break;
  }
  if (!Number.isFinite(c) || !Number.isFinite(r)) return undefined;
  let leftHz = 0;
  for (let i = 0; i <= 40; i++) {
    const f = x.low + ((x.high - x.low) * i) / 40;
    leftHz = Math.max(leftHz, Math.abs(at(f, c, r) - wanted(f)));
  }
  return Number.isFinite(leftHz)
    ? { slugShare: (1 + c) / (1 + now.coil) - 1, trimmerF: (r - now.trimmer) * parts.trimmerF, leftHz }
    : undefined;
}
/**
 * What one turn of an adjuster does, from the trials of it: a share of the coil, or farads; undefined without a trial. Source: the circuit's own slope there.
 *
 * @source the circuit's own slope at the mark
 */
export function perTurn(x: TrackingInputs, t: Tracked, now: Off, what: 0 | 1): number | undefined {
  const { parts } = t;
  const own = x.trials.filter((r) => r.what === what && r.turns !== 0);
  if (!parts || own.length === 0) return undefined;
  const h = 1e-4;
  const slopes = own.map((r) => {
    const at = (m: number): number =>
      oscillatorHz(t, parts, r.dial, what === 0 ? { ...now, coil: now.coil + m } : { ...now, trimmer: now.trimmer + m });
    return (r.after - r.before) / r.turns / ((at(h) - at(0)) / h);
  });
  const share = slopes.reduce((s, v) => s + v, 0) / slopes.length;
  return what === 0 ? share : share * parts.trimmerF;
}
/** What an IF that was moved asks of slug and trimmer, free of what setting both marks right would change by itself. */
export function absorbed(x: TrackingInputs, t: Tracked): Adjustment | undefined {
  const [still, a] = [adjustment(x, t, allRight), adjustment(x, t, allRight, sideOf(x) * x.ifMoved)];
  return (
    still && a && { slugShare: (1 + a.slugShare) / (1 + still.slugShare) - 1, trimmerF: a.trimmerF - still.trimmerF, leftHz: a.leftHz }
  );
}
