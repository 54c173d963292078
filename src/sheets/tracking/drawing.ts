import type { DraftingOf } from "../../ask/declare";
import type { Shown } from "../../ask/drawn/circuit";
import { type Loose, ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { printValue } from "../../units/print";
import { tubeOfKind } from "../inputs/drawn-chart";
import type { ask, G } from "./ask";

/** A turn of a screw in words, such as `1/4 turn clockwise`. */
function turned(v: number | null): string | undefined {
  if (v === null || Math.abs(v) < 0.02) return undefined;
  const quarters = Math.round(Math.abs(v) * 8) / 8;
  const said = quarters < 0.125 ? "a touch" : `${printValue(quarters, "ratio", 0.05)} turn`;
  return `${said} ${v > 0 ? "clockwise" : "counterclockwise"}`;
}

/**
 * The oscillator's tuned circuit on this band: gang, padder, trimmer and slug, each as it should be, and what is turned by how much.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source physics/tracking.ts
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const { figures } = g;
  const by = figures.trimmerBy.value;
  const slugBy = figures.slugBy.value;
  const inTurns = turned(figures.trimmerTurns.value);
  const trimmerSays =
    inTurns ??
    (by === null || Math.abs(by) < 0.1e-12 ? undefined : `${printValue(Math.abs(by), "capacitance", 0.1e-12)} ${by > 0 ? "more" : "less"}`);
  const slugSays =
    turned(figures.slugTurns.value) ??
    (slugBy === null || Math.abs(slugBy) < 0.001
      ? undefined
      : `${printValue(Math.abs(slugBy), "fraction", 1e-3)} ${slugBy > 0 ? "more" : "less"}`);
  const off = (name: "padderOff"): boolean => {
    const { low, high } = figures[name];
    return low !== null && high !== null && (low > 0.02 || high < -0.02);
  };
  const design = (name: "coil" | "trimmer" | "padder"): Shown | undefined => draft.result(name);
  const coil: Loose = {
    kind: "slug-coil",
    what: "oscillator coil",
    value: design("coil"),
    says: slugSays,
    mark: slugSays ? "turn" : undefined,
  };
  const trimmer: Loose = {
    kind: "trimmer",
    what: "trimmer",
    value: design("trimmer"),
    says: trimmerSays,
    mark: trimmerSays ? "turn" : undefined,
  };
  const gang: Loose = {
    kind: "variable-capacitor",
    what: "gang",
    value: {
      text: `${printValue(x.gangLow, "capacitance")} to ${printValue(x.gangHigh, "capacitance")}`,
      ...(g.isAssumed("gangHigh") ? { assumed: true as const } : {}),
    },
  };
  const padder: Loose =
    x.padderLayout === "no padder"
      ? { kind: "wire", what: "wire" }
      : { kind: "capacitor", what: "padder", value: design("padder"), mark: off("padderOff") ? "suspect" : undefined };
  const across = x.padderLayout === "across the coil";
  const tube = tubeOfKind(draft.bench, "oscillator") ?? tubeOfKind(draft.bench, "mixer");
  return ladder({ id: "oscillator", title: "The oscillator's tuned circuit on this band", common: draft.common }, [
    { label: tube ? `to ${tube.socket}, oscillator grid` : "oscillator grid", end: "onward" },
    { down: across ? [[coil], [trimmer]] : [[coil]] },
    { series: padder, down: across ? [[gang]] : [[trimmer], [gang]] },
  ]);
}
