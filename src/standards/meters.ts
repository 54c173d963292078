/** Meters by what they draw from a node. Source: makers' manuals and navy texts, READ for 20 kohm/V on 250 V = 5 Mohm; the others common practice. */
export interface MeterKind {
  readonly name: string;
  /** ohms per volt of the range, or ohms on any range */
  readonly ohmPerVolt?: number;
  readonly ohm?: number;
  /** of a reading, one standard deviation, relative */
  readonly share: number;
}
export const meterKinds: readonly MeterKind[] = [
  { name: "digital, 10 MΩ", ohm: 10e6, share: 0.005 },
  { name: "VTVM, 11 MΩ", ohm: 11e6, share: 0.015 },
  { name: "20 kΩ/V", ohmPerVolt: 20e3, share: 0.015 },
  { name: "1 kΩ/V", ohmPerVolt: 1e3, share: 0.02 },
  { name: "500 Ω/V", ohmPerVolt: 500, share: 0.02 },
];
export const meterNames = meterKinds.map((m) => m.name);
/** Ranges of a moving-coil meter, V. Common practice, no source. */
export const usualRangesV: readonly number[] = [2.5, 10, 50, 250, 1000];

/** The smallest usual range that holds a reading, V. */
export const rangeFor = (reading: number): number => usualRangesV.find((r) => r >= Math.abs(reading)) ?? 1000;

/**
 * Resistance that a meter puts across a node.
 *
 * @param name kind of meter
 * @param volts that it reads
 * @param rangeV its range, where it is known; else the smallest usual one that holds the reading
 * @returns ohm
 * @source ohms per volt times the range, not the reading
 */
export function meterOhm(name: string, volts: number, rangeV?: number): number {
  const m = meterKinds.find((k) => k.name === name) ?? meterKinds[0];
  if (m.ohm !== undefined) return m.ohm;
  const range = rangeV !== undefined && rangeV > 0 ? rangeV : rangeFor(volts);
  return (m.ohmPerVolt ?? 0) * range;
}
export const meterShareOf = (name: string): number => (meterKinds.find((k) => k.name === name) ?? meterKinds[0]).share;
