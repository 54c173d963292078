import { chassisInput } from "../../ask/chassis";
import { sheet } from "../../ask/contract";
import type { NoValue } from "../../ask/results";
import { lampInSeries, loadBehindLamp } from "../../physics/lamp";
import { exact, tolerance } from "../../units/quantity";
import { touchOneInput, touchOtherInput } from "../inputs/safety";
import { ofSupply, readAtSupply } from "../inputs/supply";
import { supplyInputs } from "../inputs/supply-filter";
import { crestV, described, expectedVolts, nodes } from "../inputs/supply-law";
import { findingsOf, headlineOf } from "./findings";
import { type BringUpInputs, type G, lampFor, mayPull } from "./solve";
import { tablesOf } from "./tables";
import theory from "./theory.md";

const practice = "common practice, no source";
const notRead = "not read yet";
const dead = "nothing across the set: a dead short, or no line at all";
const stringOpen = "with a tube pulled the string is open: such a reading proves nothing";

export const bringUp = sheet({
  id: "bring-up",
  version: 2,
  title: "First power",
  question: "How do I bring the set up, and what does a bright bulb tell me?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["08", "03", "04"],
  inputs: {
    chassis: chassisInput,
    ...supplyInputs,
    heaters: {
      kind: "choice",
      options: ["parallel", "series"],
      meaning: "heaters side by side on a winding, or in one string across the line",
      howMeasured: "service sheet; a set without a power transformer has a string",
      from: (b) => b.choice("supplies.heaters") ?? (/from the line/.test(b.choice("supplies.rectifier") ?? "") ? "series" : undefined),
      assumed: "parallel",
      keptAt: "supplies.heaters",
    },
    touchOne: touchOneInput,
    touchOther: touchOtherInput,
    plateWatts: ofSupply("plateWatts", {
      at: "plateWatts",
      dimension: "power",
      positive: true,
      max: 2000,
      meaning: "power on the type plate",
      howMeasured: "type plate; else count tubes and heaters",
      assumed: [70, tolerance(10), "usual for a set of this class"],
    }),
    lampWatts: {
      kind: "quantity",
      dimension: "power",
      positive: true,
      min: 7,
      max: 500,
      meaning: "bulb in series",
      howMeasured: "printed on it; an old filament bulb, never an electronic one",
      from: (b) => {
        const kept = b.quantity("supplies.lampWatts");
        const watts = b.quantity("plateWatts");
        return (
          kept ??
          (watts && {
            value: lampFor(watts.value),
            spread: exact,
            origin: "assumed",
            source: `next size over 1.3 times the plate, ${practice}`,
          })
        );
      },
      keptAt: "supplies.lampWatts",
      assumed: { value: 100, spread: exact, source: `next size over 1.3 times the plate, ${practice}` },
    },
    lampRated: {
      kind: "quantity",
      dimension: "voltage",
      positive: true,
      min: 50,
      max: 300,
      meaning: "rated volts of the bulb",
      howMeasured: "printed on it",
      from: (b) => {
        const line = b.quantity("line.voltage");
        return b.quantity("supplies.lampRated") ?? (line && { ...line, spread: exact, origin: "assumed", source: "a bulb for this line" });
      },
      keptAt: "supplies.lampRated",
      assumed: { value: 120, spread: exact, source: "a bulb for the line" },
    },
    setVolts: readAtSupply("setVoltsBehindLamp", {
      dimension: "voltage",
      min: 0,
      max: 300,
      meaning: "volts across the set behind the bulb, after a minute",
      howMeasured: "AC meter clipped across the set's primary side before the plug goes in",
    }),
    setVoltsNoRectifier: readAtSupply("setVoltsNoRectifier", {
      dimension: "voltage",
      min: 0,
      max: 300,
      meaning: "volts across the set behind the bulb with the rectifier out; no use where a rectifier tube's heater is in a string",
      howMeasured: "the same way",
    }),
    heaterRated: ofSupply("heaterRated", {
      dimension: "voltage",
      positive: true,
      max: 130,
      meaning: "rated heater volts",
      howMeasured: "tube manual",
      assumed: [6.3, exact, "the usual parallel heaters"],
    }),
  },
  first: ["plateWatts", "lampWatts", "lineVoltage", "setVolts", "setVoltsNoRectifier"],
  results: {
    setExpected: { dimension: "voltage", meaning: "volts of a sound set behind this bulb", known: 1 },
    currentExpected: { dimension: "current", meaning: "line current of a sound set behind this bulb", known: 0.01 },
    currentShort: { dimension: "current", meaning: "line current of a dead short behind this bulb", known: 0.01 },
    lampWanted: { dimension: "power", meaning: "bulb that suits this set", known: 1 },
    equivalentWatts: { dimension: "power", meaning: "load of the set as read, at the rated line", known: 2 },
    equivalentNoRectifier: { dimension: "power", meaning: "load of the set with the rectifier out, at the rated line", known: 2 },
    overload: { dimension: "ratio", meaning: "load of the set as read, over its rated power", known: 0.1 },
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
  prepare: (best, points) => {
    const b = best as unknown as BringUpInputs;
    const axis = Float64Array.from(
      { length: Math.min(points, 81) },
      (_, i) => b.plateWatts * 10 ** (-1 + (2 * i) / (Math.min(points, 81) - 1)),
    );
    const supply = described(b);
    const warm = supply && expectedVolts(supply, b.lineVoltage);
    return {
      axes: { byLoad: axis },
      solve: (plain, into) => {
        const x = plain as unknown as BringUpInputs;
        const behind = (watts: number) => lampInSeries(x.lineVoltage, x.lampWatts, x.lampRated, x.ratedLine ** 2 / watts);
        for (let i = 0; i < axis.length; i++) into.byLoad[i] = behind(axis[i]).setV;
        const sound = behind(x.plateWatts);
        const load = (volts: number | undefined): number | NoValue =>
          volts === undefined
            ? { none: notRead }
            : volts === 0
              ? { none: dead }
              : volts >= x.lineVoltage
                ? { none: "the set's volts reach the line's: the bulb is not in series, or the line was misread" }
                : loadBehindLamp(x.lineVoltage, x.lampWatts, x.lampRated, volts, x.ratedLine);
        const watts = load(x.setVolts);
        const own = warm && described(x, supply?.typed);
        const bPlus = own && expectedVolts(own, x.lineVoltage, warm.solved);
        return {
          setExpected: sound.setV,
          currentExpected: sound.ampere,
          currentShort: lampInSeries(x.lineVoltage, x.lampWatts, x.lampRated, 0).ampere,
          lampWanted: lampFor(x.plateWatts),
          equivalentWatts: watts,
          equivalentNoRectifier: mayPull(x) || x.setVoltsNoRectifier === undefined ? load(x.setVoltsNoRectifier) : { none: stringOpen },
          overload: typeof watts === "number" ? watts / x.plateWatts : watts,
          rippleLast: bPlus ? bPlus.solved.rippleRms[2] : { none: "the supply can't give this load" },
          noLoad: crestV(x, x.highLine),
          bPlusExpected: bPlus ? bPlus.first : { none: "the supply can't give this load" },
        };
      },
    };
  },
  headline: (ground) => headlineOf(ground as unknown as G),
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  tables: (best) => tablesOf(best as unknown as BringUpInputs),
  figures: [
    {
      id: "load",
      title: "The set's volts behind this bulb, against its load",
      xLabel: "load at the rated line",
      yLabel: "volts of the set",
      traces: [{ label: "behind this bulb", curve: "byLoad", stroke: "ink", band: true }],
      yFrom: 0,
    },
  ],
  theory,
});
