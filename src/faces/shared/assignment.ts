import type { Entry } from "../../job/document";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import { fittingStates } from "../../set/describe";
import { lookUp, quantityAt, withValue } from "../../set/paths";
import { canLeaves, filterLeaves } from "../../set/strip";
import { holders, quantityKeptAt } from "../../sheets/addresses";
import { rowsName, type TableInput } from "../../sheets/contract";
import { sheets } from "../../sheets/index";
import { rangeIssues, readRows } from "../../sheets/resolve";
import { type Dimension, dimensions } from "../../units/dimensions";
import { bad, good, type Read } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { printValue } from "../../units/print";
import type { Origin, Quantity } from "../../units/quantity";

interface Slot {
  readonly dimension: Dimension;
  readonly positive?: boolean;
  readonly min?: number;
  readonly max?: number;
}
/** Quantities of the set itself, by path; limits are generous: they catch a slip of the unit or the sign, not an odd set. Common practice, no source. */
const slotsByPath: Readonly<Record<string, Slot>> = {
  "line.voltage": { dimension: "voltage", positive: true, min: 20, max: 500 },
  "line.frequency": { dimension: "frequency", positive: true, min: 10, max: 1000 },
};
const slotsByName: Readonly<Record<string, Slot>> = {
  volts: { dimension: "voltage", min: -1500, max: 1500 },
  intermediateFrequency: { dimension: "frequency", positive: true, min: 10e3, max: 50e6 },
  plateWatts: { dimension: "power", positive: true },
  low: { dimension: "frequency", positive: true },
  high: { dimension: "frequency", positive: true },
};

/** What may stand at a path of the set: its dimension and range, so that what is typed there can be read and refused. */
export function slotOfPath(path: string, from: Quantity | undefined): Slot | undefined {
  const leaf = /^strip\.(?:can\d+|filter)\.(\w+)$/.exec(path)?.[1];
  if (leaf) return (canLeaves as Record<string, Slot>)[leaf] ?? (filterLeaves as Record<string, Slot>)[leaf];
  if (slotsByPath[path]) return slotsByPath[path];
  const kept = quantityKeptAt(sheets, path);
  if (kept) return kept.input;
  return from ? slotsByName[path.split(".").pop() ?? ""] : undefined;
}

/** The words that a choice kept at a path may be; undefined where none is kept there. */
function optionsAt(path: string): readonly string[] | undefined {
  const last = path.split(".").pop() ?? "";
  for (const s of sheets)
    for (const [name, input] of Object.entries(s.inputs))
      if (
        input.kind === "choice" &&
        (input.keptAt === undefined ? name === last && path.startsWith(holders[s.subject]) : input.keptAt === path)
      )
        return input.options;
  return undefined;
}

/** The rows that may be kept at a path; undefined where none are. */
function tableAt(path: string): TableInput | undefined {
  const last = path.split(".").pop() ?? "";
  for (const s of sheets)
    for (const [name, input] of Object.entries(s.inputs))
      if (input.kind === "table" && input.kept && rowsName(s.id, name) === last && path.startsWith(holders[s.subject])) return input;
  return undefined;
}

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
  const old = quantityAt(view.set, path);
  const slot = slotOfPath(path, old ?? ({} as Quantity));
  const dimension = slot?.dimension;
  const options = optionsAt(path);
  if (typeof here === "string" || (here === undefined && !dimension)) {
    if ((typeof here !== "string" && !options) || !withValue(view.set, path, text))
      return bad(path, "no-such-path", path, "the path of a quantity or fact of this set, such as line.voltage or fittings.qm.cableLength");
    const may = /^fittings\.[^.]+\.state$/.test(path) ? fittingStates : options;
    if (may && !may.includes(text)) return bad(path, "not-an-option", text, `one of ${may.join(", ")}`);
    return good({ ...head, kind: "fact", path, value: text, why });
  }
  if (!dimension || !(dimension in dimensions)) return bad(path, "no-such-path", path, "the path of a quantity of this set");
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
  if (!withValue(view.set, path, quantity)) return bad(path, "no-such-path", path, "the path of a quantity of this set");
  return good({ ...head, kind: "values", values: { [path]: quantity }, why });
}
