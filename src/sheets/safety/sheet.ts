import { chassisInput, isLiveSet, isSafeToJoin } from "../../ask/chassis";
import { sheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import type { Part } from "../../ask/findings";
import type { NoValue } from "../../ask/results";
import { lineCurrentA, storedJ, timeToFall } from "../../physics/discharge";
import type { Bench } from "../../set/bench";
import { hazardousDcV } from "../../standards/cautions";
import { nextFuseA } from "../../standards/preferred";
import { lineClasses, touchLimitNames, touchLimitOf } from "../../standards/touch-current";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { bypassOnCard } from "../inputs/capacitor-card";
import { recorded, touchOneInput, touchOtherInput } from "../inputs/safety";
import { highLineInput, lineFrequencyInput, ofSupply, ratedLineInput, secondaryInput } from "../inputs/supply";
import { findingsOf } from "./findings";
import { allowedF, type G, type SafetyInputs } from "./solve";
import theory from "./theory.md";

const practice = "common practice, no source";

const never: NoValue = { none: "never on its own: MEASURE, and discharge it through a resistor" };

export const safety = sheet({
  id: "safety",
  version: 2,
  title: "Line, chassis and stored charge",
  question: "Is it safe to touch and to hand over, and what must be proved?",
  subject: "set",
  joins: false,
  works: "open-dead",
  steps: ["03", "35", "02"],
  inputs: {
    chassis: chassisInput,
    cord: {
      kind: "choice",
      options: ["two-wire", "three-wire", "polarised two-wire", "not-stated"],
      meaning: "line cord",
      howMeasured: "look at it",
      from: (b) => {
        const said = b.cardField("safety-out", "Cord type") ?? b.cardField("safety-in", "Cord type") ?? "";
        const onCardSaid = /three|3/.test(said)
          ? "three-wire"
          : /polari[sz]ed/.test(said)
            ? "polarised two-wire"
            : /two|2/.test(said)
              ? "two-wire"
              : undefined;
        return b.choice("supplies.cord") ?? onCardSaid;
      },
      assumed: "not-stated",
      keptAt: "supplies.cord",
    },
    bypassClass: {
      kind: "choice",
      options: ["no class", "none fitted", ...lineClasses.map((c) => c.name)],
      meaning: "safety class of the capacitor from the line to the chassis",
      howMeasured: "printed on it; an old one has none",
      from: (b) => b.choice("supplies.bypassClass"),
      assumed: "no class",
      keptAt: "supplies.bypassClass",
    },
    touchLimit: {
      kind: "choice",
      options: touchLimitNames,
      meaning: "limit of the touch current; local code prevails",
      howMeasured: "chosen",
      from: (b) => b.choice("supplies.touchLimit"),
      assumed: "0.5 mA",
      keptAt: "supplies.touchLimit",
    },
    ratedLine: ratedLineInput,
    highLine: highLineInput,
    lineFrequency: lineFrequencyInput,
    secondaryVoltage: secondaryInput,
    plateWatts: ofSupply("plateWatts", {
      at: "plateWatts",
      dimension: "power",
      positive: true,
      max: 2000,
      meaning: "power on the type plate",
      howMeasured: "type plate",
      assumed: [70, tolerance(10), "usual for a set of this class"],
    }),
    bypass: {
      ...ofSupply("lineBypass", {
        dimension: "capacitance",
        min: 0,
        max: 2e-6,
        meaning: "capacitance from the line to the chassis; 0 for none",
        howMeasured: "its marking; a bridge from both line wires to the chassis, unplugged",
        assumed: [20e-9, tolerance(10e-9), `0.01 to 0.05 µF in sets of the era, ${practice}`],
      }),
      from: (b: Bench) => b.quantity("supplies.lineBypass") ?? bypassOnCard(b),
    },
    firstCapacitance: ofSupply("firstCapacitance", {
      dimension: "capacitance",
      positive: true,
      max: 2e-3,
      meaning: "first filter capacitor",
      howMeasured: "its marking",
      assumed: [20e-6, tolerance(4e-6), "usual for a set of this class"],
    }),
    secondCapacitance: ofSupply("secondCapacitance", {
      dimension: "capacitance",
      positive: true,
      max: 2e-3,
      meaning: "second filter capacitor",
      howMeasured: "its marking",
      assumed: [20e-6, tolerance(4e-6), "usual for a set of this class"],
    }),
    thirdCapacitance: ofSupply("thirdCapacitance", {
      dimension: "capacitance",
      positive: true,
      max: 2e-3,
      meaning: "third filter capacitor",
      howMeasured: "its marking",
      assumed: [10e-6, tolerance(2e-6), "usual for a set of this class"],
    }),
    bleeder: ofSupply("bleeder", {
      dimension: "resistance",
      positive: true,
      meaning: "bleeder and dividers across B+, if they are intact",
      howMeasured: "ohmmeter, unplugged, discharged, reading settled",
      assumed: [50e3, tolerance(20e3), "usual for a set of this class"],
    }),
    bond: recorded("resistance", "bond from the earth pin to the chassis", "milliohmmeter or four wires, unplugged", "Bond, Ω", "ohm"),
    insulation: recorded(
      "resistance",
      "insulation from the line to the chassis",
      "insulation tester at 500 V DC, unplugged, switch on, by somebody trained for it",
      "Insulation line to chassis, MΩ",
      "megohm",
    ),
    touchOne: touchOneInput,
    touchOther: touchOtherInput,
    connectorVolts: ofSupply("connectorVolts", {
      dimension: "voltage",
      min: 0,
      max: 2000,
      meaning: "B+ that a connector on the outside carries; 0 for none",
      howMeasured: "service sheet; measured from clips put on with the set off",
      assumed: [0, exact, "none stated"],
    }),
  },
  first: ["bypass", "highLine", "plateWatts", "bleeder", "firstCapacitance"],
  results: {
    bypassCurrent: { dimension: "current", meaning: "touch current by the line bypass at the highest line", known: 1e-5 },
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
  prepare: () => ({
    axes: {},
    solve: (plain) => {
      const x = plain as unknown as SafetyInputs;
      const line = x.ratedLine * x.highLine;
      const noLoad = Math.SQRT2 * x.secondaryVoltage * x.highLine;
      const limit = touchLimitOf(x.touchLimit).ampere;
      const whole = x.firstCapacitance + x.secondCapacitance + x.thirdCapacitance;
      // one resistor across the filter has all of it to discharge
      const falls = timeToFall(whole, x.bleeder, noLoad, hazardousDcV.value);
      const rated = x.plateWatts / x.ratedLine;
      return {
        bypassCurrent: lineCurrentA(x.bypass, line, x.lineFrequency),
        largestBypass: limit / lineCurrentA(1, line, x.lineFrequency),
        fuseLow: 1.5 * rated,
        fuseHigh: 2 * rated,
        noLoad,
        stored: storedJ(whole, noLoad),
        falls,
        fallsOpen: never,
        bleederPower: noLoad ** 2 / x.bleeder,
        bleederWanted:
          noLoad > hazardousDcV.value ? 10 / (whole * Math.log(noLoad / hazardousDcV.value)) : { none: "it never holds over 60 V" },
      };
    },
  }),
  headline: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const chassis = isSafeToJoin(x.chassis)
      ? isLiveSet(x.chassis)
        ? "The chassis is live, behind a line isolation transformer: never earth it. "
        : ""
      : "The chassis counts as live: never earth it, and touch no part of it. ";
    const over = g.verdict((i, y) => y.bypassCurrent > touchLimitOf(i.touchLimit).ampere);
    const bypass =
      x.bypass > 0 && !g.isAssumed("bypass")
        ? `The line bypass alone passes ${g.about("bypassCurrent")}${over === "yes" ? `, over the ${x.touchLimit} allowed` : over === "open" ? `, perhaps over the ${x.touchLimit} allowed` : ""}. `
        : "";
    return `${chassis}${bypass}The filter can hold ${g.about("noLoad")} and ${g.about("stored")}: with the bleeder open it stays. Measure before touching, every time.`;
  },
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  parts: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const out: Part[] = [];
    if (x.bypass > 0 && x.bypassClass === "no class" && !g.isAssumed("bypass"))
      out.push({
        part: "capacitor, line to chassis",
        was: printValue(x.bypass, "capacitance", 0, "old"),
        value: `${printValue(allowedF(g), "capacitance")} or less, or none`,
        rating: "of its class",
        kind: x.ratedLine < 150 ? "Y2 or Y4" : "Y2",
        quantity: 1,
        why: "the old one can put the line on the chassis",
      });
    if (!isLiveSet(x.chassis) && x.cord !== "three-wire" && x.cord !== "not-stated")
      out.push({
        part: "line cord with strain relief",
        was: x.cord,
        value: "three-wire",
        rating: "for the line",
        kind: "as local code asks",
        quantity: 1,
        why: "a fault then blows the fuse",
      });
    out.push({
      part: "line fuse and holder",
      was: "",
      value: printValue(nextFuseA(g.figures.fuseLow.value ?? 1), "current"),
      rating: `${printValue(x.ratedLine, "voltage")} line`,
      kind: "slow",
      quantity: 1,
      why: "1.5 to 2 times the running current",
    });
    return out;
  },
  tables: (best) => {
    const x = best as unknown as SafetyInputs;
    const noLoad = Math.SQRT2 * x.secondaryVoltage * x.highLine;
    const whole = x.firstCapacitance + x.secondCapacitance + x.thirdCapacitance;
    const stays = "stays: MEASURE, discharge, MEASURE";
    return [
      {
        id: "nodes",
        title: "What each filter capacitor holds, with nothing drawn at the highest line. A guide: measure before touching",
        columns: [
          { name: "node", dimension: "ratio" },
          { name: "volts", dimension: "voltage", u: 1 },
          { name: "energy", dimension: "energy", u: 0.01 },
          { name: "to 60 V, bleeder intact", dimension: "time", u: 0.1 },
          { name: "bleeder open", dimension: "ratio" },
          { name: "resistor or choke before the bleeder open", dimension: "ratio" },
        ],
        rows: (
          [
            ["first capacitor", x.firstCapacitance, stays],
            ["second capacitor", x.secondCapacitance, stays],
            ["third capacitor", x.thirdCapacitance, "falls by itself, the others stay"],
          ] as const
        ).map(([node, farad, cut]) => [
          node,
          noLoad,
          storedJ(farad, noLoad),
          timeToFall(whole, x.bleeder, noLoad, hazardousDcV.value),
          stays,
          cut,
        ]),
      } satisfies Table,
    ];
  },
  figures: [],
  theory,
});
