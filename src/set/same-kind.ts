import type { Quantity } from "../units/quantity";
import type { SetDescription } from "./describe";

/**
 * The description of another set of the same kind: nothing that was measured, fitted or proved on one specimen is true of the next.
 *
 * @param set the set as it stands
 * @param of what it is called, for the source of each value
 * @returns measured and fitted values as assumed ones, accessories as planned, the chassis as live or not stated
 * @source house rule
 */
export function sameKind(set: SetDescription, of: string): SetDescription {
  const plain = (q: Quantity): Quantity =>
    q.origin === "stated" || q.origin === "assumed"
      ? q
      : { value: q.value, spread: q.spread, origin: "assumed", source: `${q.origin} on another set of its kind, ${of}` };
  const walk = (x: unknown): unknown => {
    if (Array.isArray(x)) return x.map(walk);
    if (typeof x !== "object" || x === null) return x;
    if ("value" in x && "spread" in x && "origin" in x) return plain(x as Quantity);
    return Object.fromEntries(Object.entries(x).map(([k, v]) => [k, walk(v)]));
  };
  const copy = walk(set) as SetDescription;
  return {
    ...copy,
    note: `Begun as a copy of the set "${of}". ${copy.note}`,
    chassis: {
      state: set.chassis.state === "live" ? "live" : "unstated",
      isolation: "none",
      note: `${set.chassis.state === "live" ? "live in the set that it was copied from" : "not known of this set yet"}: look and prove it`,
    },
    fittings: copy.fittings.map((f) => ({ ...f, state: f.state === "offered" ? f.state : ("planned" as const) })),
  };
}
