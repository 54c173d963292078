import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { accessory, transformer } from "../../set/addresses/accessory";
import { itself, supplies } from "../../set/addresses/power";
import { heaterLoadOf, usualHeaterCurrent, usualSupplyCurrent } from "../inputs/accessory";
import { isFromLine, supplyInputs } from "../inputs/supply";

const volts = (meaning: string) => ({ dimension: "voltage", meaning, known: 0.3 }) as const;

export const ask = declare({
  id: "accessory-power",
  version: 1,
  title: "An accessory on the receiver's supply",
  question: "Can the receiver's supply carry the accessory, and what happens to B+ and heaters?",
  found: { when: ["fitting"], words: "accessory socket heater winding transformer too warm feed borrow power" },
  subject: "fitting",
  joins: true,
  works: "open-live",
  place: ["b-plus", "line", "stored-charge"],
  draws: ["circuit"],
  steps: ["31d", "09"],
  inputs: {
    chassis: chassisInput,
    powerFrom: stored(accessory.powerFrom),
    powerTap: stored(accessory.powerTap),
    supplyCurrent: stored(accessory.supplyCurrent, { usual: [0.0025, 0.001, "a double triode"], from: usualSupplyCurrent }),
    supplyVolts: stored(accessory.supplyVolts, { optional: true }),
    heaterCurrent: stored(accessory.heaterCurrent, { usual: [0.3, 0.03, "a double triode"], from: usualHeaterCurrent }),
    ...supplyInputs,
    heaters: stored(supplies.heaters, { from: (b) => (isFromLine(b) ? "series" : undefined) }),
    heaterRated: stored(supplies.heaterRated),
    heaterLoad: stored(transformer.heaterLoad, { from: heaterLoadOf }),
    heaterRating: stored(transformer.heaterRating, { optional: true }),
    heaterRegulation: stored(transformer.heaterRegulation),
    directRating: stored(transformer.directRating, { optional: true }),
    plateWatts: stored(itself.plateWatts),
    transformerRise: stored(transformer.transformerRise),
    ironShare: stored(transformer.ironShare),
    measuredHeater: stored(supplies.measuredHeater, { optional: true, reading: true }),
    heaterVolts: stored(accessory.heaterVolts, { optional: true, reading: true }),
    tapWithout: stored(accessory.tapWithout, { optional: true, reading: true }),
    tapWith: stored(accessory.tapWith, { optional: true, reading: true }),
  },
  first: ["supplyCurrent", "heaterCurrent", "heaterRating", "tapWithout", "tapWith"],
  results: {
    without: volts("B+ at the accessory's tap, accessory unplugged"),
    with: volts("B+ at the accessory's tap, accessory plugged in and warm"),
    fall: { dimension: "voltage", meaning: "fall of B+ at the tap caused by the accessory", known: 0.1 },
    sourceResistance: { dimension: "resistance", meaning: "source resistance of B+ at the tap, as the accessory sees it", known: 5 },
    drawnByFall: { dimension: "current", meaning: "current worked out from the measured fall of B+", known: 1e-4 },
    noLoad: {
      dimension: "voltage",
      meaning: "B+ with nothing drawn at the highest line: what the accessory's connector and capacitors see while all is cold",
      known: 1,
      gives: "supply.noLoad",
    },
    rippleWithout: { dimension: "voltage", meaning: "ripple at the tap, rms of its fundamental, accessory unplugged", known: 1e-3 },
    rippleWith: { dimension: "voltage", meaning: "ripple at the tap, rms of its fundamental, accessory plugged in", known: 1e-3 },
    direct: { dimension: "current", meaning: "B+ current of receiver and accessory together, through the rectifier", known: 1e-3 },
    peak: { dimension: "current", meaning: "peak current through one plate of the rectifier, accessory plugged in", known: 1e-3 },
    heaterTotal: { dimension: "current", meaning: "heater current of receiver and accessory together", known: 0.02 },
    heaterFall: { dimension: "voltage", meaning: "fall of the heater volts caused by the accessory", known: 0.01 },
    heaterWith: { dimension: "voltage", meaning: "heater volts with the accessory on, at today's line", known: 0.03 },
    watts: { dimension: "power", meaning: "power that the accessory adds to the transformer's load, at most", known: 0.1 },
    rise: { dimension: "temperature", meaning: "how much warmer than the room the transformer runs with the accessory on", known: 1 },
    dropping: { dimension: "resistance", meaning: "resistor that brings B+ down to what the accessory is made for", known: 10 },
    droppingHeat: {
      dimension: "power",
      meaning: "heat at the highest line in the resistor that brings B+ down for the accessory",
      known: 0.02,
    },
  },
  key: ["fall", "heaterWith", "rise"],
  curves: {
    byCurrent: { x: "current", y: "voltage", meaning: "B+ at the tap against what the accessory draws" },
    read: { x: "current", y: "voltage", meaning: "B+ at the tap as read, accessory unplugged and plugged in" },
  },
  figures: [
    {
      id: "fall",
      title: "B+ at the tap against what the accessory draws",
      xLabel: "accessory draws",
      yLabel: "B+ at the tap",
      traces: [
        { label: "B+", curve: "byCurrent", stroke: "ink", band: true },
        { label: "as read", curve: "read", stroke: "ink", points: true },
      ],
      marks: [{ at: "supplyCurrent", label: "this one" }],
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
