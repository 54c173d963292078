import type { OscillatorParts } from "../../physics/oscillator-parts";
import type { Asked } from "./ask";
import { allRight, type Off, oscillatorHz, type Place, placeOf, runsHz, sideOf, type Tracked } from "./circuit";

/** The next adjustment: slug and trimmer so that two marks are right, and the worst error that is then left on the band. */
export interface Adjustment {
  /** of the coil as it is */
  readonly slugShare: number;
  readonly trimmerF: number;
  readonly leftHz: number;
}
/**
 * Marks that a band is set at: a tenth of the band or less from its ends.
 *
 * @param x ends of the band, Hz
 * @returns Hz, the lower first
 * @source common practice, no source
 */
export const marksOf = (x: Pick<Asked, "low" | "high">): readonly [number, number] => [
  x.low + 0.05 * (x.high - x.low),
  x.high - 0.08 * (x.high - x.low),
];
const mostRounds = 30;
/** Slopes are taken over this share. */
const stepShare = 1e-5;
/** A round that changes coil and trimmer by less than this share is the last. */
const settled = 1e-9;
/** Places of the band where the dial is looked at after an adjustment. */
const looks = 41;
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
export function adjustment(x: Asked, t: Tracked, now: Off, shiftHz = 0): Adjustment | undefined {
  const { parts } = t;
  if (!parts) return undefined;
  const aside = sideOf(x) * x.intermediate + shiftHz;
  const set = setBoth(t, parts, now, { marks: marksOf(x), aside });
  if (!set) return undefined;
  let leftHz = 0;
  for (let i = 0; i < looks; i++) {
    const f = x.low + ((x.high - x.low) * i) / (looks - 1);
    leftHz = Math.max(leftHz, Math.abs(oscillatorHz(t, parts, f, set) - aside - f));
  }
  return Number.isFinite(leftHz)
    ? { slugShare: (1 + set.coil) / (1 + now.coil) - 1, trimmerF: (set.trimmer - now.trimmer) * parts.trimmerF, leftHz }
    : undefined;
}
/** Coil and trimmer for which the oscillator runs so far aside of two marks; undefined where none do. */
function setBoth(
  t: Tracked,
  parts: OscillatorParts,
  now: Off,
  { marks, aside }: { readonly marks: readonly [number, number]; readonly aside: number },
): Off | undefined {
  const [one, other] = [placeOf(t, t.gangF(marks[0])), placeOf(t, t.gangF(marks[1]))];
  const at = (place: Place, coil: number, trimmer: number): number => runsHz(parts, place, { ...now, coil, trimmer });
  let c = now.coil;
  let r = now.trimmer;
  const h = stepShare;
  for (let round = 0; round < mostRounds; round++) {
    const [one0, other0] = [at(one, c, r), at(other, c, r)];
    const [missOne, missOther] = [one0 - marks[0] - aside, other0 - marks[1] - aside];
    const [a11, a21] = [(at(one, c + h, r) - one0) / h, (at(other, c + h, r) - other0) / h];
    const [a12, a22] = [(at(one, c, r + h) - one0) / h, (at(other, c, r + h) - other0) / h];
    const det = a11 * a22 - a12 * a21;
    if (!(Math.abs(det) > 0)) return undefined;
    const [dc, dr] = [(-missOne * a22 + missOther * a12) / det, (-missOther * a11 + missOne * a21) / det];
    c = Math.max(-0.9, c + dc);
    r += dr;
    if (Math.abs(dc) + Math.abs(dr) < settled) break;
  }
  return Number.isFinite(c) && Number.isFinite(r) ? { ...now, coil: c, trimmer: r } : undefined;
}
/**
 * What one turn of an adjuster does, from the trials of it.
 *
 * @param x inputs, with the trials
 * @param t the circuit as it should be
 * @param now by how much the parts are off now
 * @param what 0 for the slug, 1 for the trimmer
 * @returns a share of the coil, or F; undefined without a trial
 * @source the circuit's own slope at the mark
 */
export function perTurn(x: Asked, t: Tracked, now: Off, what: 0 | 1): number | undefined {
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
/**
 * What an IF that was moved asks of slug and trimmer, free of what setting both marks right would change by itself.
 *
 * @param x inputs
 * @param t the circuit as it should be
 * @returns the adjustment; undefined where none brings it there
 * @source two adjustments, with the moved IF and without
 */
export function absorbed(x: Asked, t: Tracked): Adjustment | undefined {
  const [still, a] = [adjustment(x, t, allRight), adjustment(x, t, allRight, sideOf(x) * x.ifMoved)];
  return (
    still && a && { slugShare: (1 + a.slugShare) / (1 + still.slugShare) - 1, trimmerF: a.trimmerF - still.trimmerF, leftHz: a.leftHz }
  );
}
