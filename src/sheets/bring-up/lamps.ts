/** Bulbs that are usual behind a set, W. */
export const lampSizes = [25, 40, 60, 100, 150, 200] as const;
/**
 * Smallest usual lamp with some room over the set's power.
 *
 * @param watts of the type plate
 * @returns W
 * @source common practice, no source
 */
export const lampFor = (watts: number): number => lampSizes.find((w) => w >= 1.3 * watts) ?? 200;
