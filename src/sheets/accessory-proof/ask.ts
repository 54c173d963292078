import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { accessory, states } from "../../set/addresses/accessory";
import { supplies } from "../../set/addresses/power";
import { accessoryKind } from "../inputs/accessory";

const kinds = ["q-multiplier", "marker-generator", "converter", "another"] as const;
const read = { optional: true, reading: true } as const;
const part = (meaning: string) => ({ dimension: "fraction", meaning, known: 0.005 }) as const;

export const ask = declare({
  id: "accessory-proof",
  version: 1,
  title: "Without the accessory and with it",
  question: "Is the receiver as it was with the accessory unplugged, and as stated with it on?",
  found: { when: ["fitting", "proving"], words: "accessory unplugged with and without as it was before and after" },
  subject: "fitting",
  joins: true,
  works: "panel",
  place: inside,
  draws: ["circuit"],
  steps: ["31e"],
  inputs: {
    chassis: chassisInput,
    kind: {
      kind: "choice",
      meaning: "kind of accessory",
      howMeasured: "its description",
      options: kinds,
      from: (b) => kinds.find((k) => k === accessoryKind(b)),
      assumed: "q-multiplier",
    },
    powerFrom: stored(accessory.powerFrom),
    levelBefore: stored(states.levelBefore, read),
    levelWithout: stored(states.levelWithout, read),
    levelWith: stored(states.levelWith, read),
    levelDoubt: stored(states.levelDoubt),
    statedGain: stored(states.statedGain),
    widthBefore: stored(states.widthBefore, read),
    widthWithout: stored(states.widthWithout, read),
    widthWith: stored(states.widthWith, read),
    tapWithout: stored(accessory.tapWithout, read),
    tapWith: stored(accessory.tapWith, read),
    heaterVolts: stored(accessory.heaterVolts, read),
    heaterRated: stored(supplies.heaterRated),
    pulled: stored(states.pulled, read),
    connectorRead: stored(states.connectorRead, read),
  },
  first: ["levelBefore", "levelWithout", "levelWith", "tapWithout", "tapWith"],
  results: {
    gainLeft: {
      dimension: "decibel",
      meaning: "gain with the accessory unplugged, relative to the gain before the accessory was fitted",
      known: 0.1,
    },
    gainWith: {
      dimension: "decibel",
      meaning: "gain with the accessory on, relative to the gain with the accessory unplugged",
      known: 0.1,
    },
    beyond: { dimension: "decibel", meaning: "gain with the accessory on, relative to what was stated", known: 0.1 },
    widthLeft: part("change of the width at -6 dB since before the accessory was fitted, accessory unplugged"),
    widthGiven: part("width at -6 dB with the accessory on, relative to the width with the accessory unplugged"),
    bPlusFall: part("fall of B+ at the tap caused by the accessory, as a fraction"),
    heaterOff: part("departure of the heater volts from their rating with the accessory on, as a fraction"),
    pull: { dimension: "frequency", meaning: "how far the accessory pulls the receiver's tuning", known: 5 },
    connector: { dimension: "voltage", meaning: "DC volts at the accessory's connector", known: 0.1 },
    toRead: { dimension: "ratio", meaning: "readings still missing from the two states", exact: true },
  },
  key: ["gainLeft", "beyond", "bPlusFall"],
  curves: {},
  figures: [],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
