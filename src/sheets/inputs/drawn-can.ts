import type { Mark, Shown, Volts } from "../../ask/drawn/circuit";
import type { Values } from "../../ask/drawn/drafting";
import type { CircuitSketch } from "../../ask/drawn/pictures";

/** A can of the strip: which one, and what is done with its windings. */
export interface CanDrawn {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly bPlus: Volts;
  readonly says?: string | undefined;
  readonly mark?: Mark | undefined;
  /** a resistor clipped across the primary while the secondary is peaked */
  readonly across?: Shown | undefined;
}
/**
 * A can with both its windings, between the tube before and what follows.
 *
 * @param draft values of the set
 * @param c which can
 * @returns the circuit
 * @source a double-tuned can: common practice, no source
 */
export function canDrawing(draft: Values, c: CanDrawn): CircuitSketch {
  const at = `strip.can${c.number}`;
  const last = c.number === (draft.bench.strip()?.cans.length ?? c.number);
  const label = draft.bench.strip()?.cans[c.number - 1]?.label ?? `can ${c.number}`;
  return {
    kind: "circuit",
    id: c.id,
    title: c.title,
    nodes: [
      { id: "supply", at: [1, 0], label: "B+", end: "terminal", volts: c.bPlus },
      { id: "plate", at: [1, 2], label: c.number === 1 ? "mixer plate" : "plate before", end: "onward", volts: c.bPlus },
      { id: "out", at: [2, 0], label: last ? "detector" : "next grid", end: "onward" },
      { id: "foot", at: [2, 2], ...(last ? { label: "detector's load", end: "onward" } : { label: "AVC line", end: "onward" }) },
      ...(c.across ? [{ id: "clip-top", at: [0, 0] } as const, { id: "clip-foot", at: [0, 2] } as const] : []),
    ],
    parts: [
      {
        kind: "tank",
        from: "supply",
        to: "plate",
        what: "primary",
        name: label,
        value: draft.value(`${at}.primaryCapacitance`),
        says: c.says,
        mark: c.mark,
        can: label,
      },
      {
        kind: "tank",
        from: "out",
        to: "foot",
        what: "secondary",
        name: label,
        value: draft.value(`${at}.secondaryCapacitance`),
        mark: c.mark,
        can: label,
      },
      ...(c.across
        ? ([
            { kind: "wire", what: "wire", from: "clip-top", to: "supply" },
            { kind: "resistor", what: "clipped on, then off", value: c.across, mark: "fit", from: "clip-top", to: "clip-foot" },
            { kind: "wire", what: "wire", from: "clip-foot", to: "plate" },
          ] as const)
        : []),
    ],
    tubes: [],
  };
}
