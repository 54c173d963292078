/**
 * What a meter shows at a node: the node's own volts by the divider of its resistance and the meter's.
 *
 * @param volts of the node with no meter on it
 * @param nodeOhm resistance of the node, ohm
 * @param meterOhm of the meter on its range, ohm
 * @returns V
 * @source Thevenin; READ in an instruction text on passive meter loading
 */
export const meterReads = (volts: number, nodeOhm: number, meterOhm: number): number => (volts * meterOhm) / (meterOhm + nodeOhm);

/** The node's own volts from what a meter shows. Source: the same, solved. */
export const nodeVolts = (reading: number, nodeOhm: number, meterOhm: number): number => reading * (1 + nodeOhm / meterOhm);

/**
 * The node's own volts from readings on two ranges, without knowing its resistance.
 *
 * @param first reading, V, and the meter's resistance there, ohm
 * @param second the same on another range
 * @returns V; NaN where the two ranges load alike
 * @source Thevenin, solved for the volts
 */
export const nodeVoltsFromTwo = (first: readonly [number, number], second: readonly [number, number]): number => {
  const [m1, r1] = first;
  const [m2, r2] = second;
  return (m1 * m2 * (r2 - r1)) / (m1 * r2 - m2 * r1);
};
