import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { asked, stored } from "../../ask/stored";
import { capacitors } from "../../set/addresses/capacitors";
import { list } from "../../set/addresses/declare";
import { surveyColumns, surveyLeft, surveyOnCard } from "../inputs/capacitor-card";
import { crestHere } from "../inputs/supply";

export const ask = declare({
  id: "reform",
  version: 2,
  title: "Capacitors: which go, which stay",
  question: "Which capacitors are replaced untested, which are reformed, which may stay?",
  found: { when: ["before power", "noisy"], words: "electrolytic caps recap hum leaky wax paper filter can bulging old capacitors" },
  subject: "set",
  joins: false,
  works: "open-dead",
  place: ["stored-charge", "b-plus"],
  draws: ["circuit"],
  steps: ["05", "08"],
  inputs: {
    capacitors: asked(
      list(
        surveyColumns,
        "the capacitors of the set",
        "unplugged, discharged and measured; markings and places from the chassis, leakage by a tester at rated volts, current-limited. Enter them on the card of the capacitor survey",
        120,
      ),
      {
        from: (bench) => (bench.card("capacitors").length > 0 ? surveyLeft(surveyOnCard(bench)) : undefined),
        example: [
          { kind: 1, duty: 0, value: 0.05e-6, rating: 400, leakage: Number.NaN, part: Number.NaN },
          { kind: 0, duty: 2, value: 20e-6, rating: 450, leakage: 0.004, part: Number.NaN },
          { kind: 0, duty: 2, value: 20e-6, rating: 450, leakage: Number.NaN, part: Number.NaN },
          { kind: 1, duty: 1, value: 0.02e-6, rating: 400, leakage: Number.NaN, part: Number.NaN },
          { kind: 1, duty: 3, value: 0.05e-6, rating: 200, leakage: Number.NaN, part: Number.NaN },
          { kind: 6, duty: 8, value: 110e-12, rating: 500, leakage: Number.NaN, part: Number.NaN },
        ],
      },
    ),
    rule: stored(capacitors.rule),
    highestVolts: stored(capacitors.highestVolts, { from: crestHere }),
    formingCurrent: stored(capacitors.formingCurrent),
  },
  observed: ["capacitors"],
  readAt: ["b-plus", "stored-charge", "line"],
  first: ["highestVolts", "formingCurrent"],
  results: {
    replaceUnseen: { dimension: "ratio", meaning: "capacitors to replace untested", known: 3 },
    toReform: { dimension: "ratio", meaning: "electrolytics to reform, or replace", known: 3 },
    replaceMeasured: { dimension: "ratio", meaning: "electrolytics to replace for their leakage", known: 3 },
    sound: { dimension: "ratio", meaning: "capacitors to leave as they are", known: 3 },
    seriesResistance: { dimension: "resistance", meaning: "series resistor for the first electrolytic to reform", known: 100 },
    leakageLimit: { dimension: "current", meaning: "leakage allowed to the first electrolytic once reformed", known: 1e-5 },
  },
  key: ["replaceUnseen", "toReform"],
  curves: {},
  figures: [],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
