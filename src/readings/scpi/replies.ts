import { bad, good, type Read } from "../../units/issue";

/** What an instrument answered when it was asked for a number. */
export type NumberReply =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "overload" }
  | { readonly kind: "nothing" };
/** Largest magnitude that is a reading; above it stand the marks for overload and for no number at all. */
const largestReading = 9.8e37;
const notANumber = 9.905e37;

/**
 * A number as an instrument sends it: 273, 0.273 or 2.73E+2, with no unit.
 *
 * @param reply one line, without its end
 * @param path whose reply it is
 * @returns the number; 9.9E+37 is overload, 9.91E+37 no number; or the located issue
 * @source forms NR1 to NR3 as a maker's manual states them (read); 9.9E+37 and 9.91E+37 of SCPI as makers' manuals state them (read)
 */
export function readNumber(reply: string, path: string): Read<NumberReply> {
  const text = reply.trim();
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)(?:E[+-]?\d{1,3})?$/i.test(text)) return bad(path, "not-a-number", reply, "one number, such as 2.73E+02");
  const value = Number(text);
  if (Math.abs(value) < largestReading) return good({ kind: "number", value });
  return good({ kind: Math.abs(value) < notANumber ? "overload" : "nothing" });
}

/** A line of an instrument's list of errors. */
export interface ErrorReply {
  readonly code: number;
  readonly says: string;
}
/**
 * A reply to the question for the next error: -113,"Undefined header"; 0 where there is none.
 *
 * @param reply one line
 * @param path whose reply it is
 * @returns number and words, or the located issue
 * @source SCPI-99, 21.8, from memory
 */
export function readError(reply: string, path: string): Read<ErrorReply> {
  const m = /^([+-]?\d{1,5})\s*(?:,\s*"?((?:[^"]|"")*)"?)?$/.exec(reply.trim());
  if (!m) return bad(path, "not-an-error", reply, 'the number and words of an error, such as 0,"No error"');
  return good({ code: Number(m[1]), says: (m[2] ?? "").replaceAll('""', '"') });
}

/**
 * Who an instrument says it is: maker, model, serial number and firmware, in one line.
 *
 * @param reply one line
 * @param path whose reply it is
 * @returns maker and model, or the located issue
 * @source IEEE 488.2 *IDN?: four fields between commas in one reply (read in a public library's discussion)
 */
export function readIdentity(reply: string, path: string): Read<string> {
  const fields = reply.split(",").map((f) => f.trim());
  if (fields.length < 2 || fields.length > 8 || fields[0] === "" || fields[1] === "")
    return bad(path, "no-identity", reply, "maker, model, serial number and firmware, with commas between them");
  return good(`${fields[0]} ${fields[1]}`);
}

/**
 * Whether a switch is on: 1 or 0, ON or OFF.
 *
 * @param reply one line
 * @param path whose reply it is
 * @returns true where it is on, or the located issue
 * @source SCPI boolean as a maker's manual states it (read): it's set by ON, OFF or a number, and answers 1 or 0
 */
export function readSwitch(reply: string, path: string): Read<boolean> {
  const text = reply.trim().toUpperCase();
  if (text === "1" || text === "ON" || text === "+1") return good(true);
  if (text === "0" || text === "OFF" || text === "+0") return good(false);
  return bad(path, "not-a-switch", reply, "1 or 0, on or off");
}
