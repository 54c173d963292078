import { quantityKeptAt } from "../ask/kept-names";
import { rangeIssues } from "../ask/resolve";
import type { Entry } from "../job/document";
import { optionsAt, type Slot, slotOfPath, tableAt } from "../job/slots";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { readRows } from "../set/columns";
import { factWords } from "../set/facts";
import { lookUp, quantityAt, withValue } from "../set/paths";
import { sheets } from "../sheets/index";
import { dimensions } from "../units/dimensions";
import { bad, good, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { printValue } from "../units/print";
import type { Origin, Quantity } from "../units/quantity";
import { isDescribed, nearestPaths, pathsRead } from "./read-paths";

/** What may stand at a path that is the set's own or that a question reads; undefined at any other. */
const readSlot = (view: JobView, path: string): Slot | undefined =>
  isDescribed(view, path) || /^strip\./.test(path) ? slotOfPath(path, quantityAt(view.set, path)) : pathsRead(view).get(path);
const nothingReads = (view: JobView, path: string) =>
  bad(
    path,
    "no-such-path",
    path,
    `a path that some question reads: a value here would change nothing. Near it: ${nearestPaths(view, path)}`,
  );

/** One `path=value` of the set as an entry: a quantity with its origin, or a fact. */
export function assignment(view: JobView, said: string, text: string, origin: Origin, why: string, stamp: Stamp): Read<Entry> {
  // an older name of a quantity leads to where it is kept today
  const path = quantityKeptAt(sheets, said)?.path ?? said;
  if (path.startsWith("chassis."))
    return bad(path, "proved-by-an-act", text, "the act that proves it, with what was measured: fettle chassis JOB STATE");
  const table = tableAt(path);
  if (table) {
    const rows = readRows(text, path, table);
    if (!rows.ok) return rows;
    if (!withValue(view.set, path, text)) return bad(path, "no-such-path", path, "the path of a subject of this set");
    return good({ id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "fact", path, value: text, why });
  }
  const here = path.startsWith("strip.can") || path.startsWith("strip.filter") ? undefined : lookUp(view.set, path);
  const head = { id: stamp.newId(), at: stamp.at, who: stamp.who };
  if (path === "line.voltage" && origin === "measured")
    return bad(
      path,
      "rated-not-today",
      text,
      "line.today for what a meter reads at the outlet; line.voltage is the rated line of the type plate, with --origin stated",
    );
  const slot = readSlot(view, path);
  const dimension = slot?.dimension;
  const options = optionsAt(path);
  if (typeof here === "string" || (here === undefined && !dimension)) {
    const may = factWords(path) ?? options;
    if (may && !may.includes(text)) return bad(path, "not-an-option", text, `one of ${may.join(", ")}`);
    if ((typeof here !== "string" && !options) || !withValue(view.set, path, text)) return nothingReads(view, path);
    return good({ ...head, kind: "fact", path, value: text, why });
  }
  if (!dimension || !(dimension in dimensions)) return nothingReads(view, path);
  const q = parseQuantity(text, dimension, path);
  if (!q.ok) return q;
  const quantity: Quantity = { value: q.value.value, spread: q.value.spread, origin, source: why };
  const issues = slot ? rangeIssues(path, slot, quantity) : [];
  if (issues.length > 0) return { ok: false, issues };
  const end = /^(bands\.[^.]+)\.(low|high)$/.exec(path);
  const other = end && quantityAt(view.set, `${end[1]}.${end[2] === "low" ? "high" : "low"}`);
  if (other && (end[2] === "low" ? quantity.value >= other.value : quantity.value <= other.value))
    return bad(
      path,
      "crossed",
      text,
      `${end[2] === "low" ? "less" : "more"} than the band's other end, ${printValue(other.value, "frequency", other.value / 1e5)}`,
    );
  if (!withValue(view.set, path, quantity)) return nothingReads(view, path);
  return good({ ...head, kind: "values", values: { [path]: quantity }, why });
}
