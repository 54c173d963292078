import { converterNoiseOhm, pentodeMixerNoiseOhm, pentodeNoiseOhm, triodeMixerNoiseOhm, triodeNoiseOhm } from "../physics/noise";

/** Equivalent noise resistances of receiving tubes, by formula from their currents. */
export interface TubeNoise {
  readonly type: string;
  readonly use: "amplifier" | "mixer";
  readonly ohm: number;
  /** what tables of the time print, from memory, where it is remembered */
  readonly printedOhm?: number;
  /** whether the currents were picked with the printed figure in view: its agreement then proves nothing */
  readonly picked: boolean;
}
/** Currents and transconductances from memory of tube manuals; printed figures from memory of Harris 1941 and handbooks. */
export const tubeNoiseSource = "by formula from currents of receiving-tube manuals, from memory";
const ma = 1e-3;
const us = 1e-6;
/** What is printed of a type, ohm, and whether its currents were picked with that in view. */
type Printed = readonly [] | readonly [printedOhm: number] | readonly [printedOhm: number, picked: "picked"];
const asPrinted = ([printedOhm, picked]: Printed): Pick<TubeNoise, "printedOhm" | "picked"> => ({
  picked: picked !== undefined,
  ...(printedOhm === undefined ? {} : { printedOhm }),
});
const pentode = (type: string, plate: number, screen: number, gm: number, printed: Printed = []): TubeNoise => ({
  type,
  use: "amplifier",
  ohm: pentodeNoiseOhm(plate * ma, screen * ma, gm * us),
  ...asPrinted(printed),
});
const triode = (type: string, gm: number, printedOhm?: number): TubeNoise => ({
  type,
  use: "amplifier",
  ohm: triodeNoiseOhm(gm * us),
  picked: false,
  ...(printedOhm === undefined ? {} : { printedOhm }),
});
const converter = (type: string, plate: number, cathode: number, gc: number, printed: Printed = []): TubeNoise => ({
  type,
  use: "mixer",
  ohm: converterNoiseOhm(plate * ma, cathode * ma, gc * us),
  ...asPrinted(printed),
});
export const tubeNoise: readonly TubeNoise[] = [
  pentode("6AC7", 10, 2.5, 9000, [720]),
  pentode("6SK7", 9.2, 2.4, 2000, [10500, "picked"]),
  pentode("6SJ7", 3, 0.8, 1650, [5800]),
  pentode("6SG7", 11.8, 4.4, 4700, [3300, "picked"]),
  pentode("6SH7", 10.8, 4.1, 4900, [2850, "picked"]),
  pentode("6AK5", 7.5, 2.5, 5000, [1880, "picked"]),
  pentode("6AG5", 7, 2, 5000, [1640, "picked"]),
  pentode("6BA6", 11, 4.2, 4400, [3520]),
  pentode("6AU6", 10.8, 4.3, 5200, [2660]),
  pentode("6BH6", 7.4, 2.9, 4600, [2360]),
  pentode("6BJ6", 9.2, 3.3, 3600),
  pentode("6CB6", 9.5, 2.8, 6200, [1440]),
  pentode("6K7", 7, 1.7, 1450),
  pentode("6AB7", 12.5, 3.2, 5000, [2440]),
  pentode("6BZ6", 14, 2.6, 8000),
  pentode("6DC6", 9, 3, 5500),
  pentode("EF183", 12, 4.5, 12500),
  triode("6J5", 2600, 960),
  triode("6J4", 12000, 210),
  triode("6J6", 5300, 470),
  triode("12AT7", 5500),
  triode("6BQ7A", 6400),
  triode("6DJ8", 12500),
  triode("6CW4", 9800),
  converter("6SA7", 3.4, 11.9, 450, [240e3, "picked"]),
  converter("6BE6", 2.9, 10.2, 475, [190e3]),
  converter("6K8", 2.5, 8.5, 350, [290e3, "picked"]),
  converter("6L7", 2.4, 9.5, 375, [255e3, "picked"]),
  converter("6BA7", 3.8, 14.2, 950, [62e3, "picked"]),
  { type: "6AC7 as mixer", use: "mixer", ohm: pentodeMixerNoiseOhm(5.2 * ma, 1.3 * ma, 3400 * us), printedOhm: 2750, picked: true },
  { type: "6J5 as mixer", use: "mixer", ohm: triodeMixerNoiseOhm(620 * us), printedOhm: 6500, picked: false },
  { type: "6J6 as mixer", use: "mixer", ohm: triodeMixerNoiseOhm(1900 * us), picked: false },
  // a pentode mixer of this size, conversion a third of the amplifier's transconductance: common practice, no source
  { type: "6U8 as mixer", use: "mixer", ohm: pentodeMixerNoiseOhm(6.5 * ma, 2 * ma, 2100 * us), picked: false },
];
/** Other types with the same data. */
const alike: Readonly<Record<string, string>> = {
  "12BA6": "6BA6",
  EF93: "6BA6",
  "12SK7": "6SK7",
  "12AU6": "6AU6",
  "6EH7": "EF183",
  "12BE6": "6BE6",
  "12SA7": "6SA7",
  "6SB7-Y": "6BA7",
  ECC81: "12AT7",
  ECC88: "6DJ8",
  "6U8": "6U8 as mixer",
};
/**
 * The row of a type as a socket or a pattern writes it, for one use.
 *
 * @source the rows of this table; the notation of sockets is common practice
 */
export function tubeNoiseOf(said: string, use: TubeNoise["use"]): TubeNoise | undefined {
  const words = said.toUpperCase().split(/[^A-Z0-9-]+/);
  return tubeNoise.find((t) => t.use === use && words.some((w) => (alike[w] ?? w) === t.type));
}
