import { onceFor } from "../numerics/once";
import { line } from "../set/addresses/power";
import { lineThen } from "../sheets/inputs/card-rows";
import { printValue } from "../units/print";
import type { CardRow } from "./cards";
import type { JobView } from "./fold";
import { asDone } from "./held-back";
import { onCard } from "./place-in";

/** Readings with a longer pause between them are of two sessions, h. Common practice, no source. */
const sessionHours = 12;
const chart = "voltage-chart";
const readingOf = /^(row \d+): Measured V$/;
const rowsIn = (fields: Readonly<Record<string, string>>): string[] => Object.keys(fields).flatMap((f) => readingOf.exec(f)?.[1] ?? []);

/**
 * The line at each reading of the voltage chart: as it was said last when the volts were written, by when each was done, whatever was held back and came in
 * after. A line that is said alone, before any work and within the session, is said late or corrected, and is of the readings before it.
 *
 * @param view the job
 * @returns the line as it was written, by row, such as `row 4`; none where nobody had said one
 * @source house rule
 */
export const linesThen = (view: Pick<JobView, "inForce">): ReadonlyMap<string, string> => linesIn(view.inForce);
const linesIn = onceFor((inForce: JobView["inForce"]): ReadonlyMap<string, string> => {
  const out = new Map<string, string>();
  const session = new Set<string>();
  let now: string | undefined;
  let last = 0;
  const say = (text: string, alone: boolean): void => {
    now = text.trim() || undefined;
    if (alone && now !== undefined) for (const row of session) out.set(row, now);
  };
  // volts that came in late stand on the card like any others: each row has the line of those that stand
  const standing = new Map<string, string>();
  for (const e of onCard(inForce, chart)) for (const row of rowsIn(e.fields)) standing.set(row, e.id);
  if (standing.size === 0) return out;
  for (const e of asDone(inForce)) {
    const at = Date.parse(e.at);
    if (e.kind === "work" || e.kind === "part" || at - last > 3.6e6 * sessionHours) session.clear();
    last = at;
    if (e.kind === "values" && Object.hasOwn(e.values, line.today.address))
      say(printValue(e.values[line.today.address].value, "voltage"), true);
    if (e.kind !== "form" || e.form !== chart) continue;
    const read = rowsIn(e.fields);
    if ("Line volts" in e.fields) say(e.fields["Line volts"], read.length === 0);
    for (const row of read) {
      if (standing.get(row) !== e.id) continue;
      session.add(row);
      if (now === undefined) out.delete(row);
      else out.set(row, now);
    }
  }
  return out;
});

/**
 * Rows of the voltage chart, each with the line at its reading: sheets judge it by that where it is another than now.
 *
 * @param view the job
 * @param rows as they stand on the card
 * @returns the rows of the voltage chart with a cell more
 * @source house rule
 */
export function withLinesThen(view: Pick<JobView, "inForce">, rows: readonly CardRow[]): readonly CardRow["cells"][] {
  const lines = linesThen(view);
  return rows.map(({ number, cells }) => ({ ...cells, [lineThen]: lines.get(`row ${number}`) ?? "" }));
}
