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

/** What a meter draws, as a person wrote it. */
export interface MeterSaid {
  readonly ohm?: number;
  readonly ohmPerVolt?: number;
}
/** 20,000 and 20.000 are thousands; 0,5 and 1.5 have decimals. */
const figureOf = (text: string): number => Number(/[.,]\d{3}$/.test(text) ? text.replace(/[.,]/g, "") : text.replace(",", "."));

/**
 * A meter as a person writes it on a card: its ohms per volt, its ohms, or the kind alone.
 *
 * @param said such as `20 kΩ/V`, `1000 ohms per volt`, `10 Mohm`, `VTVM`
 * @returns ohm, or ohm per volt; undefined where the words name no meter
 * @source house format; the load of a kind named alone from the table above
 */
export function meterFrom(said: string): MeterSaid | undefined {
  const perVolt = /(\d+(?:[.,]\d+)*)\s*(k?)\s*(?:Ω|Ω|ohms?)?\s*(?:\/|per)\s*v/i.exec(said);
  if (perVolt) return { ohmPerVolt: figureOf(perVolt[1]) * (perVolt[2] === "" ? 1 : 1e3) };
  const megohm = /(\d+(?:[.,]\d+)*)\s*m(?:eg)?\s*(?:Ω|Ω|ohms?)?(?![a-z])/i.exec(said);
  if (megohm) return { ohm: figureOf(megohm[1]) * 1e6 };
  return /vtvm|valve voltmeter/i.test(said) ? { ohm: 11e6 } : /digital|dmm/i.test(said) ? { ohm: 10e6 } : undefined;
}
/**
 * The kind of the table that draws what was written.
 *
 * @param said as written on a card
 * @returns its name; undefined where no kind of the table draws that
 * @source house format
 */
export function meterKindFrom(said: string): string | undefined {
  const m = meterFrom(said);
  return m && meterKinds.find((k) => k.ohm === m.ohm && k.ohmPerVolt === m.ohmPerVolt)?.name;
}
/** What is asked for where words name no meter. */
export const meterExpected = "what the meter draws, such as 20 kΩ/V or 10 MΩ, or its kind: digital or VTVM";
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
