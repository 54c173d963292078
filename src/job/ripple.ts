import { isOpen } from "../standards/cautions";
import { accessoryEdges } from "./accessory-ripple";
import { describedEdges } from "./described-ripple";
import type { Edge } from "./ripple-row";
import { workKindById, workKinds } from "./work-kinds";

export { workKindById, workKinds };

/**
 * What a piece of work makes due again, and why. One row an edge; `redo` is the whole step, `check` a quick look. Where a sheet can say
 * by how much, it is named with the result. A reader can check this table line by line; ripple.test.ts resolves every id in it.
 * Source: the dependency graph in steps.ts's order; judgement from handbooks and practitioners' accounts, not a published graph.
 */

const edges = (
  work: string,
  rows: readonly (readonly [makes: "redo" | "check", target: string, why: string, extra?: Partial<Edge>])[],
): Edge[] => rows.map(([makes, target, why, extra]) => ({ work, makes, target, why, ...extra }));
const proof = "the performance record was made before this work";
const bothStates = "both states are read anew after such work";
const safety = "anything done inside needs the final safety test again";

export const ripple: readonly Edge[] = [
  ...edges("capacitor-replaced", [
    ["redo", "09", "filter and bypass values set B+ and ripple"],
    ["redo", "10", "a leak that is gone moves the DC points"],
    ["redo", "15", "an AVC bypass sets the AVC line"],
    ["check", "20", "IF bypasses and lead dress detune a little"],
    ["check", "29b", "hum follows the filter"],
  ]),
  ...edges("line-capacitor-replaced", [["redo", "03", "the line bypass decides the touch current"]]),
  ...edges("oscillator-capacitor-replaced", [
    ["redo", "23", "it is part of the oscillator's circuit"],
    ["redo", "30", "its temperature coefficient is part of the drift"],
  ]),
  ...edges("resistor-replaced", [
    ["redo", "10", "it sets a DC point"],
    ["check", "20", "it may load an IF can"],
    ["check", "27", "gain moves the S meter"],
  ]),
  ...edges("avc-resistor-replaced", [
    ["redo", "10", "it sets a DC point"],
    ["redo", "15", "it is in the AVC line"],
    ["redo", "27", "the AVC curve follows"],
  ]),
  ...edges("tube-replaced", [
    ["check", "10", "another tube, another DC point"],
    ["check", "20", "0.1 to 0.5 pF more or less on a can"],
    ["redo", "27", "gain and zero of the S meter follow the tube"],
    ["check", "29b", "heater to cathode leakage differs"],
    ["redo", "33a", proof],
  ]),
  ...edges("oscillator-tube-replaced", [
    ["redo", "14", "it may not start on every band"],
    ["redo", "23", "its capacitance is in the oscillator's circuit"],
    ["check", "10", "another tube, another DC point"],
    ["redo", "33g", proof],
  ]),
  ...edges("rf-tube-replaced", [
    ["redo", "24", "its capacitance is in the RF circuit"],
    ["redo", "27", "gain of the S meter follows"],
    ["redo", "33a", proof],
  ]),
  ...edges("filter-capacitor-replaced", [
    ["redo", "04", "a new electrolytic may be reversed or shorted: ohms before power"],
    ["redo", "08", "what was fitted has not been powered behind a bulb yet"],
    ["redo", "09", "B+ and ripple follow it"],
    ["check", "10", "every DC point follows the supply"],
    ["check", "29b", "hum follows the filter"],
  ]),
  ...edges("supply-changed", [
    ["redo", "04", "ohms before power: a rectifier or a tap may be wired wrongly"],
    ["redo", "08", "what was fitted has not been powered behind a bulb yet"],
    ["redo", "09", "B+, heaters and ripple follow it"],
    ["redo", "10", "every DC point follows the supply"],
    ["check", "14", "oscillator strength follows B+"],
    ["check", "23", "the oscillator follows its supply"],
    ["check", "27", "S-meter zero follows B+"],
    ["check", "28", "the marker crystal follows its supply a little"],
    ["check", "31d", "what the accessory gets follows the supply"],
    ["check", "30", "drift with the line changes"],
  ]),
  ...edges("avc-mended", [
    ["redo", "20", "cans peaked with AVC acting are peaked wrongly"],
    ["redo", "27", "AVC curve and S meter follow"],
    ["redo", "33a", proof],
  ]),
  ...edges("pointer-moved", [
    ["redo", "23", "dial marks are read off the pointer"],
    ["redo", "26", "bandspread is read off its index"],
  ]),
  ...edges("if-centre-chosen", [
    ["redo", "20", "the cans go to the new centre"],
    ["redo", "21", "the crystal sits relative to the centre"],
    ["redo", "22", "pitch is counted from the centre"],
    ["redo", "23", "every dial mark moves by the shift of the IF"],
    ["check", "24", "tracking moves a little"],
    ["redo", "26", "bandspread follows the oscillator"],
    ["redo", "31b", "the accessory sits on the old centre"],
  ]),
  ...edges("cable-fitted", [
    ["redo", "35", "B+ is now near a connector", { task: "Final safety test: B+ is near a connector" }],
    [
      "redo",
      "20",
      "the cable hangs on the first primary and pulls it off the IF; tune the accessory's coil for it first, and never force the slug",
      { task: "Re-peak the first can", sheet: "cable-load", result: "primaryDetune" },
    ],
    ["redo", "33b", "the strip's shape is not what was recorded", { task: "Record the selectivity again" }],
    [
      "redo",
      "13",
      "the gain of the mixer stage has changed",
      { task: "Record the mixer stage's gain again", after: "31b", sheet: "cable-load", result: "gainChange" },
    ],
    ["check", "22", "the pass band's middle may have moved", { task: "Check the BFO's centre" }],
    [
      "redo",
      "27",
      "gain before the AVC has changed, so the S meter and AVC record are off",
      { task: "Record S meter and AVC again", sheet: "cable-load", result: "compensatingLoss" },
    ],
    ["redo", "31b", "a lead without its accessory set is only a load", { task: "Set and centre the accessory" }],
    ["redo", "31e", bothStates],
  ]),
  ...edges("cable-length-changed", [
    ["redo", "31b", "the accessory's coil was tuned to the old length", { task: "Tune the accessory's cable coil again" }],
    [
      "check",
      "20",
      "what the coil does not tune out pulls the first primary",
      { task: "Check the first can's peak", sheet: "cable-load", result: "compensatingLoss" },
    ],
    ["redo", "35", "the connector was opened", { task: "Final safety test: the connector was opened" }],
    ["redo", "31e", bothStates],
  ]),
  ...edges("first-can-repeaked", [
    ["redo", "31e", "a can that was touched up with the accessory on is off without it"],
    ["redo", "33b", proof],
    ["check", "22", "the pass band's middle may have moved"],
    ["redo", "27", "gain before the AVC has changed"],
  ]),
  ...edges("if-aligned", [
    ["check", "21", "the crystal's load has changed"],
    ["redo", "22", "the centre may have moved"],
    ["check", "23", "if the centre moved, every dial mark moved with it"],
    ["redo", "27", "gain before the AVC has changed"],
    ["redo", "31b", "the accessory must sit on the centre"],
    ["redo", "33b", proof],
  ]),
  ...edges("if-can-mended", [["redo", "20", "the whole IF chain was disturbed"]]),
  ...edges("crystal-filter-set", [
    ["check", "22", "pitch is counted from the peak"],
    ["redo", "33b", proof],
  ]),
  ...edges("accessory-set", [
    ["check", "20", "only the first primary is touched up", { task: "Check the first can's peak with the accessory on" }],
    ["check", "22", "the accessory's peak and the BFO belong together"],
    ["redo", "27", "gain has changed with the accessory on"],
    [
      "redo",
      "33b",
      "selectivity with and without the accessory is part of the performance record",
      { sheet: "q-multiplier", result: "width6dB" },
    ],
    ["redo", "35", "B+ is near a connector"],
    ["redo", "31e", bothStates],
  ]),
  ...edges("converter-fitted", [
    ["check", "31d", "it takes its power from somewhere"],
    ["redo", "31e", bothStates],
    ["check", "24", "the converter loads the antenna trimmer"],
    ["redo", "27", "the S meter differs on that band"],
    ["check", "33a", proof],
    ["redo", "35", "another supply lead, and a connector"],
  ]),
  ...edges("markers-trimmed", [
    ["redo", "26", "the scale was set by the old markers"],
    ["redo", "33g", proof],
    ["check", "32", "the converter's dial table rests on the markers"],
    ["check", "24", "its coupling lead loads the top trimmer"],
  ]),
  ...edges("compensation-changed", [
    ["redo", "23", "trimming has shifted"],
    ["redo", "26", "bandspread follows the oscillator"],
  ]),
  ...edges("oscillator-aligned", [
    ["redo", "24", "tracking follows the oscillator"],
    ["redo", "25", "it may sit on the wrong side now"],
    ["redo", "26", "bandspread follows the oscillator"],
    ["redo", "32", "the converter's dial table follows"],
    ["redo", "33g", proof],
  ]),
  ...edges("rf-aligned", [
    ["redo", "25", "image rejection follows the RF circuits"],
    ["check", "27", "gain has changed"],
    ["redo", "33a", proof],
    ["redo", "33c", proof],
  ]),
  ...edges("wiring-mended", [
    ["redo", "10", "what was open or shorted moved the DC points"],
    ["check", "20", "lead dress near an IF can detunes it a little"],
  ]),
  ...accessoryEdges,
  ...edges("covers-changed", [
    ["check", "20", "shields are part of the circuits: finish with covers on"],
    ["redo", "23", "the oscillator feels the cabinet"],
    ["check", "24", "RF circuits feel the shields"],
    ["redo", "35", "the cabinet is part of the protection"],
  ]),
  ...edges("cord-changed", [["redo", "03", "cord, fuse and switch are what isolation rests on"]]),
  ...describedEdges,
  ...edges("soak-fault", [
    ["redo", "10", "a fault shows in the DC chart first"],
    ["redo", "34a", "the soak was cut short"],
    ["redo", "35", safety],
  ]),
];

/**
 * What a piece of work makes due: the rows of the table, and after anything done inside the final safety test.
 *
 * @param work id of the kind of work
 * @returns edges; none for a kind that is not known
 * @source the table above; judgement from handbooks
 */
export function edgesOf(work: string): readonly Edge[] {
  const own = ripple.filter((e) => e.work === work);
  const kind = workKindById(work);
  return kind && isOpen(kind.state) && !own.some((e) => e.target === "35")
    ? [...own, { work, makes: "redo", target: "35", why: safety }]
    : own;
}
