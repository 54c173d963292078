import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { gasRegulators } from "../../standards/rectifiers";
import type { ask, G } from "./ask";

/**
 * The gas tube behind its resistor, and what it feeds.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source solve
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const gas = gasRegulators.find((r) => r.type === x.regulatorType);
  const most = draft.expect("supplyHigh").expected?.high;
  const [low, high] = [g.about("leastOhm"), g.about("mostOhm")];
  const fits = g.verdict((_, y) => y.room > 1) !== "no";
  const shunt = x.shunt > 0 ? [[{ kind: "capacitor", what: "across the tube", value: draft.value("shunt") } as const]] : [];
  return ladder({ id: "regulator", title: "The gas regulator", common: draft.common }, [
    { label: "B+", end: "terminal", volts: { ...draft.expect("supply"), ...(most === undefined ? {} : { most }) } },
    {
      series: {
        kind: "resistor",
        what: "series resistor",
        value: x.fitted === undefined ? undefined : draft.value("fitted"),
        says: fits ? `${low} to ${high}` : "no value will do",
        mark: x.fitted === undefined && fits ? "fit" : undefined,
      },
      label: "regulated",
      volts: {
        ...(gas ? { expected: { low: gas.operatingV - gas.regulationV / 2, high: gas.operatingV + gas.regulationV / 2 } } : {}),
        ...(most === undefined ? {} : { most }),
      },
      down: [[{ kind: "gas-tube", what: "gas regulator", name: x.regulatorType }], ...shunt],
    },
    { label: `to the load, ${draft.value("loadMost")?.text ?? ""}`, end: "onward" },
  ]);
}
