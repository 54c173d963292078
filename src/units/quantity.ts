/** A quantity as the job knows it: value, spread, and where it comes from. All values are SI, but for dB, dBm, S readings and degrees. */
export const origins = ["measured", "fitted", "stated", "assumed", "tried", "computed"] as const;
export type Origin = (typeof origins)[number];

/** How a value may be off, as JCGM 101:2008 clause 6.4 assigns it: a normal spread, or a tolerance (rectangular, triangular half-width). */
export type Spread =
  | { readonly shape: "exact" }
  | { readonly shape: "normal"; readonly u: number }
  | { readonly shape: "rectangular"; readonly half: number }
  | { readonly shape: "triangular"; readonly half: number };

export interface Quantity {
  readonly value: number;
  readonly spread: Spread;
  readonly origin: Origin;
  readonly source: string;
  /** id of the estimate that this value belongs to, where it was fitted together with others */
  readonly joint?: string;
}

/** Words that the rule of bare values puts in a source for the doubt that it gave. */
export const bareSaid = ["no doubt said", "no tolerance said"] as const;
/** Whether nobody said the doubt of a value: the rule of bare values gave it. */
export const isBareDoubt = (q: Pick<Quantity, "source">): boolean => bareSaid.some((words) => q.source.includes(words));

export const exact: Spread = { shape: "exact" };
export const tolerance = (half: number): Spread => ({ shape: "rectangular", half });

/**
 * Standard uncertainty of a spread.
 *
 * @param s spread
 * @returns standard uncertainty, in the quantity's unit
 * @source JCGM 100:2008 4.3.7 (rectangular: half/sqrt 3) and 4.3.9 (triangular: half/sqrt 6)
 */
export function standardUncertainty(s: Spread): number {
  switch (s.shape) {
    case "exact":
      return 0;
    case "normal":
      return s.u;
    case "rectangular":
      return s.half / Math.sqrt(3);
    case "triangular":
      return s.half / Math.sqrt(6);
  }
}
