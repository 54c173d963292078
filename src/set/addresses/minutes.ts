import {
  mendTakes,
  middle,
  readingTakes,
  stepTakes,
  supplyMendTakes,
  supplyTestTakes,
  type Takes,
  testTakes,
  turnTakes,
} from "../../standards/minutes";
import { upperFirst } from "../../units/sentence";
import { addresses, type QuantityAt, quantity } from "./declare";

/** A name in one word: `screen-ohm` of the tests is `testScreenOhm`. */
const nameOf = (kind: string, id: string): string => [kind, ...id.split("-")].map((w, i) => (i === 0 ? w : upperFirst(w))).join("");
const kinds = {
  step: stepTakes,
  test: testTakes,
  mend: mendTakes,
  supplyTest: supplyTestTakes,
  supplyMend: supplyMendTakes,
  turn: turnTakes,
  reading: readingTakes,
} as const;
export type KindOfWork = keyof typeof kinds;
const takes = ({ what, hands }: Takes): QuantityAt =>
  quantity(
    "time",
    `time that it takes you to ${what}`,
    "your own experience; a clock",
    [60 * middle(hands), 30 * (hands[1] - hands[0]), "common practice, no source"],
    { positive: true, max: 1e6 },
  );

export const minutesTopic = "minutes";
/** How long a person takes for each piece of work, hands on it. */
export const minutes = addresses(
  minutesTopic,
  Object.fromEntries(Object.entries(kinds).flatMap(([kind, all]) => [...all].map(([id, t]) => [nameOf(kind, id), takes(t)] as const))),
);
/**
 * Where a person's own time for a piece of work stands.
 *
 * @param kind of work
 * @param id of it, in the table of its kind
 * @returns the address
 * @source house frame
 */
export const minutesAt = (kind: KindOfWork, id: string): string => `${minutesTopic}.${nameOf(kind, id)}`;
/**
 * What a piece of work is, and what is usual for it.
 *
 * @param kind of work
 * @param id of it
 * @returns the row of its table
 * @source common practice, no source
 */
export function usualTakes(kind: KindOfWork, id: string): Takes {
  const t = kinds[kind].get(id);
  if (!t) throw new Error(`no minutes for ${kind} ${id}`);
  return t;
}
