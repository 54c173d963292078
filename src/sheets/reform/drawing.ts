import type { DraftingOf } from "../../ask/declare";
import { ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { printValue } from "../../units/print";
import type { ask, G } from "./ask";
import { decideCapacitors, formingPlan } from "./solve";

/**
 * The first electrolytic to be reformed, out of the set, behind its resistor; or the most urgent capacitor that is replaced, in its place.
 *
 * @param g what the answer stands on
 * @param draft values of the set
 * @returns the circuit
 * @source formingPlan; the way it is done: common practice, no source
 */
export function drawingOf(g: G, draft: DraftingOf<typeof ask>): CircuitSketch {
  const all = decideCapacitors(g.best);
  const reformed = all.find((c) => c.decision === "reform" || c.decision === "reform or replace");
  const farads = (f: number) => ({ text: printValue(f, "capacitance") });
  if (reformed) {
    const own = g.best.capacitors[reformed.row - 1];
    const plan = formingPlan(g.best, own);
    return ladder({ id: "forming", title: `Reforming row ${reformed.row} of the survey, out of the set`, common: "b-minus" }, [
      { label: "bench supply, turned up slowly", end: "terminal", volts: { most: own.rating } },
      {
        series: {
          kind: "resistor",
          what: "in series, as long as it forms",
          value: { text: printValue(plan.seriesOhm, "resistance") },
          mark: "fit",
        },
      },
      {
        series: { kind: "meter", what: "leakage", says: `done under ${printValue(plan.limitA, "current", plan.limitA / 50)}` },
        label: "its plus",
        volts: { most: own.rating },
        down: [
          [
            {
              kind: "electrolytic",
              what: reformed.duty,
              value: farads(own.value),
              says: `rated ${printValue(own.rating, "voltage")}`,
              mark: "suspect",
            },
          ],
        ],
      },
    ]);
  }
  const worst = all[0];
  const own = worst && g.best.capacitors[worst.row - 1];
  const line = worst?.duty === "line bypass";
  return ladder(
    { id: "urgent", title: worst ? `Row ${worst.row} of the survey, the most urgent` : "A capacitor of the set", common: draft.common },
    [
      {
        label: line ? "line" : worst?.seesBPlus === false ? "its place" : "B+",
        end: "terminal",
        volts: line ? { most: g.best.highestVolts / Math.SQRT2, ac: true } : { most: g.best.highestVolts },
      },
      {
        down: [
          [
            {
              kind: worst?.kind === "electrolytic" ? "electrolytic" : "capacitor",
              what: worst?.duty ?? "capacitor",
              value: own && farads(worst.decision === "leave it" || worst.decision === "sound" ? own.value : worst.newFarad),
              says: worst
                ? worst.decision === "leave it" || worst.decision === "sound"
                  ? worst.decision
                  : `${worst.newKind}, ${printValue(worst.newRating, "voltage")}`
                : undefined,
              mark: worst && worst.decision !== "leave it" && worst.decision !== "sound" ? "fit" : undefined,
            },
          ],
        ],
      },
    ],
  );
}
