import type { ModelInput } from "../../ask/inputs";
import { stored } from "../../ask/stored";
import { joint } from "../../set/addresses/plate-joint";
import type { Bench } from "../../set/bench";
import { mediumStrip } from "../../set/patterns/strips";
import { type Cable, cableNamed } from "../../standards/cables";
import { type Quantity, tolerance } from "../../units/quantity";

/** The strip with its cans set to the IF. */
export const stripInput = {
  kind: "model",
  of: "strip",
  meaning: "the IF strip: cans, tubes, loads and filter",
  howMeasured: "service sheet for the parts; a sweep of the strip, fitted, for the rest",
  from: (bench) => bench.strip(),
  assumed: mediumStrip(455e3),
} as const satisfies ModelInput;
/** The strip as it stands, with what hangs on its cans. */
export const stripAsFittedInput = { ...stripInput, from: (bench: Bench) => bench.stripAsFitted() } as const satisfies ModelInput;
/** Short names for what a person asks after most. */
export const stripAliases = {
  ifFrequency: "strip.intermediateFrequency",
  primaryCapacitance: "strip.can1.primaryCapacitance",
} as const;

const pfPerFt = 1e-12 / 0.3048;
/** A cable's figure from the table, where a type was chosen. */
const byType =
  (of: (c: Cable) => { readonly value: number; readonly half: number }) =>
  (_: Bench, chosen: Readonly<Record<string, string>>): Quantity | undefined => {
    const cable = cableNamed(chosen.cableType ?? "");
    if (!cable) return undefined;
    const { value, half } = of(cable);
    return { value, spread: tolerance(half), origin: "stated", source: `${cable.type}: ${cable.source} (${cable.flag})` };
  };
/** A type of cable from the table goes before what is stored; half a unit of the printed pF/ft is its tolerance. */
export const cableCapacitancePerLengthInput = stored(joint.cableCapacitancePerLength, {
  over: byType((c) => ({ value: c.printedPfPerFt * pfPerFt, half: 0.5 * pfPerFt })),
});
export const velocityInput = stored(joint.velocityFactor, { over: byType((c) => ({ value: c.velocityRatio, half: 0.01 })) });
