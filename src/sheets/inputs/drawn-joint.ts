import type { CircuitNode, CircuitPart, Mark, Shown, Volts } from "../../ask/drawn/circuit";
import type { Values } from "../../ask/drawn/drafting";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { chartVolts, tubeOfKind } from "./drawn-chart";

/** What a question knows of the joint at the mixer plate: each part as it is to be drawn. */
export interface Joint {
  readonly id: string;
  /** the most that B+ reaches */
  readonly bPlus: Volts;
  readonly primary?: { readonly says?: string; readonly mark?: Mark };
  readonly series: { readonly value?: Shown; readonly says?: string; readonly mark?: Mark };
  readonly bleeder?: Shown;
  readonly connector?: { readonly label: string; readonly volts?: Volts };
  /** what hangs at the far end of the cable, from the node `connector` to `far`, and further nodes of its own */
  readonly accessory: readonly CircuitPart[];
  readonly more?: readonly CircuitNode[];
}

/**
 * The joint at the mixer plate: can and tube, series capacitor at the plate pin, cable, and what hangs on it.
 *
 * @param draft values of the set
 * @param j the parts of the question
 * @returns the circuit
 * @source the usual way to hang an accessory on a mixer plate: common practice, no source
 */
export function jointAtThePlate(draft: Values, j: Joint): CircuitSketch {
  const { bench, common, value } = draft;
  const tube = tubeOfKind(bench, "mixer");
  const can = bench.strip()?.cans[0]?.label;
  const [primary, coupling, length] = [value("strip.can1.primaryCapacitance"), value("couplingCapacitance"), value("cableLength")];
  const type = bench.choice(`${bench.at}.cableType`);
  const bleeder: readonly CircuitPart[] = j.bleeder
    ? [{ kind: "resistor", from: "joint", to: "bled", what: "bleeder", value: j.bleeder }]
    : [];
  return {
    kind: "circuit",
    id: j.id,
    title: `At the plate of the mixer${tube ? `, ${tube.socket}` : ""}`,
    nodes: [
      { id: "supply", at: [1, 0], label: "B+", end: "terminal", volts: j.bPlus },
      {
        id: "plate",
        at: [1, 1],
        label: tube ? `${tube.socket} plate` : "mixer plate",
        volts: { ...j.bPlus, ...chartVolts(bench, tube, "plate") },
      },
      { id: "grid", at: [0, 2], end: "onward" },
      { id: "cathode", at: [1, 3], end: "onward" },
      { id: "joint", at: [2, 1], narrow: [2, 3] },
      ...(bleeder.length > 0 ? [{ id: "bled", at: [2, 2], narrow: [3, 3], end: common } as const] : []),
      { id: "connector", at: [3, 1], narrow: [2, 4], ...(j.connector ?? { label: "connector" }) },
      { id: "far", at: [3, 3], narrow: [2, 5], end: common },
      ...(j.more ?? []),
    ],
    parts: [
      {
        kind: "tank",
        from: "supply",
        to: "plate",
        what: can ? `${can}, primary` : "first can, primary",
        ...(primary ? { value: primary } : {}),
        ...j.primary,
      },
      { kind: "capacitor", from: "plate", to: "joint", what: "series capacitor", ...(coupling ? { value: coupling } : {}), ...j.series },
      ...bleeder,
      {
        kind: "cable",
        braid: common,
        from: "joint",
        to: "connector",
        what: type && type !== "as-stated" ? `cable, ${type}` : "cable",
        ...(length ? { value: length } : {}),
      },
      ...j.accessory,
    ],
    tubes: [{ ...(tube ? { name: tube.socket } : {}), what: "mixer", grids: 3, plate: "plate", grid: "grid", cathode: "cathode" }],
  };
}
