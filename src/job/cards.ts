import type { SetDescription } from "../set/describe";
import type { Issue } from "../units/issue";
import { longestQuantity, parseQuantity } from "../units/parse";
import type { Entry } from "./document";
import { type Form, formById } from "./forms";

interface OfJob {
  readonly inForce: readonly Entry[];
  readonly set: SetDescription;
}

/** What was last written on a card, by field; cells of its table as `row 1: Tube`. */
export function writtenOn(view: Pick<OfJob, "inForce">, id: string): Readonly<Record<string, string>> {
  const last = [...view.inForce].reverse().find((e) => e.kind === "form" && e.form === id);
  return last?.kind === "form" ? last.fields : {};
}
/** First cells of a card's rows that the set itself supplies. */
export function firstCells(view: Pick<OfJob, "set">, form: Form): readonly string[] {
  if (form.rowsFrom === "tubes") return view.set.tubes.map((t) => `${t.socket} ${t.function}`);
  if (form.rowsFrom === "bands") return view.set.bands.map((b) => b.label);
  if (form.rowsFrom === "fittings") return view.set.fittings.map((f) => f.label);
  return [];
}
/** Rows of a card as written, each by its columns; a row in which nothing but a supplied first cell stands is none. */
export function rowsOn(view: OfJob, id: string): readonly Readonly<Record<string, string>>[] {
  const form = formById(id);
  if (!form?.columns) return [];
  const { columns } = form;
  const fields = writtenOn(view, id);
  const count = Object.keys(fields).reduce((n, k) => Math.max(n, Number(/^row (\d+): /.exec(k)?.[1] ?? 0)), 0);
  const seeds = firstCells(view, form);
  return Array.from({ length: count }, (_, r) =>
    Object.fromEntries(columns.map((c, i) => [c, fields[`row ${r + 1}: ${c}`] ?? (i === 0 ? (seeds[r] ?? "") : "")])),
  ).filter((row) => columns.slice(1).some((c) => row[c] !== ""));
}

const dimensionOfCell = (column: string): "voltage" | "resistance" | "capacitance" | "current" | undefined =>
  / V$/.test(column)
    ? "voltage"
    : /Ω/.test(column)
      ? "resistance"
      : column === "Value"
        ? "capacitance"
        : / mA$/.test(column)
          ? "current"
          : undefined;
const unitOfCell = { voltage: "V", resistance: "ohm", capacitance: "uF", current: "mA" } as const;
/** Cells of the cards that sheets compute with which hold no figure that can be read, each at its place. */
export function cardIssues(id: string, fields: Readonly<Record<string, string>>): Issue[] {
  if (!["voltage-chart", "resistance-chart", "capacitors"].includes(id)) return [];
  return Object.entries(fields).flatMap(([name, text]) => {
    const column = /^row \d+: (.*)$/.exec(name)?.[1];
    const dimension = column === undefined ? undefined : dimensionOfCell(column);
    if (!dimension || text.trim() === "") return [];
    const r = parseQuantity(
      text.length <= longestQuantity && /^\s*[+-]?\d*[.,]?\d+\s*$/.test(text) ? `${text} ${unitOfCell[dimension]}` : text,
      dimension,
      name,
    );
    return r.ok ? [] : r.issues;
  });
}
