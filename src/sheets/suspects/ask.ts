import { declare, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { inputs } from "./inputs";

export const ask = declare({
  id: "suspects",
  version: 3,
  title: "What is wrong with this stage",
  question: "What explains this stage's readings, and which test separates the suspects?",
  found: {
    when: ["dead", "weak", "noisy"],
    words: "leaky coupling capacitor open cathode bypass bad tube gassy stage fault low screen distortion hot",
  },
  subject: "stage",
  stageKinds: ["rf", "if-tube", "detector", "audio", "accessory"],
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["10", "11", "06", "05", "07", "15"],
  inputs,
  observed: ["readings"],
  readAt: inside,
  first: ["supply", "screenFeed", "cathodeResistor", "plateFeed", "gridResistor"],
  results: {
    topChance: { dimension: "chance", meaning: "chance of the likeliest cause" },
    noneVisible: { dimension: "chance", meaning: "chance that no fault shows" },
    tied: { dimension: "ratio", meaning: "causes that these readings can't tell apart", known: 3 },
    worstMiss: { dimension: "ratio", meaning: "how far the likeliest cause misses a reading, in multiples of its error", known: 0.1 },
    cathodeCurrent: { dimension: "current", meaning: "cathode current by Ohm's law", known: 1e-4 },
    screenCurrent: { dimension: "current", meaning: "current in the screen resistor by Ohm's law", known: 1e-4 },
    plateDissipation: { dimension: "power", meaning: "power at the plate", known: 0.05 },
    couplingLeak: {
      dimension: "resistance",
      meaning: "leak of the coupling capacitor that would explain a positive grid, as this meter reads",
      known: 1e6,
    },
    healthyPlate: { dimension: "voltage", meaning: "plate of a sound stage, without a meter", known: 1 },
    healthyScreen: { dimension: "voltage", meaning: "screen of a sound stage, without a meter", known: 1 },
    healthyCathode: { dimension: "voltage", meaning: "cathode of a sound stage, without a meter", known: 0.05 },
  },
  key: ["topChance", "tied", "cathodeCurrent"],
  curves: {},
  figures: [],
});
export type Asked = InputsOf<typeof ask>;
export type Put = PutOf<typeof ask>;
