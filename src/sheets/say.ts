import { type Caution, cautions } from "../standards/cautions";
import type { Dimension } from "../units/dimensions";
import { printExact, printInterval, printShort, printValue } from "../units/print";
import { type Figure, type Finding, hazards, type Table } from "./contract";

/** A figure as a person reads it: interval, unit, and how often there is none; in brief without the reason. */
export function sayFigure(f: Figure, brief = false): string {
  if (f.low === null || f.high === null) return f.why ?? "no value";
  const text = f.exact
    ? sayExact(f.value ?? f.low, f.low, f.high, f.dimension)
    : f.known !== undefined && f.low === f.high
      ? printValue(f.low, f.dimension, f.known)
      : printInterval(f.value, f.low, f.high, f.dimension);
  if (f.without <= 0.005) return text;
  return `${text}; none in ${Math.max(1, Math.round(f.without * 100))} % of cases${brief ? "" : `: ${f.why ?? "no value"}`}`;
}

/** What is exact, by each of the values that it may be. */
const sayExact = (value: number, low: number, high: number, dimension: Dimension): string =>
  low === high
    ? printExact(low, dimension)
    : `${printExact(value, dimension)} (${printExact(low, dimension)} to ${printExact(high, dimension)})`;

/** A cell of a table as a person reads it. */
export function sayCell(t: Table, v: number | string, column: number): string {
  if (typeof v === "string") return v;
  const { dimension, u, exact } = t.columns[column];
  if (!Number.isFinite(v)) return "–";
  if (exact) return printExact(v, dimension);
  return u === undefined ? printShort(v, dimension) : printValue(v, dimension, u);
}

/** A figure in short: its value with the digits that its interval leaves it. */
export function aboutFigure(f: Figure): string {
  if (f.low === null || f.high === null) return f.why ?? "no value";
  if (f.exact) return printExact(f.value ?? f.low, f.dimension);
  return printValue(f.value ?? (f.low + f.high) / 2, f.dimension, f.low === f.high ? (f.known ?? 0) : (f.high - f.low) / 4);
}

/** Cautions for the hazards of these findings, once each, in the order of the hazards. */
export function cautionsFor(findings: readonly Pick<Finding, "hazards">[]): readonly Caution[] {
  const wanted = new Set(findings.flatMap((f) => f.hazards));
  return hazards.filter((h) => wanted.has(h)).flatMap((h) => cautions.filter((c) => c.hazard === h));
}
