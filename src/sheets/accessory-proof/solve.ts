import type { NoValue } from "../../ask/results";
import { readingsThatProve } from "../inputs/accessory";
import type { Asked } from "./ask";

type Reading = number | undefined;
const isThere = (a: Reading): a is number => a !== undefined;
const notBoth: NoValue = { none: "one or both readings are missing" };
const both = (a: Reading, b: Reading, law: (a: number, b: number) => number): number | NoValue =>
  isThere(a) && isThere(b) ? law(a, b) : notBoth;

/** Whether the receiver feeds it. */
export const isFed = (x: Pick<Asked, "powerFrom">): boolean => x.powerFrom === "the receiver";
/**
 * Readings that both states still lack.
 *
 * @param x plain inputs
 * @returns their names
 * @source readingsThatProve
 */
export function lacking(x: Asked): readonly string[] {
  const held: Readonly<Record<string, unknown>> = { ...x };
  return readingsThatProve(x.kind, isFed(x)).filter((n) => held[n] === undefined);
}

/**
 * What the readings of both states say.
 *
 * @param x plain inputs, SI; undefined where nobody has read it
 * @returns results: changes in dB and as shares, V, Hz; what was not read has no value
 * @source gain from levels that give the same output: 20 log of their ratio
 */
export function solve(x: Asked) {
  // less level for the same output is more gain
  const gain = (from: number, to: number): number => 20 * Math.log10(from / to) + x.levelDoubt;
  const gainWith = both(x.levelWithout, x.levelWith, gain);
  return {
    gainLeft: both(x.levelBefore, x.levelWithout, gain),
    gainWith,
    beyond: typeof gainWith === "number" ? gainWith - x.statedGain : notBoth,
    widthLeft: both(x.widthBefore, x.widthWithout, (a, b) => b / a - 1),
    widthGiven: both(x.widthWithout, x.widthWith, (a, b) => b / a),
    bPlusFall: both(x.tapWithout, x.tapWith, (a, b) => (a > 0 ? 1 - b / a : Number.NaN)),
    heaterOff: x.heaterVolts === undefined ? { none: "not read" } : x.heaterVolts / x.heaterRated - 1,
    pull: x.pulled ?? { none: "not read" },
    connector: x.connectorRead ?? { none: "not read" },
    toRead: lacking(x).length,
  };
}
