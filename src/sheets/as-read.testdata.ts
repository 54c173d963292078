import type { AnySheet } from "../ask/contract";
import type { Column } from "../set/columns";
import { type Dimension, dimensionOf } from "../units/dimensions";
import { printValue } from "../units/print";

/** What is read at the set, typed in as the sheet's own example has it: so that its findings are those of readings. */
export function asRead(s: AnySheet): Record<string, string> {
  const si = (d: Dimension | undefined): string => dimensionOf(d ?? "ratio").si;
  const cell = (c: Column, v: number): string =>
    c.options
      ? c.options[v]
      : !Number.isFinite(v)
        ? ""
        : c.dimension === "sReading"
          ? printValue(v, "sReading")
          : `${v} ${si(c.dimension)}`;
  return Object.fromEntries([
    ...Object.entries(statedFirst(s)),
    ...(s.observed ?? []).map((n) => {
      const input = s.inputs[n];
      if (input.kind === "table")
        return [
          n,
          input.assumed.rows
            .map((r) =>
              Object.entries(input.columns)
                .map(([k, c]) => cell(c, r[k]))
                .join(", "),
            )
            .join("; "),
        ];
      return [n, input.kind === "quantity" ? `${input.assumed?.value} ${si(input.dimension)}` : ""];
    }),
  ]);
}
/** Facts of a job that are never assumed: what rests on them has no value before. */
export const statedFirst = (s: AnySheet): Record<string, string> => (s.inputs.region ? { region: "ITU Region 1" } : {});
