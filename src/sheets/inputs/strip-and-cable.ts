import type { ChoiceInput, ModelInput, QuantityInput } from "../../ask/inputs";
import { mediumStrip } from "../../set/patterns/strips";
import { type Cable, cableNamed, cables } from "../../standards/cables";
import { tolerance } from "../../units/quantity";

/** Inputs that several sheets ask for in the same words. */
export const stripInput = {
  kind: "model",
  of: "strip",
  meaning: "the IF strip: cans, tubes, loads and filter",
  howMeasured: "service sheet for the parts; a sweep of the strip, fitted, for the rest",
  from: (bench) => bench.strip(),
  assumed: mediumStrip(455e3),
} as const satisfies ModelInput;

/** A quantity of the subject of the sheet, by its name there. */
const here =
  (name: string): QuantityInput["from"] =>
  (bench) =>
    bench.quantity(`${bench.at}.${name}`);

export const cableTypeInput = {
  kind: "choice",
  options: ["as-stated", ...cables.map((c) => c.type)],
  meaning: "type of cable from the table; as-stated takes the set's own values",
  howMeasured: "printing on the jacket",
  assumed: "as-stated",
} as const satisfies ChoiceInput;

const pfPerFt = 1e-12 / 0.3048;
/** A cable's figure from the table where a type was chosen, else from the set. Half a unit of the printed pF/ft is its tolerance. */
const byType =
  (of: (c: Cable) => { readonly value: number; readonly half: number }, name: string): NonNullable<QuantityInput["from"]> =>
  (bench, chosen) => {
    const cable = cableNamed(chosen.cableType ?? "");
    if (!cable) return bench.quantity(`${bench.at}.${name}`);
    const { value, half } = of(cable);
    return { value, spread: tolerance(half), origin: "stated", source: `${cable.type}: ${cable.source} (${cable.flag})` };
  };

export const cableLengthInput = {
  kind: "quantity",
  dimension: "length",
  positive: true,
  max: 100,
  meaning: "cable from the plate to the accessory",
  howMeasured: "tape measure",
  from: here("cableLength"),
  assumed: { value: 1, spread: tolerance(0.05), source: "a usual lead, common practice, no source" },
} as const satisfies QuantityInput;

export const cableCapacitancePerLengthInput = {
  kind: "quantity",
  dimension: "capacitancePerLength",
  positive: true,
  meaning: "capacitance of the cable per length; the table of cable types has it by type",
  howMeasured: "capacitance bridge on a known length, or the cable's data sheet",
  from: byType((c) => ({ value: c.printedPfPerFt * pfPerFt, half: 0.5 * pfPerFt }), "cableCapacitancePerLength"),
  assumed: { value: 101.7e-12, spread: tolerance(2e-12), source: "RG-58A/U, printed 31 pF/ft" },
} as const satisfies QuantityInput;

export const velocityInput = {
  kind: "quantity",
  dimension: "ratio",
  positive: true,
  max: 1,
  meaning: "velocity factor of the cable",
  howMeasured: "data sheet",
  from: byType((c) => ({ value: c.velocityRatio, half: 0.01 }), "velocityFactor"),
  assumed: { value: 0.66, spread: tolerance(0.01), source: "solid polyethylene, data sheet of RG-58A/U" },
} as const satisfies QuantityInput;

export const couplingCapacitanceInput = {
  kind: "quantity",
  dimension: "capacitance",
  positive: true,
  meaning: "series capacitor between plate and cable",
  howMeasured: "its marking, or a bridge",
  from: here("couplingCapacitance"),
  assumed: { value: 1e-9, spread: tolerance(100e-12), source: "usual value, common practice, no source" },
} as const satisfies QuantityInput;

export const slugRangeInput = {
  kind: "quantity",
  dimension: "fraction",
  positive: true,
  max: 0.9,
  meaning: "how far the slug can lower (or raise) the primary's inductance",
  howMeasured: "count the turns left to the stop, and how far the peak shifts per turn",
  from: (bench) => bench.quantity("adjusters.slugRange"),
  keptAt: "adjusters.slugRange",
  assumed: { value: 0.12, spread: tolerance(0.04), source: "assumed: no published range found" },
} as const satisfies QuantityInput;

export const trimmerRangeInput = {
  kind: "quantity",
  dimension: "capacitance",
  meaning: "how much the can's trimmer can be reduced; 0 where the can has none",
  howMeasured: "service sheet, or a bridge at both ends of its travel",
  from: (bench) => bench.quantity("adjusters.trimmerRange"),
  keptAt: "adjusters.trimmerRange",
  assumed: { value: 0, spread: tolerance(0), source: "slug-tuned can without trimmer, assumed" },
} as const satisfies QuantityInput;
