import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { itself, line, supplies } from "../../set/addresses/power";
import { safety } from "../../set/addresses/safety";
import type { Bench } from "../../set/bench";
import { saysNoBypass, saysTakenOut } from "../../standards/line-bypass";
import { exact, type Quantity } from "../../units/quantity";
import { bypassOnCard } from "../inputs/capacitor-card";
import { onRecord, touchOneOnRecord, touchOtherOnRecord } from "../inputs/safety";

/** The cord that the safety record names. */
function cordOnRecord(bench: Bench): (typeof safety.cord.options)[number] | undefined {
  const said = bench.cardField("safety-out", "Cord type") ?? bench.cardField("safety-in", "Cord type") ?? "";
  if (/three|3/.test(said)) return "three-wire";
  if (/polari[sz]ed/.test(said)) return "polarised two-wire";
  return /two|2/.test(said) ? "two-wire" : undefined;
}
/** Whether the safety record, going out before coming in, says that no capacitor goes from the line to the chassis; one that the survey found since was there. */
function bypassGone(bench: Bench): boolean {
  const [out, first] = ["safety-out", "safety-in"].map((card) => bench.cardField(card, "Line bypass parts and class")?.trim());
  const said = out ?? first ?? "";
  return saysTakenOut(said) || (saysNoBypass(said) && (out !== undefined || bypassOnCard(bench) === undefined));
}
const noneOnRecord = (bench: Bench): Quantity | undefined =>
  bypassGone(bench) ? { value: 0, spread: exact, origin: "measured", source: "safety record: none is fitted" } : undefined;

export const ask = declare({
  id: "safety",
  version: 2,
  title: "Line, chassis and stored charge",
  question: "Is it safe to touch and to hand over, and what must be proved?",
  found: {
    when: ["before power", "proving"],
    words: "shock tingle hot chassis live cord plug fuse leakage isolation line bypass death capacitor hand over",
  },
  subject: "set",
  joins: false,
  works: "open-dead",
  place: ["line", "b-plus", "stored-charge"],
  draws: ["circuit", "charge"],
  steps: ["03", "35", "02"],
  inputs: {
    chassis: chassisInput,
    cord: stored(safety.cord, { from: cordOnRecord }),
    bypassClass: stored(safety.bypassClass, { from: (b) => (bypassGone(b) ? "none fitted" : undefined) }),
    touchLimit: stored(safety.touchLimit),
    ratedLine: stored(line.voltage),
    highLine: stored(line.highRatio),
    lineFrequency: stored(line.frequency),
    secondaryVoltage: stored(supplies.secondaryVoltage),
    plateWatts: stored(itself.plateWatts),
    bypass: stored(safety.bypass, { from: (b) => noneOnRecord(b) ?? bypassOnCard(b) }),
    firstCapacitance: stored(supplies.firstCapacitance),
    secondCapacitance: stored(supplies.secondCapacitance),
    thirdCapacitance: stored(supplies.thirdCapacitance),
    bleeder: stored(supplies.bleeder),
    bond: stored(safety.bond, { optional: true, reading: true, over: onRecord("Bond, Ω", "resistance", "ohm") }),
    insulation: stored(safety.insulation, {
      optional: true,
      reading: true,
      over: onRecord("Insulation line to chassis, MΩ", "resistance", "megohm"),
    }),
    touchOne: stored(supplies.touchOne, { optional: true, reading: true, over: touchOneOnRecord }),
    touchOther: stored(supplies.touchOther, { optional: true, reading: true, over: touchOtherOnRecord }),
    connectorVolts: stored(safety.connectorVolts),
  },
  first: ["bypass", "highLine", "plateWatts", "bleeder", "firstCapacitance"],
  results: {
    bypassCurrent: { dimension: "current", meaning: "touch current through the line bypass at the highest line", known: 1e-5 },
    largestBypass: {
      dimension: "capacitance",
      meaning: "largest line bypass that keeps touch current under its limit, both line wires together",
      known: 1e-11,
    },
    fuseLow: { dimension: "current", meaning: "line fuse, lowest rating", known: 0.01 },
    fuseHigh: { dimension: "current", meaning: "line fuse, highest rating; slow", known: 0.01 },
    noLoad: { dimension: "voltage", meaning: "volts that the filter can be charged to", known: 1, gives: "supply.noLoad" },
    stored: { dimension: "energy", meaning: "energy in the filter, charged to the most it can be", known: 0.01 },
    falls: {
      dimension: "time",
      meaning: "time for the filter to fall to 60 V if the bleeder is intact: a guide only, measure before touching",
      known: 0.1,
    },
    fallsOpen: { dimension: "time", meaning: "time for the filter to fall to 60 V if the bleeder is open", known: 0.1 },
    bleederPower: { dimension: "power", meaning: "power in the bleeder, nothing else drawn", known: 0.05 },
    bleederWanted: { dimension: "resistance", meaning: "bleeder that would bring the whole filter to 60 V in ten seconds", known: 1000 },
  },
  key: ["bypassCurrent", "stored"],
  curves: {},
  figures: [],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
