import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, type PutOf, practice } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { itself, line, supplies } from "../../set/addresses/power";
import type { Bench } from "../../set/bench";
import { exact, type Quantity } from "../../units/quantity";
import { touchOneOnRecord, touchOtherOnRecord } from "../inputs/safety";
import { isFromLine, supplyInputs } from "../inputs/supply";
import { nodes } from "../inputs/supply-law";
import { bulbFor } from "./bulbs";

function bulbForPlate(b: Bench): Quantity | undefined {
  const watts = b.quantity(itself.plateWatts.address);
  return (
    watts && {
      value: bulbFor(watts.value),
      spread: exact,
      origin: "assumed",
      source: `next size above 1.3 times the rated power, ${practice}`,
    }
  );
}
function bulbForLine(b: Bench): Quantity | undefined {
  const rated = b.quantity(line.voltage.address);
  return rated && { ...rated, spread: exact, origin: "assumed", source: "a bulb for this line" };
}

export const ask = declare({
  id: "bring-up",
  version: 2,
  title: "First power",
  question: "How do I bring the set up, and what does a bright bulb tell me?",
  found: { when: ["before power"], words: "first power variac dim bulb lamp limiter series bulb bright smoke blows fuse slow" },
  subject: "set",
  joins: false,
  works: "open-live",
  place: ["line", "b-plus", "stored-charge"],
  draws: ["circuit", "lamps"],
  steps: ["08", "03", "04"],
  inputs: {
    chassis: chassisInput,
    ...supplyInputs,
    heaters: stored(supplies.heaters, { from: (b) => (isFromLine(b) ? "series" : undefined) }),
    touchOne: stored(supplies.touchOne, { optional: true, reading: true, over: touchOneOnRecord }),
    touchOther: stored(supplies.touchOther, { optional: true, reading: true, over: touchOtherOnRecord }),
    plateWatts: stored(itself.plateWatts),
    bulbWatts: stored(supplies.bulbWatts, { from: bulbForPlate }),
    bulbRated: stored(supplies.bulbRated, { from: bulbForLine }),
    setVolts: stored(supplies.setVoltsBehindBulb, { optional: true, reading: true }),
    setVoltsNoRectifier: stored(supplies.setVoltsNoRectifier, { optional: true, reading: true }),
    heaterRated: stored(supplies.heaterRated),
  },
  first: ["plateWatts", "bulbWatts", "lineVoltage", "setVolts", "setVoltsNoRectifier"],
  results: {
    setExpected: { dimension: "voltage", meaning: "volts of a sound set behind this bulb", known: 1 },
    currentExpected: { dimension: "current", meaning: "line current of a sound set behind this bulb", known: 0.01 },
    currentShort: { dimension: "current", meaning: "line current of a dead short behind this bulb", known: 0.01 },
    bulbWanted: { dimension: "power", meaning: "bulb that suits this set", known: 1 },
    equivalentWatts: { dimension: "power", meaning: "load of the set as read, at the rated line", known: 2 },
    equivalentNoRectifier: { dimension: "power", meaning: "load of the set with the rectifier out, at the rated line", known: 2 },
    overload: { dimension: "ratio", meaning: "load of the set as read, as a multiple of its rated power", known: 0.1 },
    bPlusExpected: {
      dimension: "voltage",
      known: 0.5,
      meaning: `B+ ${nodes.first.at} without the bulb, at today's line, all tubes warm`,
      gives: "supply.bPlusFirst",
    },
    rippleLast: {
      dimension: "voltage",
      known: 1e-4,
      meaning: `ripple ${nodes.third.at} without the bulb, rms of its fundamental`,
      gives: "supply.rippleLast",
    },
    noLoad: {
      dimension: "voltage",
      known: 0.5,
      meaning: "B+ at the highest line before any tube draws",
      gives: "supply.noLoad",
    },
  },
  key: ["setExpected", "currentExpected", "overload"],
  curves: { byLoad: { x: "power", y: "voltage", meaning: "volts of the set behind this bulb against its load" } },
  figures: [
    {
      id: "load",
      title: "The set's volts behind this bulb, against its load",
      xLabel: "load at the rated line",
      yLabel: "volts of the set",
      traces: [{ label: "behind this bulb", curve: "byLoad", stroke: "ink", band: true }],
      marks: [{ at: "plateWatts", label: "by its plate" }],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
