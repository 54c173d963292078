import { type Fault, isOpenFault } from "./faults";

const shown = (f: Fault): string => (f.state === "open again" && f.signs.length > 0 ? f.signs[0].says : f.words);
/**
 * A fault in a few words: where it is, and its cause, or what shows it.
 *
 * @param f the fault
 * @returns such as `First IF tube (V4): screen is low: 66.5 V where this meter should read 103 V`
 * @source house frame
 */
export const faultInShort = (f: Fault): string => `${f.label}: ${f.state === "open again" || !f.cause ? shown(f) : f.cause}`;
/**
 * Whether a fault is still in the set: nobody has mended it, or it came back.
 *
 * @param f the fault
 * @returns false for one that is mended, closed or left
 * @source house frame
 */
export const isUnmended = (f: Fault): boolean => isOpenFault(f) && f.state !== "mended" && f.state !== "proved";
