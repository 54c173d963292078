import type { CircuitNode, CircuitPart, Mark, Shown, Volts } from "../../ask/drawn/circuit";
import type { Values } from "../../ask/drawn/drafting";
import type { CircuitSketch } from "../../ask/drawn/pictures";

export const stageParts = ["tube", "plate", "screen", "cathode", "grid", "coupling", "screenBypass", "cathodeBypass"] as const;
export type StagePart = (typeof stageParts)[number];
/** What a question knows of an amplifying stage: values, volts at its pins, and which part is in question. */
export interface StageDrawn {
  readonly id: string;
  readonly title: string;
  readonly socket: string | undefined;
  readonly what: string;
  /** a can's windings at plate and grid; else a resistor */
  readonly tuned: boolean;
  /** whether a stage before it drives it through a capacitor */
  readonly coupled: boolean;
  readonly screen: boolean;
  readonly values: Partial<Readonly<Record<"plate" | "screen" | "cathode" | "grid", Shown | undefined>>>;
  readonly volts: Partial<Readonly<Record<"supply" | "plate" | "screen" | "cathode" | "grid" | "before" | "return", Volts | undefined>>>;
  readonly returns: "AVC line" | "bias" | undefined;
  readonly marks: Partial<Readonly<Record<StagePart, Mark>>>;
}
const named = (electrode: string, d: StageDrawn): string => (d.socket ? `${d.socket} ${electrode}` : electrode);

function nodesOf(d: StageDrawn, common: CircuitNode["end"]): readonly CircuitNode[] {
  const { volts } = d;
  const upper: readonly CircuitNode[] = [
    { id: "supply", at: [1, 0], label: "B+", end: "terminal", volts: volts.supply },
    { id: "plate", at: [1, 2], label: named("plate", d), volts: volts.plate },
    { id: "grid", at: [0, 3], label: named("grid", d), volts: volts.grid },
    { id: "cathode", at: [1, 4], label: named("cathode", d), volts: volts.cathode },
    { id: "cathode-foot", at: [1, 5], end: common },
    { id: "bypass", at: [2, 4] },
    { id: "bypass-foot", at: [2, 5], end: common },
    ...(d.tuned ? [{ id: "winding", at: [0, 4] } as const] : []),
    { id: "return", at: [0, d.tuned ? 5 : 4], ...(d.returns ? { label: d.returns, end: "onward", volts: volts.return } : { end: common }) },
  ];
  const fed: readonly CircuitNode[] = d.tuned
    ? [{ id: "feed", at: [1, 1] }]
    : !d.coupled
      ? []
      : [{ id: "before", at: [0, 2], label: "plate before", end: "terminal", volts: volts.before }];
  const screen: readonly CircuitNode[] = d.screen
    ? [
        { id: "rail", at: [2, 0] },
        { id: "screen-top", at: [2, 2], label: named("screen", d), volts: volts.screen },
        { id: "screen", at: [2, 3] },
        { id: "screen-side", at: [3, 2] },
        { id: "screen-foot", at: [3, 3], end: common },
      ]
    : [];
  return [...upper, ...fed, ...screen];
}
function partsOf(d: StageDrawn): readonly CircuitPart[] {
  const { values, marks } = d;
  const wire = (from: string, to: string): CircuitPart => ({ kind: "wire", what: "wire", from, to });
  const plate: readonly CircuitPart[] = d.tuned
    ? [
        { kind: "resistor", from: "supply", to: "feed", what: "feed to the plate", value: values.plate, mark: marks.plate },
        { kind: "tank", from: "feed", to: "plate", what: "can, primary" },
        { kind: "tank", from: "grid", to: "winding", what: "can before, secondary" },
        { kind: "resistor", from: "winding", to: "return", what: "grid return", value: values.grid, mark: marks.grid },
      ]
    : [
        { kind: "resistor", from: "supply", to: "plate", what: "plate resistor", value: values.plate, mark: marks.plate },
        ...(d.coupled ? [{ kind: "capacitor", from: "before", to: "grid", what: "coupling", mark: marks.coupling } as const] : []),
        { kind: "resistor", from: "grid", to: "return", what: "grid resistor", value: values.grid, mark: marks.grid },
      ];
  const screen: readonly CircuitPart[] = d.screen
    ? [
        wire("supply", "rail"),
        { kind: "resistor", from: "rail", to: "screen-top", what: "screen resistor", value: values.screen, mark: marks.screen },
        wire("screen-top", "screen"),
        wire("screen-top", "screen-side"),
        { kind: "capacitor", from: "screen-side", to: "screen-foot", what: "screen bypass", mark: marks.screenBypass },
      ]
    : [];
  return [
    ...plate,
    ...screen,
    { kind: "resistor", from: "cathode", to: "cathode-foot", what: "cathode resistor", value: values.cathode, mark: marks.cathode },
    wire("cathode", "bypass"),
    { kind: "capacitor", from: "bypass", to: "bypass-foot", what: "cathode bypass", mark: marks.cathodeBypass },
  ];
}

/**
 * A stage with its resistors, its volts and the suspect.
 *
 * @param draft values of the set
 * @param d what the question knows
 * @returns the circuit
 * @source the usual pentode or triode stage with cathode bias: common practice, no source
 */
export const stageDrawing = (draft: Pick<Values, "common">, d: StageDrawn): CircuitSketch => ({
  kind: "circuit",
  id: d.id,
  title: d.title,
  nodes: nodesOf(d, draft.common),
  parts: partsOf(d),
  tubes: [
    {
      name: d.socket,
      what: d.what,
      grids: d.screen ? 3 : 1,
      plate: "plate",
      grid: "grid",
      cathode: "cathode",
      screen: d.screen ? "screen" : undefined,
      mark: d.marks.tube,
    },
  ],
});
