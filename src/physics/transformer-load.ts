/**
 * How far a winding falls when more is drawn from it: its resistance is what its fall from no load to a known load says.
 *
 * @param w rated volts, V; regulation, the fall from no load to the known load over the rated volts; that load, A; what is drawn besides, A
 * @returns V
 * @source Ohm's law; leakage inductance and core left out
 */
export const windingFallV = (w: {
  readonly ratedV: number;
  readonly regulation: number;
  readonly loadA: number;
  readonly moreA: number;
}): number => (w.regulation * w.ratedV * w.moreA) / w.loadA;

/**
 * How much warmer than the room a transformer gets at another load: the heat of its iron stays, that of its copper goes as the square of the load.
 *
 * @param riseK its rise at the load that it has, K
 * @param ironShare share of its heat that is there with nothing drawn, 0 to 1
 * @param loadRatio other load over that one
 * @returns K
 * @source Joule's law; rise in proportion to the heat, Newton's law of cooling
 */
export const transformerRiseK = (riseK: number, ironShare: number, loadRatio: number): number =>
  riseK * (ironShare + (1 - ironShare) * loadRatio ** 2);
