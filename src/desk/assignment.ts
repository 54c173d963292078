import { rangeIssues } from "../ask/ranges";
import type { Entry } from "../job/document";
import { pathInThree } from "../job/migrations";
import { meterAt } from "../job/sitting";
import { declaredAt, isOfThisFitting } from "../job/slots";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { readRows, rowsToStore } from "../set/columns";
import { factWords } from "../set/facts";
import { lookUp, quantityAt, withValue } from "../set/paths";
import { type ReadWith, withBareDoubt } from "../units/bare";
import { bad, good, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { printValue } from "../units/print";
import type { Origin, Quantity } from "../units/quantity";
import { isDescribed, nearestPaths, readAt, readByRollUps } from "./read-paths";

const nothingReads = (view: JobView, path: string) =>
  bad(path, "no-such-path", path, `a path that a question reads: a value here would change nothing. Closest: ${nearestPaths(view, path)}`);

/**
 * One `path=value` of the set as an entry: a quantity with its origin, a fact, or rows.
 *
 * @param view the job
 * @param said the path, today's or that of an older format
 * @param text the value as typed
 * @param how where a quantity comes from, and why it is recorded
 * @param stamp who, when, and the entry's id
 * @returns the entry, or what is wrong, at its path
 * @source house frame
 */
export function assignment(
  view: JobView,
  said: string,
  text: string,
  how: { readonly origin: Origin; readonly why: string },
  stamp: Stamp,
): Read<Entry> {
  const path = pathInThree(said);
  const head = { id: stamp.newId(), at: stamp.at, who: stamp.who };
  if (path.split(".").includes("chassis"))
    return bad(path, "proved-by-an-act", text, "the act that proves it, with what was measured: fettle chassis JOB STATE");
  if (path === "line.voltage" && how.origin === "measured")
    return bad(
      path,
      "rated-not-today",
      text,
      "line.today for what a meter reads at the outlet; line.voltage is the line rating on the type plate, with --origin stated",
    );
  const at = isOfThisFitting(view.set, path) ? declaredAt(path) : undefined;
  if (at?.kind === "list") {
    const rows = readRows(text, path, at);
    if (!rows.ok) return rows;
    const stored = rowsToStore(rows.value, at.columns);
    if (!withValue(view.set, path, stored)) return bad(path, "no-such-path", path, "the path of a subject of this set");
    return good({ ...head, kind: "rows", path, rows: stored, why: how.why });
  }
  if (at?.kind === "quantity") {
    const q = quantityFor(view, path, text, { ...how, meter: meterAt(view, stamp.at) });
    if (!q.ok) return q;
    return good({ ...head, kind: "values", values: { [path]: q.value }, why: how.why });
  }
  const words = factWords(path) ?? at?.options;
  if (words && !words.includes(text)) return bad(path, "not-an-option", text, `one of ${words.join(", ")}`);
  const here = path.startsWith("strip.") ? undefined : lookUp(view.set, path);
  if ((typeof here !== "string" && !words) || !withValue(view.set, path, text)) return nothingReads(view, path);
  return good({ ...head, kind: "fact", path, value: text, why: how.why });
}

/** A quantity that is to stand at a path, read and judged by its declaration. */
function quantityFor(
  view: JobView,
  path: string,
  text: string,
  { origin, why, meter }: { readonly origin: Origin; readonly why: string; readonly meter: ReadWith | undefined },
): Read<Quantity> {
  const at = declaredAt(path);
  const isRead = isDescribed(view, path) || path.startsWith("strip.") || readByRollUps(path) || readAt(view, path) !== undefined;
  if (at?.kind !== "quantity" || !isRead) return nothingReads(view, path);
  const q = parseQuantity(text, at.dimension, path);
  if (!q.ok) return q;
  const quantity = withBareDoubt({ value: q.value.value, spread: q.value.spread, origin, source: why }, at, { text, meter });
  const issues = [...rangeIssues(path, at, quantity), ...crossed(view, path, text, quantity)];
  if (issues.length > 0) return { ok: false, issues };
  return withValue(view.set, path, quantity) ? good(quantity) : nothingReads(view, path);
}

/** An end of a band that would lie beyond its other end. */
function crossed(view: JobView, path: string, text: string, { value }: Quantity) {
  const end = /^(bands\.[^.]+)\.(low|high)$/.exec(path);
  const other = end && quantityAt(view.set, `${end[1]}.${end[2] === "low" ? "high" : "low"}`);
  if (!other || (end[2] === "low" ? value < other.value : value > other.value)) return [];
  const expected = `${end[2] === "low" ? "less" : "more"} than the band's other end, ${printValue(other.value, "frequency", other.value / 1e5)}`;
  return [{ path, code: "crossed", read: text, expected }];
}
