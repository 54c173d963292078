import type { Seen } from "./rectifiers";
import { namesOfType } from "./tube-bulbs";

/** What a tube is, by what stands in its bulb and what it is used for. */
export const tubeClasses = [
  "pentode",
  "beam output",
  "triode",
  "double triode",
  "double diode triode",
  "triode pentode",
  "converter",
  "double diode",
] as const;
export type TubeClass = (typeof tubeClasses)[number];
interface Named {
  readonly type: string;
  /** other types with the same data */
  readonly also: readonly string[];
  readonly tubeClass: TubeClass;
  readonly seen: Seen;
}
/** One operating point of a tube manual. SI; `gridV` is the grid against the cathode. Of a double tube it is one half's. */
export interface TubePoint extends Named {
  readonly plateV: number;
  readonly screenV?: number;
  readonly gridV: number;
  readonly plateA: number;
  readonly screenA?: number;
  readonly transconductance: number;
  /** amplification factor and plate resistance as the manual has them, of a triode */
  readonly mu?: number;
  readonly plateOhm?: number;
  /** cathode resistor that is usual with it, ohm: a guess where the set's own is not known */
  readonly cathodeOhm: number;
}
/** A converter that is its own oscillator, at its manual's point. It biases itself by its own swing, so no law of a resting stage describes it. */
export interface ConverterPoint extends Named {
  readonly plateV: number;
  readonly screenV: number;
  readonly plateA: number;
  readonly screenA: number;
  /** of the oscillator's grid, through its leak, and of an anode grid of its own */
  readonly gridA: number;
  readonly gridOhm: number;
  readonly anodeGridA: number;
  /** of all electrodes, as the manual has it */
  readonly cathodeA: number;
  readonly conversionTransconductance: number;
}
/** Two small diodes in one bulb: what each may carry and bear. */
export interface DiodePair extends Named {
  readonly mostA: number;
  readonly inverseV: number;
}
const source = "receiving-tube manuals of the makers";
export const tubeTableSource = source;
const listed = (also: string): readonly string[] => (also === "" ? [] : also.split(" "));

type Row = readonly [
  type: string,
  also: string,
  tubeClass: TubeClass,
  plateV: number,
  screenV: number | undefined,
  bias: number,
  plateMa: number,
  screenMa: number | undefined,
  micromho: number,
  cathodeOhm: number,
  muAndKilohm?: readonly [mu: number, plateKilohm: number],
  seen?: Seen,
];
const row = ([
  type,
  also,
  tubeClass,
  plateV,
  screenV,
  bias,
  plateMa,
  screenMa,
  micromho,
  cathodeOhm,
  triode,
  seen = "from memory",
]: Row): TubePoint => ({
  type,
  also: listed(also),
  tubeClass,
  plateV,
  ...(screenV === undefined ? {} : { screenV }),
  // a positive figure is the manual's cathode resistor: the bias is its drop
  gridV: bias > 0 ? (-bias * (plateMa + (screenMa ?? 0))) / 1000 : bias,
  plateA: plateMa / 1000,
  ...(screenMa === undefined ? {} : { screenA: screenMa / 1000 }),
  transconductance: micromho * 1e-6,
  ...(triode ? { mu: triode[0], plateOhm: triode[1] * 1e3 } : {}),
  cathodeOhm,
  seen,
});

