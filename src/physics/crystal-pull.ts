/** A crystal pulled by its load: motional capacitance, holder, load. F. */
export interface PulledCrystal {
  readonly motionalF: number;
  readonly holderF: number;
  readonly loadF: number;
}
/**
 * Frequency over the crystal's series resonance: sqrt(1 + C1/(C0 + CL)).
 *
 * @param c the crystal with its load
 * @returns ratio, above 1
 * @source lossless crystal in its loop: L and C1 in series with C0 and CL side by side, resonance solved without approximation
 */
export const pulledRatio = (c: PulledCrystal): number => Math.sqrt(1 + c.motionalF / (c.holderF + c.loadF));
/**
 * Load that changes the frequency by a factor.
 *
 * @param c the crystal with its load as it stands
 * @param ratio wanted over present frequency
 * @returns F; undefined where no capacitance, from nothing to without end, does it
 * @source pulledRatio, solved for the load
 */
export function loadForRatioF(c: PulledCrystal, ratio: number): number | undefined {
  const left = (pulledRatio(c) * ratio) ** 2 - 1;
  const loadF = c.motionalF / left - c.holderF;
  return left > 0 && loadF >= 0 ? loadF : undefined;
}
/**
 * Relative change of frequency for a change of the load.
 *
 * @param c the crystal with its load as it stands
 * @param moreF farads more, less is negative; the load stays at nothing at least
 * @returns ratio less one: negative for more
 * @source pulledRatio
 */
export const pullBy = (c: PulledCrystal, moreF: number): number =>
  pulledRatio({ ...c, loadF: Math.max(0, c.loadF + moreF) }) / pulledRatio(c) - 1;
