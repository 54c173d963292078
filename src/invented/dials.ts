import { dialAt, wideningOf } from "../infer/dial/fitted";
import { judgeDial } from "../infer/dial/judge";
import type { DialPoint } from "../readings/zero-beats";

/** A dial invented elsewhere, its zero beats, and the truth behind them. */
export interface DialWorld {
  readonly id: string;
  readonly family: string;
  readonly intermediateHz: number;
  readonly spacingHz: number;
  readonly statedDiv: number;
  readonly readingDiv: readonly number[];
  readonly frequencyHz: readonly number[];
  readonly truth: { readonly atDiv: readonly number[]; readonly atHz: readonly number[] };
}
/**
 * At how many places the law's 95 % interval holds the truth, of how many; or why there is no law.
 *
 * @source counted
 */
export function heldDial(world: DialWorld): { readonly held: number; readonly asked: number } | { readonly refused: string } {
  const points = world.readingDiv.map((reading, i): DialPoint => ({ reading, frequencyHz: world.frequencyHz[i], approach: 1 }));
  const assumed = { readingNoise: world.statedDiv, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 };
  const read = judgeDial(points, { intermediateHz: world.intermediateHz, oscillator: "above" }, assumed, { spacingHz: world.spacingHz });
  if (!read.ok) return { refused: read.issues[0].code };
  const { fit } = read.value;
  const held = world.truth.atDiv.filter((reading, i) => {
    const { hz, uHz } = dialAt(fit, reading);
    return Math.abs(hz - world.truth.atHz[i]) < 1.96 * wideningOf(fit) * uHz;
  }).length;
  return { held, asked: world.truth.atDiv.length };
}