/** Operating points of common types. Source: receiving-tube manuals, from memory but for one row; their own sums agree (Vk, gm rp = mu). */
export const tubePoints: readonly TubePoint[] = [
  row(["6BA6", "12BA6 EF93", "pentode", 250, 100, 68, 11, 4.2, 4400, 68]),
  row(["6AU6", "12AU6 EF94", "pentode", 250, 150, 68, 10.6, 4.3, 5200, 68]),
  row(["6BZ6", "", "pentode", 125, 125, 56, 14, 3.6, 8000, 56]),
  row(["6CB6", "", "pentode", 200, 150, 180, 9.5, 2.8, 6200, 180]),
  row(["6DC6", "", "pentode", 200, 150, 180, 9, 3, 5500, 180]),
  row(["6SK7", "12SK7", "pentode", 250, 100, -3, 9.2, 2.6, 2000, 270]),
  row(["6AQ5", "6V6 6V6GT 12AQ5 EL90", "beam output", 250, 250, -12.5, 45, 4.5, 4100, 250]),
  row(["6L6", "6L6G 6L6GB", "beam output", 250, 250, -14, 72, 5, 6000, 170]),
  row(["50C5", "50B5", "beam output", 110, 110, -7.5, 49, 4, 7500, 140]),
  row(["35C5", "35B5 35L6 35L6GT", "beam output", 110, 110, -7.5, 40, 3, 5800, 170]),
  row(["6K6", "6K6GT", "pentode", 250, 250, -18, 32, 5.5, 2300, 470]),
  row(["6BQ5", "EL84", "pentode", 250, 250, -7.3, 48, 5.5, 11300, 135]),
  row(["6U8 pentode", "", "triode pentode", 250, 110, 68, 10, 3.5, 5200, 68]),
  row(["6U8 triode", "", "triode pentode", 150, undefined, 56, 18, undefined, 8500, 56, [40, 5]]),
  row(["6BL8 pentode", "ECF80", "triode pentode", 170, 170, -2, 10, 2.8, 6200, 150]),
  row(["6AV6", "12AV6 EBC91", "double diode triode", 250, undefined, -2, 1.2, undefined, 1600, 1800, [100, 62.5]]),
  row(["6AT6", "12AT6 EBC90", "double diode triode", 250, undefined, -3, 1, undefined, 1200, 2700, [70, 58]]),
  row(["6SQ7", "12SQ7", "double diode triode", 250, undefined, -2, 1.1, undefined, 1175, 1800, [100, 85]]),
  row(["12AX7", "ECC83 7025", "double triode", 250, undefined, -2, 1.2, undefined, 1600, 1800, [100, 62.5]]),
  row(["12AU7", "ECC82", "double triode", 250, undefined, -8.5, 10.5, undefined, 2200, 820, [17, 7.7]]),
  row(["12AT7", "ECC81", "double triode", 250, undefined, 200, 10, undefined, 5500, 200, [60, 10.9]]),
  row(["6DJ8", "ECC88", "double triode", 90, undefined, -1.3, 15, undefined, 12500, 87, [33, 2.64]]),
  row(["6SN7", "6SN7GT", "double triode", 250, undefined, -8, 9, undefined, 2600, 890, [20, 7.7], "read"]),
  row(["6SL7", "6SL7GT", "double triode", 250, undefined, -2, 2.3, undefined, 1600, 870, [70, 44]]),
  row(["6C4", "", "triode", 250, undefined, -8.5, 10.5, undefined, 2200, 820, [17, 7.7]]),
];
const converter = (
  type: string,
  also: string,
  [plateV, screenV]: readonly [number, number],
  [plate, screen, grid, anodeGrid, cathode]: readonly [number, number, number, number, number],
  [gridOhm, micromho]: readonly [number, number],
): ConverterPoint => ({
  type,
  also: listed(also),
  tubeClass: "converter",
  plateV,
  screenV,
  plateA: plate / 1000,
  screenA: screen / 1000,
  gridA: grid / 1000,
  anodeGridA: anodeGrid / 1000,
  cathodeA: cathode / 1000,
  gridOhm,
  conversionTransconductance: micromho * 1e-6,
  seen: "from memory",
});
/** Converters, self-excited. Source: the same manuals, from memory; the currents of each sum to its cathode's. */
export const converterPoints: readonly ConverterPoint[] = [
  converter("6BE6", "12BE6 EK90", [250, 100], [2.9, 6.8, 0.5, 0, 10.2], [20e3, 475]),
  converter("6SA7", "12SA7 6SA7GT 12SA7GT", [250, 100], [3.5, 8.5, 0.5, 0, 12.5], [20e3, 450]),
  converter("6A8", "6A8GT 12A8GT", [250, 100], [3.5, 2.7, 0.4, 4, 10.6], [50e3, 550]),
];
const pair = (type: string, also: string, mostMa: number, inverseV: number): DiodePair => ({
  type,
  also: listed(also),
  tubeClass: "double diode",
  mostA: mostMa / 1000,
  inverseV,
  seen: "from memory",
});
/** Double diodes, each plate. Source: the same manuals, from memory. */
export const diodePairs: readonly DiodePair[] = [pair("6AL5", "12AL5 EB91 EAA91", 9, 330), pair("6H6", "12H6 6H6GT", 8, 420)];

const wordsOf = (said: string): readonly string[] =>
  said
    .toUpperCase()
    .split(/[^A-Z0-9]+/)
    .flatMap(namesOfType);
const isNamed = (t: Named, words: readonly string[]): boolean =>
  [t.type.split(" ")[0], ...t.also].some((n) => words.includes(n.toUpperCase()));
/** The row of a type as a socket or a pattern writes it: `6BA6`, `6BA6 class`, `12AX7 half`, `6U8 triode`. */
export const tubePointOf = (said: string): TubePoint | undefined => {
  const words = wordsOf(said);
  const own = tubePoints.filter((t) => isNamed(t, words));
  // a part that is named, such as the triode of a triode pentode, before the first one
  return own.find((t) => words.includes(t.type.toUpperCase().split(" ")[1] ?? "-")) ?? own[0];
};
/** What a type is; undefined where the tables don't have it. */
export const tubeClassOf = (said: string): TubeClass | undefined =>
  tubePointOf(said)?.tubeClass ?? [...converterPoints, ...diodePairs].find((t) => isNamed(t, wordsOf(said)))?.tubeClass;
