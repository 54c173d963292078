export interface RegulatorWindow {
  /** least and most resistance in series, ohm; there is none where the least is above the most */
  readonly leastOhm: number;
  readonly mostOhm: number;
  /** most that still strikes it with the whole load connected, ohm */
  readonly strikesOhm: number;
  /** power in the least resistance at the highest supply, W */
  readonly power: number;
}
/**
 * Resistance in series with a gas regulator.
 *
 *     (Vhigh - V)/(Imax + Iload least) <= R <= (Vlow - V)/(Imin + Iload most)
 *     strikes with the load connected where Vlow RL/(RL + R) >= Vstart, RL = V/Iload most
 *
 * @param tube operating and starting volts, least and most current, V and A
 * @param supply lowest and highest supply, V
 * @param load least and most current of the load, A
 * @returns the window, ohm and W
 * @source node equations; the method of navy training texts (mid-current form read there)
 */
export function regulatorWindow(
  tube: { readonly operatingV: number; readonly startV: number; readonly leastA: number; readonly mostA: number },
  supply: { readonly lowV: number; readonly highV: number },
  load: { readonly leastA: number; readonly mostA: number },
): RegulatorWindow {
  const leastOhm = (supply.highV - tube.operatingV) / (tube.mostA + load.leastA);
  const mostOhm = (supply.lowV - tube.operatingV) / (tube.leastA + load.mostA);
  const loadOhm = load.mostA > 0 ? tube.operatingV / load.mostA : Number.POSITIVE_INFINITY;
  const strikesOhm = load.mostA > 0 ? loadOhm * (supply.lowV / tube.startV - 1) : supply.lowV >= tube.startV ? Number.POSITIVE_INFINITY : 0;
  return { leastOhm, mostOhm, strikesOhm, power: (supply.highV - tube.operatingV) ** 2 / leastOhm };
}
