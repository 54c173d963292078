import type { Seen } from "./rectifiers";

/** One operating point of a tube manual. SI; `gridV` is the grid against the cathode. */
export interface TubePoint {
  readonly type: string;
  /** other types with the same data */
  readonly also: readonly string[];
  readonly plateV: number;
  readonly screenV?: number;
  readonly gridV: number;
  readonly plateA: number;
  readonly screenA?: number;
  readonly transconductance: number;
  /** cathode resistor and screen feed that are usual with it, ohm: a guess where the set's own are not known */
  readonly cathodeOhm: number;
  readonly seen: Seen;
}
const source = "receiving-tube manuals of the makers";
export const tubeTableSource = source;
type Row = readonly [
  type: string,
  also: string,
  plateV: number,
  screenV: number | undefined,
  bias: number,
  plateMa: number,
  screenMa: number | undefined,
  micromho: number,
  cathodeOhm: number,
  seen?: Seen,
];
const row = ([type, also, plateV, screenV, bias, plateMa, screenMa, micromho, cathodeOhm, seen = "from memory"]: Row): TubePoint => ({
  type,
  also: also === "" ? [] : also.split(" "),
  plateV,
  ...(screenV === undefined ? {} : { screenV }),
  // a positive figure is the manual's cathode resistor: the bias is its drop
  gridV: bias > 0 ? (-bias * (plateMa + (screenMa ?? 0))) / 1000 : bias,
  plateA: plateMa / 1000,
  ...(screenMa === undefined ? {} : { screenA: screenMa / 1000 }),
  transconductance: micromho * 1e-6,
  cathodeOhm,
  seen,
});

/** Operating points of common types. Source: receiving-tube manuals, from memory but for one row; their own sums agree (Vk, gm rp = mu). */
export const tubePoints: readonly TubePoint[] = [
  row(["6BA6", "12BA6 EF93", 250, 100, 68, 11, 4.2, 4400, 68]),
  row(["6AU6", "12AU6 EF94", 250, 150, 68, 10.6, 4.3, 5200, 68]),
  row(["6BZ6", "", 125, 125, 56, 14, 3.6, 8000, 56]),
  row(["6CB6", "", 200, 150, 180, 9.5, 2.8, 6200, 180]),
  row(["6DC6", "", 200, 150, 180, 9, 3, 5500, 180]),
  row(["6SK7", "12SK7", 250, 100, -3, 9.2, 2.6, 2000, 270]),
  row(["6AQ5", "6V6 6V6GT 12AQ5", 250, 250, -12.5, 45, 4.5, 4100, 250]),
  row(["6K6", "6K6GT", 250, 250, -18, 32, 5.5, 2300, 470]),
  row(["6U8 pentode", "", 250, 110, 68, 10, 3.5, 5200, 68]),
  row(["6BL8 pentode", "ECF80", 170, 170, -2, 10, 2.8, 6200, 150]),
  row(["6AV6", "12AV6 6AT6 12AX7 ECC83", 250, undefined, -2, 1.2, undefined, 1600, 1800]),
  row(["6SQ7", "12SQ7", 250, undefined, -2, 1.1, undefined, 1175, 1800]),
  row(["6C4", "12AU7 ECC82", 250, undefined, -8.5, 10.5, undefined, 2200, 820]),
  row(["12AT7", "ECC81", 250, undefined, 200, 10, undefined, 5500, 200]),
  row(["6DJ8", "ECC88", 90, undefined, -1.3, 15, undefined, 12500, 87]),
  row(["6SN7", "6SN7GT", 250, undefined, -8, 9, undefined, 2600, 890, "read"]),
  row(["6U8 triode", "", 150, undefined, 56, 18, undefined, 8500, 56]),
];

/** The row of a type as a socket or a pattern writes it: `6BA6`, `6BA6 class`, `12AX7 half`. */
export const tubePointOf = (said: string): TubePoint | undefined => {
  const words = said.toUpperCase().split(/[^A-Z0-9]+/);
  return tubePoints.find((t) => [t.type.split(" ")[0], ...t.also].some((n) => words.includes(n.toUpperCase())));
};
