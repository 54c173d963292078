/** Finest part of a number that halving may be asked for: some steps of its last place (2^-52). */
const finest = 2 ** -50;

/**
 * Whether the ends of a bracket are still further apart than is wanted, and than numbers of their size can tell: a search that halves until they are not
 * comes to its end wherever the bracket lies.
 *
 * @param low lower end, any unit
 * @param high upper end, the same unit
 * @param least how near they are to come, the same unit, above 0
 * @returns false too where an end is no number
 * @source IEEE 754 binary64: neighbours are at most 2^-52 of their size apart
 */
export const areApart = (low: number, high: number, least: number): boolean =>
  high - low > Math.max(least, finest * Math.max(Math.abs(low), Math.abs(high)));
