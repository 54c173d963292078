import { answer } from "../../ask/answer";
import { resolveInputs } from "../../ask/resolve";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { type Change, solveChanged as changed, described } from "../inputs/supply-law";
import type { Asked } from "./ask";
import { hypothesesOf } from "./causes";
import { bPlus } from "./sheet";
import { weighCauses } from "./weigh";

export const base: Asked = {
  arrangement: "full-wave",
  rectifierType: "5Y3GT or 80",
  originalRectifier: "5Y3GT or 80",
  rectifierDrop: 50,
  rectifierCurrent: 0.125,
  lineVoltage: 117,
  ratedLine: 117,
  lineFrequency: 60,
  highLine: 127 / 117,
  secondaryVoltage: 325,
  secondaryResistance: 150,
  primaryResistance: 0,
  addedResistance: 0,
  filterInput: "capacitor",
  firstCapacitance: 20e-6,
  firstChoke: 8,
  firstResistance: 250,
  secondCapacitance: 20e-6,
  secondChoke: 0,
  secondResistance: 1500,
  thirdCapacitance: 10e-6,
  plateCurrent: 0.05,
  restCurrent: 0.03,
  currentsAre: "as-made",
  loadExponent: 0,
  bleeder: 1e9,
  lossRatio: 1,
  chartFirst: undefined,
  chartLine: 117,
  chartMeter: "20 kΩ/V",
  chartTolerance: 0.1,
  capacitorRating: 450,
  tests: [],
  measuredFirst: undefined,
  measuredHeater: undefined,
  heaterRated: 6.3,
};
export const solveChanged = (x: Asked, c: Change = {}) => {
  const d = described(x);
  return d && changed(d, c);
};
export const ask = (overrides: Record<string, string>) => orThrow(answer(bPlus, emptyBench, { draws: 100, overrides }));
/** The sheet's own findings, without what is said of a chassis that nobody has proved. */
export const ownFindings = (overrides: Record<string, string>) => ask(overrides).findings.filter((f) => f.id !== "chassis-may-be-live");
export const plain = (overrides: Record<string, string>) => orThrow(resolveInputs(bPlus, emptyBench, overrides)).plain as Partial<Asked>;
export const asFound = {
  loadExponent: "0",
  rectifierType: "5Y3GT or 80",
  secondaryVoltage: "325 V",
  secondaryResistance: "150",
  primaryResistance: "0",
  firstCapacitance: "20 uF",
  plateCurrent: "50 mA",
  restCurrent: "30 mA",
  bleeder: "100 Meg",
  lineVoltage: "120 V",
};

/** Causes of a measured B+, with what the supply is known to as a share; rough as a hand still turns a value. */
export function weigh(x: Asked, uShare: number, rough = false) {
  const lineV = x.measuredHeater ? (x.ratedLine * x.measuredHeater) / x.heaterRated : x.lineVoltage;
  const d = described(x)!;
  const expected = changed(d)!.volts[0];
  const all = hypothesesOf(d, lineV, x.measuredHeater !== undefined, rough);
  return { expected, at: (seen: number) => weighCauses(all, { seen, expected, uShare }) };
}
