import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { dial } from "../../set/addresses/dial";
import type { Bench } from "../../set/bench";
import type { Row } from "../../set/columns";
import { dialInputs, scaleUnitHz } from "../inputs/dial";

/** Zero beats of a scale that is marked in frequency are marks with their truth. */
function marksOfJob(bench: Bench): Row[] | undefined {
  const points = bench.points(bench.at);
  const unit = scaleUnitHz(points);
  return unit === undefined ? undefined : points.map((p) => ({ says: p.reading * unit, is: p.frequencyHz }));
}

export const ask = declare({
  id: "set-points",
  version: 3,
  title: "The set-point of the main dial",
  question: "Where must the main dial be set to make the bandspread scale true?",
  found: { when: ["off frequency"], words: "bandspread main dial set point dot index where to set" },
  subject: "band",
  joins: false,
  works: "panel",
  draws: ["dial"],
  steps: ["26", "16"],
  inputs: {
    marks: stored(dial.setPointsMarks, {
      from: marksOfJob,
      example: [3.5, 3.6, 3.7, 3.8, 3.9, 4].map((f, i) => ({ says: f * 1e6 - [3000, 3300, 3500, 3900, 4100, 4600][i], is: f * 1e6 })),
    }),
    oscillator: dialInputs.oscillator,
    intermediate: dialInputs.intermediate,
    markReading: stored(dial.markReading),
    tolerance: stored(dial.tolerance),
  },
  observed: ["marks"],
  first: ["tolerance", "markReading"],
  results: {
    shift: { dimension: "frequency", meaning: "move of the main dial, at the lowest mark (up: positive)" },
    shiftHigh: { dimension: "frequency", meaning: "what the move of the main dial does at the highest mark" },
    worstNow: { dimension: "frequency", meaning: "worst error of a mark now: scale minus true frequency" },
    worstLeft: { dimension: "frequency", meaning: "worst mark after the move" },
    runLeft: { dimension: "frequency", meaning: "how much the remaining error changes along the scale" },
    overTolerance: {
      dimension: "frequency",
      meaning: "by how much the worst mark after the move exceeds the error allowed (negative: within it)",
    },
  },
  key: ["shift", "worstLeft", "worstNow"],
  curves: {
    now: { x: "frequency", y: "frequency", meaning: "scale error now: scale minus true frequency" },
    after: { x: "frequency", y: "frequency", meaning: "scale error after the move: scale minus true frequency" },
  },
  figures: [
    {
      id: "marks",
      title: "Scale error: what the scale says minus the true frequency",
      xLabel: "scale",
      yLabel: "off by",
      traces: [
        { label: "marks now", curve: "now", stroke: "faint", points: true },
        { label: "after the move", curve: "after", stroke: "ink", band: true },
      ],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
