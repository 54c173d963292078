/** Evenly spaced frequencies round a centre. */
export const frequencyAxis = (centreHz: number, halfSpanHz: number, points: number): Float64Array =>
  Float64Array.from({ length: points }, (_, i) => centreHz - halfSpanHz + (2 * halfSpanHz * i) / (points - 1));

/**
 * A width to draw, rounded to 1, 2 or 5 times a power of ten above what is asked.
 *
 * @param atLeastHz Hz, above 0
 * @returns Hz
 * @source steps of 1, 2 and 5 as on scales and chart paper; common practice, no source
 */
export function roundSpanHz(atLeastHz: number): number {
  const decade = 10 ** Math.floor(Math.log10(atLeastHz));
  return (([1, 2, 5, 10].find((m) => m * decade >= atLeastHz) ?? 10) as number) * decade;
}

export const notReached = { none: "not reached within 45 % of the IF" } as const;
export const orNone = (value: number, none: string): number | { readonly none: string } =>
  Number.isFinite(value) ? value : none === notReached.none ? notReached : { none };
