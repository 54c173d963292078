export interface RegulatorWindow {
  /** least and most resistance in series that keep the tube's current in its range, ohm; none where the supply does not reach the tube's volts */
  readonly leastOhm: number | undefined;
  readonly mostOhm: number | undefined;
  /** most that still strikes it with the whole load connected, ohm; none where the supply itself would not */
  readonly strikesOhm: number | undefined;
  /** power in the least resistance at the highest supply, W */
  readonly power: number | undefined;
}
interface RegulatorTube {
  readonly operatingV: number;
  readonly startV: number;
  readonly leastA: number;
  readonly mostA: number;
}

/**
 * Volts at a gas regulator that is still dark: the tube takes nothing, the load hangs on the resistor as it would on the tube's volts.
 *
 * @param supplyV lowest supply, V
 * @param seriesOhm resistor before the tube
 * @param operatingV volts that the load is meant for
 * @param loadA what it draws at them
 * @returns V; the tube strikes where they reach its starting volts
 * @source a divider, the load as the resistance V/I
 */
export function darkV(supplyV: number, seriesOhm: number, operatingV: number, loadA: number): number {
  if (!(loadA > 0)) return supplyV;
  const loadOhm = operatingV / loadA;
  return (supplyV * loadOhm) / (loadOhm + seriesOhm);
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
 * @returns the window, ohm and W; nothing that is negative
 * @source node equations; the method of navy training texts (mid-current form read there)
 */
export function regulatorWindow(
  tube: RegulatorTube,
  supply: { readonly lowV: number; readonly highV: number },
  load: { readonly leastA: number; readonly mostA: number },
): RegulatorWindow {
  const above = (v: number): number | undefined => (v > tube.operatingV ? v - tube.operatingV : undefined);
  const [high, low] = [above(supply.highV), above(supply.lowV)];
  const leastOhm = high === undefined ? undefined : high / (tube.mostA + load.leastA);
  const mostOhm = low === undefined ? undefined : low / (tube.leastA + load.mostA);
  const strikes = load.mostA > 0 ? (tube.operatingV / load.mostA) * (supply.lowV / tube.startV - 1) : Number.POSITIVE_INFINITY;
  return {
    leastOhm,
    mostOhm,
    strikesOhm: supply.lowV >= tube.startV ? strikes : undefined,
    power: high === undefined || leastOhm === undefined ? undefined : high ** 2 / leastOhm,
  };
}
