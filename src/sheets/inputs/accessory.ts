import type { Bench } from "../../set/bench";
import { isOfAccessory } from "../../set/sockets";
import { heaterOf, isHeatedApart, unknownHeaterA } from "../../standards/heaters";
import { type Quantity, tolerance } from "../../units/quantity";

/** Kind of the accessory that a question is about, such as `q-multiplier`. */
export const accessoryKind = (b: Bench): string => b.choice(`${b.at}.kind`) ?? "";
/** What the accessory is called in this job. */
export const accessoryLabel = (b: Bench): string => b.choice(`${b.at}.label`) ?? "";

const practice = "common practice, no source";
/** What is usual of a kind of accessory: B+ current and heater current, each with half its width, A. Common practice, no source. */
const usualOf: Readonly<Record<string, readonly [plate: readonly [number, number], heater: readonly [number, number], tubes: string]>> = {
  "q-multiplier": [[0.0025, 0.001], [0.3, 0.03], "one double triode such as a 12AX7"],
  "marker-generator": [[0.005, 0.002], [0.3, 0.1], "one pentode or double triode"],
  converter: [[0.02, 0.006], [0.75, 0.3], "two or three tubes"],
};
const usual =
  (which: 0 | 1) =>
  (b: Bench): Quantity => {
    const own = usualOf[accessoryKind(b)] ?? usualOf["q-multiplier"];
    const [value, half] = own[which];
    return { value, spread: tolerance(half), origin: "assumed", source: `${own[2]}, ${practice}` };
  };
/** B+ current that is usual of the kind, where nobody has read it. */
export const usualSupplyCurrent = usual(0);
/** Heater current that is usual of the kind. */
export const usualHeaterCurrent = usual(1);

/** Two dial lamps of 0.15 A, one more or less. Source: lists of lamps, 6.3 V 0.15 A (read); their number, common practice. */
const lampsA = { value: 0.3, half: 0.15 } as const;

/**
 * What the receiver's own heaters draw from a 6.3 V winding, by its tubes: each by the tube manual, an unknown one as a small tube's, and its dial lamps.
 *
 * @param b the set
 * @returns A with half its width; undefined where the set names no tubes, or has heaters in a string
 * @source heaters.ts
 */
export function heaterLoadOf(b: Bench): Quantity | undefined {
  const own = b.tubes().filter((t) => !isHeatedApart(t.type) && !isOfAccessory(t.socket));
  const known = own.map((t) => heaterOf(t.type));
  if (own.length === 0 || known.some((h) => h && h.volts > 6.4)) return undefined;
  const unknown = known.filter((h) => !h).length;
  const value = known.reduce<number>((sum, h) => sum + (h?.ampere ?? unknownHeaterA.value), lampsA.value);
  const source = `${own.length} tubes by the tube manual${unknown > 0 ? `, ${unknown} of them not in the table` : ""}, and two dial lamps`;
  return { value, spread: tolerance(lampsA.half + unknown * unknownHeaterA.half + 0.03 * value), origin: "assumed", source };
}

/** What proves both states of an accessory, by its kind: names of what is read. */
const provedBy: Readonly<Record<string, readonly string[]>> = {
  "q-multiplier": ["levelBefore", "levelWithout", "levelWith", "widthBefore", "widthWithout", "connectorRead"],
  "marker-generator": ["levelBefore", "levelWithout", "pulled"],
  converter: ["levelBefore", "levelWithout", "levelWith"],
};
const provedFed = ["tapWithout", "tapWith", "heaterVolts"] as const;
/**
 * Names of the readings that prove both states of an accessory.
 *
 * @param kind of the accessory; another kind wants what a Q multiplier does
 * @param fed whether the receiver feeds it
 * @returns names at `fittings.*`
 * @source common practice, no source
 */
export const readingsThatProve = (kind: string, fed: boolean): readonly string[] => [
  ...(provedBy[kind] ?? provedBy["q-multiplier"]),
  ...(fed ? provedFed : []),
];
