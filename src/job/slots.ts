import { rangeIssues } from "../ask/ranges";
import { addressAt } from "../set/addresses";
import type { QuantityAt, StoredAt } from "../set/addresses/declare";
import { rowsFromStore } from "../set/columns";
import type { SetDescription, StoredRow } from "../set/describe";
import { factWords } from "../set/facts";
import { lookUp, withValue } from "../set/paths";
import { canLeaves, filterLeaves } from "../set/strip";
import type { Issue } from "../units/issue";
import { own } from "../units/own";
import type { Quantity } from "../units/quantity";

/**
 * What may stand at a path of the set: of its addresses, or a leaf of the strip.
 *
 * @param path such as `line.voltage`, `strip.can1.primaryQ`
 * @returns the declaration; undefined where none is
 * @source house frame
 */
export function declaredAt(path: string): StoredAt | undefined {
  const leaf = /^strip\.(?:can\d+|filter)\.(\w+)$/.exec(path)?.[1];
  const slot = leaf === undefined ? undefined : (own<Leaf>(canLeaves, leaf) ?? own<Leaf>(filterLeaves, leaf));
  if (slot) return { kind: "quantity", howMeasured: "the service sheet, or a sweep", ...slot };
  return addressAt(path);
}
type Leaf = Pick<QuantityAt, "dimension" | "meaning" | "positive" | "min" | "max">;

/**
 * Whether a path of a fitting is one that its kind has.
 *
 * @param set the set
 * @param path of the set
 * @returns true for any path that is no fitting's own
 * @source house frame
 */
export function isOfThisFitting(set: SetDescription, path: string): boolean {
  const at = addressAt(path);
  if (at?.fitting === undefined) return true;
  return set.fittings.some((f) => f.kind === at.fitting && path.startsWith(`fittings.${f.id}.`));
}

const nowhere = (path: string): Issue => ({
  path,
  code: "no-such-path",
  read: path,
  expected: "the path of a quantity or fact of this set, such as line.voltage or fittings.qm.cableLength",
});
/**
 * What is wrong with a value, a fact or rows at a path of a set: a path that a set has not, a word that may not stand there, a quantity out of range.
 *
 * @param set the set
 * @param path such as `line.voltage`, `bands.80.oscillator`
 * @param value what is to stand there
 * @returns nothing where it may stand
 * @source house frame
 */
export function placeIssues(set: SetDescription, path: string, value: Quantity | string | readonly StoredRow[]): Issue[] {
  const at = declaredAt(path);
  if (!isOfThisFitting(set, path)) return [nowhere(path)];
  const own =
    typeof value === "string" ? wordIssues(set, path, value, at) : isRows(value) ? rowIssues(path, value, at) : sizeIssues(path, value, at);
  if (own.length > 0) return own;
  return withValue(set, path, value) ? [] : [nowhere(path)];
}
const isRows = (x: Quantity | readonly StoredRow[]): x is readonly StoredRow[] => Array.isArray(x);

function wordIssues(set: SetDescription, path: string, said: string, at: StoredAt | undefined): Issue[] {
  const words = factWords(path) ?? (at?.kind === "choice" ? at.options : undefined);
  if (words && !words.includes(said)) return [{ path, code: "not-an-option", read: said, expected: `one of ${words.join(", ")}` }];
  return words || typeof lookUp(set, path) === "string" ? [] : [nowhere(path)];
}
function rowIssues(path: string, rows: readonly StoredRow[], at: StoredAt | undefined): Issue[] {
  if (at?.kind !== "list") return [nowhere(path)];
  if (rows.length > at.mostRows) return [{ path, code: "too-many-rows", read: `${rows.length} rows`, expected: `at most ${at.mostRows}` }];
  return rowsFromStore(rows, at.columns)
    ? []
    : [{ path, code: "not-its-columns", read: `${rows.length} rows`, expected: `rows of ${Object.keys(at.columns).join(", ")}` }];
}
function sizeIssues(path: string, q: Quantity, at: StoredAt | undefined): Issue[] {
  if (at?.kind !== "quantity") return [nowhere(path)];
  // what a fit gave was judged by the fit
  return q.origin === "fitted" ? [] : rangeIssues(path, at, q);
}
