import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { asked, stored } from "../../ask/stored";
import { accessory } from "../../set/addresses/accessory";
import { capacitors } from "../../set/addresses/capacitors";
import { list } from "../../set/addresses/declare";
import { accessoryKind } from "../inputs/accessory";
import { accessoryColumns, accessorySurvey } from "../inputs/accessory-card";
import { crestHere } from "../inputs/supply";

const none = Number.NaN;

export const ask = declare({
  id: "accessory-capacitors",
  version: 1,
  title: "An accessory's capacitors",
  question: "Which of the accessory's capacitors go, and which may stay?",
  found: { when: ["fitting", "before power"], words: "accessory condensers dried out jack live series condenser recap the box" },
  subject: "fitting",
  joins: false,
  works: "open-dead",
  place: ["stored-charge", "b-plus"],
  draws: ["circuit"],
  steps: ["31c", "31a"],
  inputs: {
    chassis: chassisInput,
    powerFrom: stored(accessory.powerFrom),
    made: stored(accessory.made),
    hangsOn: stored(accessory.hangsOn, {
      from: (b) => (accessoryKind(b) === "" || accessoryKind(b) === "q-multiplier" ? "a B+ point" : "the antenna terminal"),
    }),
    capacitors: asked(
      list(
        accessoryColumns,
        "the accessory's capacitors",
        "unplugged from the receiver, discharged and measured; markings and places from its chassis, values by a bridge, leakage by a tester at rated volts, current-limited. Enter them on the card for the accessory's capacitors",
        60,
      ),
      {
        from: accessorySurvey,
        example: [
          { kind: 5, duty: 10, value: 1e-9, measured: none, rating: 500, leakage: none, part: none },
          { kind: 0, duty: 2, value: 10e-6, measured: 3e-6, rating: 450, leakage: none, part: none },
          { kind: 1, duty: 5, value: 0.01e-6, measured: none, rating: 400, leakage: none, part: none },
          { kind: 6, duty: 9, value: 1.5e-9, measured: none, rating: 500, leakage: none, part: none },
        ],
      },
    ),
    rule: stored(capacitors.rule),
    highestVolts: stored(capacitors.highestVolts, { from: crestHere }),
    railVolts: stored(accessory.railVolts, { optional: true }),
    formingCurrent: stored(capacitors.formingCurrent),
  },
  observed: ["capacitors"],
  readAt: ["b-plus", "stored-charge", "line"],
  first: ["highestVolts", "railVolts", "formingCurrent"],
  results: {
    replace: { dimension: "ratio", meaning: "capacitors of the accessory to replace", known: 3 },
    toReform: { dimension: "ratio", meaning: "electrolytics of the accessory to reform, or replace", known: 3 },
    toMeasure: { dimension: "ratio", meaning: "capacitors of the accessory whose leakage is to be measured before power", known: 3 },
    sound: { dimension: "ratio", meaning: "capacitors of the accessory to leave as they are", known: 3 },
    seriesNeeds: {
      dimension: "voltage",
      meaning: "volts that the series capacitor at B+ must hold, all tubes cold, at the highest line",
      known: 1,
    },
    railNeeds: { dimension: "voltage", meaning: "volts that the accessory's other capacitors at B+ must hold", known: 1 },
  },
  key: ["replace", "toMeasure"],
  curves: {},
  figures: [],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
