import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { printValue } from "../../units/print";
import type { ask, G } from "./ask";

/**
 * The marker crystal with its load and the trimmer that pulls it.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source physics/crystal-pull.ts
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const change = g.figures.trimmerChange;
  const by =
    change.value === null
      ? undefined
      : `${printValue(Math.abs(change.value), "capacitance", 0.1e-12)} ${change.value > 0 ? "more" : "less"}`;
  const holder = draft.value("shuntCapacitance");
  return ladder({ id: "crystal", title: "The marker crystal and its trimmer", common: draft.common }, [
    { series: { kind: "block", what: "" }, label: "oscillator", end: "onward" },
    {
      series: { kind: "crystal", what: "crystal", says: holder && `holder ${holder.text}${holder.assumed ? "?" : ""}` },
      down: [
        [{ kind: "capacitor", what: "load, all together", value: draft.value("loadCapacitance") }],
        [{ kind: "trimmer", what: "trimmer", says: by ?? "nudge it first", mark: "turn" }],
      ],
    },
  ]);
}
