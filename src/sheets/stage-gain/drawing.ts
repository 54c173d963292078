import type { DraftingOf } from "../../ask/declare";
import type { Volts } from "../../ask/drawn/circuit";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { bPlusMost } from "../../ask/drawn/volts";
import { generatorDrawing } from "../inputs/drawn-generator";
import type { ask, G } from "./ask";
import { firstShort, lostAtBest, points } from "./solve";

/**
 * The generator at the first stage that is short, or at the last point that was measured.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source lostAtBest
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const x = g.best;
  const short = firstShort(x, lostAtBest(x));
  const row = x.injected[short >= 0 ? short : x.injected.length - 1];
  const at = row ? points[row.point] : "grid";
  const level: Volts | undefined = row && {
    ...(Number.isFinite(row.chart) ? { expected: { low: row.chart, high: row.chart } } : {}),
    read: row.measured,
    ac: true,
  };
  const antenna = at === "antenna";
  return generatorDrawing(draft, {
    id: "injection",
    title: `The generator at the ${at}`,
    level,
    through: antenna
      ? { kind: "resistor", what: "dummy antenna" }
      : { kind: "capacitor", what: "series capacitor, keeping DC out of the generator", value: draft.value("seriesCapacitance") },
    at,
    // a grid is no place of B+, but a slip of the clip lands on the plate beside it
    ...(antenna ? {} : { leak: { what: "grid resistor, or the winding", value: draft.value("gridLeak") } }),
    behind: antenna
      ? { end: "onward", label: "into the set" }
      : {
          series: { kind: "block", what: short >= 0 ? "the stage that is short" : "this stage", mark: short >= 0 ? "suspect" : undefined },
          label: "its plate, one pin away",
          volts: bPlusMost(g.rating),
          end: "onward",
        },
  });
}
