import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { markers, shared } from "../../set/addresses/markers";

export const ask = declare({
  id: "which-marker",
  version: 3,
  title: "Which marker is this?",
  question: "Which marker am I hearing?",
  found: { when: ["off frequency"], words: "which harmonic wrong marker lost on the dial" },
  subject: "fitting",
  fitting: "marker-generator",
  joins: false,
  works: "panel",
  draws: ["dial"],
  steps: ["28", "26", "23"],
  inputs: {
    dialFrequency: stored(markers.dialFrequency),
    dialError: stored(shared.dialError),
    spacing: stored(markers.spacing),
    anchor: stored(markers.anchor),
    counted: stored(markers.counted),
  },
  observed: ["dialFrequency"],
  first: ["dialFrequency", "dialError", "spacing", "anchor", "counted"],
  results: {
    marker: { dimension: "frequency", meaning: "the marker; its interval shows which neighbours are in question", exact: true },
    atDial: { dimension: "frequency", meaning: "marker next to the dial's reading", exact: true },
    offBy: { dimension: "frequency", meaning: "error of the dial, if the marker's nearest neighbour is what is heard" },
    halfSpacing: { dimension: "frequency", meaning: "half the spacing of the markers: the dial must be better than this", exact: true },
    coarse5: { dimension: "frequency", meaning: "marker next to the dial's reading with markers five times as far apart", exact: true },
    coarse10: { dimension: "frequency", meaning: "marker next to the dial's reading with markers ten times as far apart", exact: true },
    byCount: { dimension: "frequency", meaning: "marker by counting from the anchor", exact: true },
    countAgrees: { dimension: "frequency", meaning: "marker by count minus marker by dial: 0 where both agree", exact: true },
  },
  key: ["marker", "countAgrees"],
  curves: { steps: { x: "frequency", y: "frequency", meaning: "marker next to each frequency, minus the frequency" } },
  figures: [
    {
      id: "steps",
      title: "From here to the next marker",
      xLabel: "where the set may be",
      yLabel: "to the next marker",
      traces: [{ label: "next marker", curve: "steps", stroke: "ink" }],
      marks: [{ at: "dialFrequency", label: "dial says" }],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
