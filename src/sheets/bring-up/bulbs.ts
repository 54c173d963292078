/** Bulbs that are usual behind a set, W. */
export const bulbSizes = [25, 40, 60, 100, 150, 200] as const;
/**
 * Smallest usual bulb with some room over the set's power.
 *
 * @param watts of the type plate
 * @returns W
 * @source common practice, no source
 */
export const bulbFor = (watts: number): number => bulbSizes.find((w) => w >= 1.3 * watts) ?? 200;
