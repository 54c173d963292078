import type { Health } from "../readings/sound/health";
import type { SoundHead } from "../readings/sound/sound";
import { InputError, orThrow } from "../units/issue";
import { parseQuantity } from "../units/parse";
import type { Quantity } from "../units/quantity";

/** Whose clock was never measured: share by which a sound device's may be off. Source: common practice, no source. */
const usualClock: Quantity = {
  value: 0,
  spread: { shape: "rectangular", half: 1e-4 },
  origin: "assumed",
  source: "sound devices keep within 100 ppm, common practice, no source",
};
/** A frequency as typed. */
export const hertz = (text: string, path: string): number => orThrow(parseQuantity(text, "frequency", path)).value;
/** The clock as typed, or as it usually is. */
export function clockOf(text: string | undefined): Quantity {
  if (text === undefined) return usualClock;
  const { value, spread } = orThrow(parseQuantity(text, "ppm", "--clock"));
  if (Math.abs(value) > 0.01)
    throw new InputError([
      { path: "--clock", code: "out-of-range", read: text, expected: "at most 10,000 ppm: no sound device is that far off" },
    ]);
  return { value, spread, origin: "measured", source: "a standard tone or a loop-back" };
}

/** A sound that was listened to: what it is, and how well it was recorded. */
export interface Heard {
  readonly name: string;
  readonly head: SoundHead;
  readonly health: Health;
  /** clock of the sound device; what was found is corrected by it already */
  readonly clock: Quantity;
  readonly clockU: number;
  /** of the file and of the recording */
  readonly warnings: readonly string[];
}
