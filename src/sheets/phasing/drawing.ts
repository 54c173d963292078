import type { DraftingOf } from "../../ask/declare";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import type { ask, G } from "./ask";

/**
 * The bridge of the crystal filter: crystal and holder against the phasing capacitor, from a winding with a middle tap.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source physics/crystal-filter.ts
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const holder = draft.value("crystalHolder");
  const off = g.verdict((i, y) => Math.abs(i.phasing - y.neutral) > 0.2e-12) === "yes";
  const can = draft.bench.strip()?.cans[0]?.label;
  return {
    kind: "circuit",
    id: "bridge",
    title: "The bridge of the crystal filter",
    nodes: [
      { id: "supply", at: [0, 0], label: "B+", end: "terminal", volts: bPlusMost(g.rating) },
      { id: "plate", at: [0, 2], label: "mixer plate", end: "onward", volts: bPlusMost(g.rating) },
      { id: "top", at: [1, 0] },
      { id: "middle", at: [1, 1] },
      { id: "tap", at: [2, 1], end: draft.common },
      { id: "bottom", at: [1, 2] },
      { id: "upper", at: [3, 0] },
      { id: "lower", at: [3, 2] },
      { id: "out", at: [3, 1] },
      { id: "grid", at: [4, 1], label: "first IF grid", end: "onward" },
      { id: "foot", at: [4, 2], end: draft.common },
    ],
    parts: [
      { kind: "tank", from: "supply", to: "plate", what: can ? `${can}, primary` : "primary", can: "first" },
      { kind: "coil", from: "top", to: "middle", what: "half winding", can: "first" },
      { kind: "coil", from: "middle", to: "bottom", what: "half winding", can: "first" },
      { kind: "wire", from: "middle", to: "tap", what: "wire" },
      {
        kind: "crystal",
        from: "top",
        to: "upper",
        what: "crystal",
        value: draft.value("crystalSeries"),
        says: holder && `holder ${holder.text}${holder.assumed ? "?" : ""}`,
      },
      {
        kind: "variable-capacitor",
        from: "bottom",
        to: "lower",
        what: "phasing",
        value: draft.value("phasing"),
        says: `neutral at ${g.about("neutral")}`,
        mark: off ? "turn" : undefined,
      },
      { kind: "wire", from: "upper", to: "out", what: "wire" },
      { kind: "wire", from: "lower", to: "out", what: "wire" },
      { kind: "wire", from: "out", to: "grid", what: "wire" },
      { kind: "resistor", from: "grid", to: "foot", what: "load, source included", value: draft.value("crystalAround") },
    ],
    tubes: [],
  };
}
