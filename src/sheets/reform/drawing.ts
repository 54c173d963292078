import type { DraftingOf } from "../../ask/declare";
import { type Loose, ladder } from "../../ask/drawn/ladder";
import type { CircuitSketch } from "../../ask/drawn/pictures";
import { printShort, printValue } from "../../units/print";
import { type Decided, decideCapacitors, formingPlan } from "../inputs/capacitor-decision";
import type { ask, G } from "./ask";

const farads = (f: number) => ({ text: printValue(f, "capacitance") });

/** The electrolytic out of the set, on the bench supply behind its resistor. */
function onTheBench(g: G, c: Decided): CircuitSketch {
  const own = g.best.capacitors[c.row - 1];
  const plan = formingPlan(g.best, own);
  const volts = { most: own.rating };
  return ladder({ id: "reforming", title: `Reforming row ${c.row} of the survey, out of the set`, common: "b-minus" }, [
    { label: "bench supply, turned up slowly", end: "terminal", volts },
    {
      series: { kind: "resistor", what: "in series all the time", value: { text: printValue(plan.seriesOhm, "resistance") }, mark: "fit" },
    },
    {
      series: { kind: "meter", what: "leakage", says: `done under ${printShort(plan.limitA, "current")}` },
      label: "positive end",
      volts,
      down: [
        [
          {
            kind: "electrolytic",
            what: c.duty,
            value: farads(own.value),
            says: `rated ${printValue(own.rating, "voltage")}`,
            mark: "suspect",
          },
        ],
      ],
    },
  ]);
}
/** A capacitor as it is, or the new one in its place. */
function partOf(g: G, c: Decided): Loose {
  const own = g.best.capacitors[c.row - 1];
  const kind = c.kind === "electrolytic" ? "electrolytic" : "capacitor";
  if (c.decision === "leave it" || c.decision === "sound") return { kind, what: c.duty, value: farads(own.value), says: c.decision };
  return { kind, what: c.duty, value: farads(c.newFarad), says: `${c.newKind}, ${printValue(c.newRating, "voltage")}`, mark: "fit" };
}
function inItsPlace(g: G, draft: DraftingOf<typeof ask>, c: Decided | undefined): CircuitSketch {
  const { highestVolts } = g.best;
  const line = c?.duty === "line bypass";
  const title = c ? `Row ${c.row} of the survey, the most urgent` : "A capacitor of the set";
  return ladder({ id: "urgent", title, common: draft.common }, [
    {
      label: line ? "line" : c?.seesBPlus === false ? "its place" : "B+",
      end: "terminal",
      volts: line ? { most: highestVolts / Math.SQRT2, ac: true } : { most: highestVolts },
    },
    { down: [[c ? partOf(g, c) : { kind: "capacitor", what: "capacitor" }]] },
  ]);
}

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
  return reformed ? onTheBench(g, reformed) : inItsPlace(g, draft, all[0]);
}
