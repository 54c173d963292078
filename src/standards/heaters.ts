import type { Seen } from "./rectifiers";

/** What a tube's heater takes: volts side by side with others, and amperes then. */
export interface Heater {
  readonly types: readonly string[];
  readonly volts: number;
  readonly ampere: number;
  readonly seen: Seen;
}
const row = (types: string, volts: number, ampere: number, seen: Seen = "from memory"): Heater => ({
  types: types.split(" "),
  volts,
  ampere,
  seen,
});

/**
 * Heaters of common receiving tubes. Source: makers' receiving-tube manuals; each row says whether it was read or is from memory. A heater with a tap
 * (12AX7 and its like) stands with its halves side by side. A rectifier on a winding of its own is not here.
 */
export const heaters: readonly Heater[] = [
  row("12AX7 ECC83 7025", 6.3, 0.3, "read on a page that quotes it"),
  row("6SN7 6SN7GT", 6.3, 0.6, "read on a page that quotes it"),
  row("12AT7 ECC81 12AU7 ECC82", 6.3, 0.3),
  row("6BA6 EF93 6AU6 EF94 6BZ6 6CB6 6DC6 6SK7 6SJ7 6SG7 6K7 6J7", 6.3, 0.3),
  row("6BE6 EK90 6SA7 6SA7GT 6A8 6A8GT 6K8 6L7", 6.3, 0.3),
  row("6AV6 EBC91 6AT6 EBC90 6SQ7 6AL5 EB91 EAA91 6H6 6H6GT 6J5 6J5GT 6SL7 6SL7GT", 6.3, 0.3),
  row("6C4 EC90 6SS7", 6.3, 0.15),
  row("6AQ5 EL90 6V6 6V6GT 6U8 6J6", 6.3, 0.45),
  row("6BL8 ECF80", 6.3, 0.43),
  row("6DJ8 ECC88", 6.3, 0.365),
  row("6K6 6K6GT", 6.3, 0.4),
  row("6BQ5 EL84", 6.3, 0.76),
  row("6L6 6L6G 6L6GB", 6.3, 0.9),
  row("6X4 6X5 6X5GT", 6.3, 0.6),
  row("12BA6 12BE6 12AV6 12AT6 12AU6 12SK7 12SA7 12SA7GT 12SQ7 12AL5 12H6", 12.6, 0.15),
  row("12AQ5", 12.6, 0.225),
  row("50C5 50B5 50L6 50L6GT", 50, 0.15),
  row("35C5 35B5 35L6 35L6GT 35W4 35Z5 35Z5GT", 35, 0.15),
];
/** Rectifiers that are heated by a winding of their own. Source: the same manuals, from memory. */
const ownWinding = /^(?:5[A-Z]\w*|80)$/;

const wordsOf = (said: string): readonly string[] => said.toUpperCase().split(/[^A-Z0-9]+/);
/** The heater of a type as a socket or a pattern writes it, such as `6BA6 class`; undefined where the table doesn't have it. */
export const heaterOf = (said: string): Heater | undefined => {
  const words = wordsOf(said);
  return heaters.find((h) => h.types.some((t) => words.includes(t.toUpperCase())));
};
/** Whether what stands in a socket is heated by a winding of its own. */
export const isHeatedApart = (said: string): boolean => wordsOf(said).some((w) => ownWinding.test(w));

/** What a tube that isn't in the table may take, A: nine of ten small tubes lie within half of it. Common practice, no source. */
export const unknownHeaterA = { value: 0.3, half: 0.15 } as const;
/** What a heater may lie off its rated volts. Source: a maker's sheet of the 6X4, 6.3 V within 10 %, read. */
export const heaterLimit = { share: 0.1, source: "a maker's sheet of a 6.3 V tube, within 10 %, read" } as const;
