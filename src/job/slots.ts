import { rowsName } from "../ask/contract";
import type { TableInput } from "../ask/inputs";
import { quantityKeptAt } from "../ask/kept-names";
import { rangeIssues } from "../ask/resolve";
import { readRows } from "../set/columns";
import type { SetDescription } from "../set/describe";
import { factWords } from "../set/facts";
import { lookUp, quantityAt, withValue } from "../set/paths";
import { canLeaves, filterLeaves } from "../set/strip";
import { sheets } from "../sheets/index";
import type { Dimension } from "../units/dimensions";
import type { Issue } from "../units/issue";
import { own } from "../units/own";
import type { Quantity } from "../units/quantity";

export interface Slot {
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
  if (leaf) return own<Slot>(canLeaves, leaf) ?? own<Slot>(filterLeaves, leaf);
  const slot = own(slotsByPath, path);
  if (slot) return slot;
  const kept = quantityKeptAt(sheets, path);
  if (kept) return kept.input;
  return from ? own(slotsByName, path.split(".").pop() ?? "") : undefined;
}

const holders: Readonly<Record<string, string>> = {
  band: "bands.",
  fitting: "fittings.",
  stage: "stages.",
  set: "supplies.",
  tube: "tubes.",
};
/** Whether a path is an address, or one of those that it stands for. */
const isAt = (address: string, path: string): boolean => {
  const [before, after] = address.split("*");
  return after === undefined ? path === address : path.startsWith(before) && path.endsWith(after);
};
/** The words that a choice kept at a path may be; undefined where none is kept there. */
export function optionsAt(path: string): readonly string[] | undefined {
  const last = path.split(".").pop() ?? "";
  for (const s of sheets)
    for (const [name, input] of Object.entries(s.inputs))
      if (
        input.kind === "choice" &&
        (input.at !== undefined
          ? isAt(input.at, path)
          : input.keptAt === undefined
            ? name === last && path.startsWith(holders[s.subject])
            : input.keptAt === path)
      )
        return input.options;
  return undefined;
}

/** The rows that may be kept at a path; undefined where none are. */
export function tableAt(path: string): TableInput | undefined {
  const last = path.split(".").pop() ?? "";
  for (const s of sheets)
    for (const [name, input] of Object.entries(s.inputs))
      if (
        input.kind === "table" &&
        (input.at !== undefined ? isAt(input.at, path) : input.kept && rowsName(s.id, name) === last && path.startsWith(holders[s.subject]))
      )
        return input;
  return undefined;
}

const nowhere = (path: string): Issue => ({
  path,
  code: "no-such-path",
  read: path,
  expected: "the path of a quantity or fact of this set, such as line.voltage or fittings.qm.cableLength",
});
/**
 * What is wrong with a value or fact at a path of a set: a path that a set has not, a word that may not stand there, a quantity out of range.
 *
 * @param set the set
 * @param path such as `line.voltage`, `bands.80.oscillator`
 * @param value what is to stand there
 * @returns nothing where it may stand
 * @source house frame
 */
export function placeIssues(set: SetDescription, path: string, value: Quantity | string): Issue[] {
  if (typeof value === "string") {
    const table = tableAt(path);
    const rows = table && readRows(value, path, table);
    if (rows && !rows.ok) return [...rows.issues];
    const words = factWords(path) ?? optionsAt(path);
    if (words && !words.includes(value)) return [{ path, code: "not-an-option", read: value, expected: `one of ${words.join(", ")}` }];
    if (!table && !words && typeof lookUp(set, path) !== "string") return [nowhere(path)];
  } else {
    const slot = slotOfPath(path, quantityAt(set, path));
    if (!slot) return [nowhere(path)];
    // what a fit gave was judged by the fit
    const issues = value.origin === "fitted" ? [] : rangeIssues(path, slot, value);
    if (issues.length > 0) return issues;
  }
  return withValue(set, path, value) ? [] : [nowhere(path)];
}
