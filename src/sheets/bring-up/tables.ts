import type { Table } from "../../ask/drawings";
import { lampInSeries } from "../../physics/lamp";
import { printValue } from "../../units/print";
import { crestV, described, expectedVolts } from "../inputs/supply-law";
import type { Asked } from "./ask";
import { bulbSizes } from "./bulbs";

const seriesOhms = [
  [
    "line plug, switch on, all tubes in",
    "a few tens to a hundred ohms: the heater string, cold",
    "open: a heater, the switch, the fuse; near nothing: a short",
  ],
  [
    "B+ to the chassis or common wire",
    "over 10 to 20 kΩ once the meter has charged the filter",
    "filter capacitor, rectifier: find it first",
  ],
  [
    "line plug to the outside of the cabinet, shafts and screws",
    "open, both wires, with the back on",
    "covers, knob screws, isolating capacitors: find it first",
  ],
];

const parallelOhms = (primary: number) => [
  [
    "line plug, switch on",
    `about ${printValue(primary, "resistance", 0.5 * primary)}, a fifth to five times that`,
    "open: fuse, switch, winding; near nothing: a short",
  ],
  ["line to chassis", "over 2 MΩ, over 20 MΩ good, both wires", "line bypass, cord, winding: find it first"],
  ["high voltage, each half to its tap", "within 10 % of each other", "one half short or open: no power"],
  [
    "B+ to chassis",
    "over 10 to 20 kΩ once the meter has charged the filter; then swap the leads and read again",
    "filter capacitor, rectifier, bleeder: find it first",
  ],
  ["heater winding to chassis", "near nothing where it is grounded, else open", "as the service sheet has it"],
];
const ohmsTable = (x: Asked): Table => ({
  id: "ohms",
  title: "Ohms before any power: set unplugged, discharged and measured",
  columns: ["where", "sound", "else"].map((name) => ({ name, dimension: "ratio" })),
  rows: x.heaters === "series" ? seriesOhms : parallelOhms((0.04 * x.ratedLine ** 2) / x.plateWatts),
});
const bulbsTable = (x: Asked): Table => ({
  id: "bulbs",
  title: "Behind each bulb: a sound set, and a dead short",
  columns: [
    { name: "bulb", dimension: "power", u: 3 },
    { name: "set's volts", dimension: "voltage", u: 1 },
    { name: "current", dimension: "current", u: 0.01 },
    { name: "short takes", dimension: "current", u: 0.01 },
  ],
  rows: bulbSizes.map((w) => {
    const r = lampInSeries(x.lineVoltage, w, x.bulbRated, x.ratedLine ** 2 / x.plateWatts);
    return [w, r.setV, r.ampere, lampInSeries(x.lineVoltage, w, x.bulbRated, 0).ampere];
  }),
});
function variacTable(x: Asked): Table {
  const tube = x.rectifierType !== "silicon";
  const supply = described(x);
  const bPlusAt = (lineV: number): string => {
    const v = supply && expectedVolts(supply, lineV)?.first;
    return v === undefined ? "not known" : printValue(v, "voltage", 5);
  };
  const short = lampInSeries(x.lineVoltage, x.bulbWatts, x.bulbRated, 0).ampere;
  return {
    id: "variac",
    title: "If a variac is used: by the volts at the set itself, the bulb still in series",
    columns: [
      { name: "at the set", dimension: "voltage", u: 0.3 },
      { name: "heaters", dimension: "ratio" },
      { name: "B+ to expect", dimension: "ratio" },
      { name: "current", dimension: "current", u: 0.01 },
      { name: "stop above", dimension: "current", u: 0.01 },
      { name: "hold", dimension: "ratio" },
    ],
    rows: [0.25, 0.4, 0.5, 0.6, 0.7].map((part) => {
      const current = (x.plateWatts / x.ratedLine) * part;
      const none = tube && part < 0.45;
      return [
        part * x.ratedLine,
        x.heaters === "series" ? "glow faintly" : printValue(part * x.heaterRated, "voltage", 0.1),
        none
          ? "none yet: the rectifier is cold"
          : `${bPlusAt(part * x.ratedLine)}${tube ? "" : `, up to ${printValue(crestV(x, part), "voltage", 5)} while the tubes are cold`}`,
        current,
        // never so high that a dead short behind this bulb would pass for sound
        Math.min(1.4 * current, 0.8 * short),
        part < 0.5 ? "5 min" : "10 min",
      ];
    }),
  };
}

/**
 * Ohms before power, what each bulb shows, and the steps of a variac.
 *
 * @param x inputs, SI
 * @returns three tables
 * @source lampInSeries, expectedVolts; ohms and steps: common practice, no source
 */
export const tablesOf = (x: Asked): Table[] => [ohmsTable(x), bulbsTable(x), variacTable(x)];
