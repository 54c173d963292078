import { lampInSeries, loadBehindLamp } from "../../physics/lamp";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { chassisInput, isSafeToJoin } from "../chassis";
import { type NoValue, sheet, type Table } from "../contract";
import { touchOneInput, touchOtherInput } from "../safety-inputs";
import { lineVoltageInput, ofSupply, ratedLineInput, rectifierTypeInput } from "../supply-inputs";
import { findingsOf } from "./findings";
import { type BringUpInputs, type G, lampFor, lampSizes, overloads, recordFails } from "./solve";
import theory from "./theory.md";

const practice = "common practice, no source";
const notRead = "not read yet";

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

export const bringUp = sheet({
  id: "bring-up",
  version: 1,
  title: "First power",
  question: "How is it brought up, and what does a bright lamp mean?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["08", "03", "04"],
  inputs: {
    chassis: chassisInput,
    rectifierType: rectifierTypeInput,
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
    lineVoltage: lineVoltageInput,
    ratedLine: ratedLineInput,
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
      meaning: "lamp in series",
      howMeasured: "printed on it; an old filament lamp, never an electronic one",
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
      meaning: "rated volts of the lamp",
      howMeasured: "printed on it",
      from: (b) => {
        const line = b.quantity("line.voltage");
        return b.quantity("supplies.lampRated") ?? (line && { ...line, spread: exact, origin: "assumed", source: "a lamp for this line" });
      },
      keptAt: "supplies.lampRated",
      assumed: { value: 120, spread: exact, source: "a lamp for the line" },
    },
    setVolts: ofSupply("setVoltsBehindLamp", {
      dimension: "voltage",
      min: 0,
      max: 300,
      meaning: "volts across the set behind the lamp, after a minute; 0 for not read",
      howMeasured: "AC meter clipped across the set's primary side before the plug goes in",
      assumed: [0, exact, notRead],
    }),
    setVoltsNoRectifier: ofSupply("setVoltsNoRectifier", {
      dimension: "voltage",
      min: 0,
      max: 300,
      meaning: "the same with the rectifier out; 0 for not read",
      howMeasured: "the same way",
      assumed: [0, exact, notRead],
    }),
    bPlus: ofSupply("b1", {
      at: "supplies.nodes.b1.volts",
      dimension: "voltage",
      positive: true,
      max: 1500,
      meaning: "B+ that the first filter capacitor should have",
      howMeasured: "service sheet; the sheet on B+",
      assumed: [330, tolerance(30), "usual for a set of this class"],
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
    setExpected: { dimension: "voltage", meaning: "volts of a sound set behind this lamp", known: 1 },
    currentExpected: { dimension: "current", meaning: "line current then", known: 0.01 },
    currentShort: { dimension: "current", meaning: "line current of a dead short behind this lamp", known: 0.01 },
    lampWanted: { dimension: "power", meaning: "lamp that suits this set", known: 1 },
    equivalentWatts: { dimension: "power", meaning: "load of the set as read, at the rated line", known: 2 },
    equivalentNoRectifier: { dimension: "power", meaning: "the same with the rectifier out", known: 2 },
    overload: { dimension: "ratio", meaning: "that load over the type plate", known: 0.1 },
  },
  key: ["setExpected", "currentExpected", "overload"],
  curves: { byLoad: { x: "power", y: "voltage", meaning: "volts of the set behind this lamp against its load" } },
  prepare: (best, points) => {
    const b = best as unknown as BringUpInputs;
    const axis = Float64Array.from(
      { length: Math.min(points, 81) },
      (_, i) => b.plateWatts * 10 ** (-1 + (2 * i) / (Math.min(points, 81) - 1)),
    );
    return {
      axes: { byLoad: axis },
      solve: (plain, into) => {
        const x = plain as unknown as BringUpInputs;
        const behind = (watts: number) => lampInSeries(x.lineVoltage, x.lampWatts, x.lampRated, x.ratedLine ** 2 / watts);
        for (let i = 0; i < axis.length; i++) into.byLoad[i] = behind(axis[i]).setV;
        const sound = behind(x.plateWatts);
        const load = (volts: number): number | NoValue =>
          volts <= 0
            ? { none: notRead }
            : volts >= x.lineVoltage
              ? { none: "the set's volts reach the line's: the lamp is not in series, or the line was misread" }
              : loadBehindLamp(x.lineVoltage, x.lampWatts, x.lampRated, volts, x.ratedLine);
        const watts = load(x.setVolts);
        return {
          setExpected: sound.setV,
          currentExpected: sound.ampere,
          currentShort: lampInSeries(x.lineVoltage, x.lampWatts, x.lampRated, 0).ampere,
          lampWanted: lampFor(x.plateWatts),
          equivalentWatts: watts,
          equivalentNoRectifier: load(x.setVoltsNoRectifier),
          overload: typeof watts === "number" ? watts / x.plateWatts : watts,
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const isolate = isSafeToJoin(g.best.chassis) ? "" : "First a line isolation transformer: this chassis counts as live. ";
    const { whole, primary } = overloads(g);
    if (primary)
      return `STOP, plug out: with the rectifier out it takes what ${g.about("equivalentNoRectifier")} at the rated line would. The plan ends here until that is found.`;
    if (whole)
      return `STOP, plug out: it takes ${g.about("overload")} times the power on its type plate. The plan ends here until that is found.`;
    if (recordFails(g.best)) return "STOP: its safety record fails. No power until the cause of the touch current is found.";
    const read =
      g.best.setVolts > 0 && g.figures.overload.value !== null
        ? `It takes ${g.about("overload")} of the power on its type plate behind the lamp. `
        : "";
    return `${isolate}${read}Bring it up in six steps behind a lamp of ${g.best.lampWatts.toFixed(0)} W: a sound set then shows ${g.about("setExpected")} and ${g.about("currentExpected")}, a dead short ${g.about("currentShort")} and a bright lamp.`;
  },
  findings: (ground) => findingsOf(ground as unknown as G) as never,
  tables: (best) => {
    const x = best as unknown as BringUpInputs;
    const tube = x.rectifierType !== "silicon";
    const primary = (0.04 * x.ratedLine ** 2) / x.plateWatts;
    return [
      {
        id: "ohms",
        title: "Ohms before any power: plug out, discharged and measured",
        columns: ["where", "sound", "else"].map((name) => ({ name, dimension: "ratio" as const })),
        rows:
          x.heaters === "series"
            ? seriesOhms
            : [
                [
                  "line plug, switch on",
                  `about ${printValue(primary, "resistance", 0.5 * primary)}, a fifth to five times that`,
                  "open: fuse, switch, winding; near nothing: a short",
                ],
                ["line to chassis", "over 2 MΩ, over 20 MΩ good, both wires", "line bypass, cord, winding: find it first"],
                ["high voltage, each half to its tap", "within a tenth of each other", "one half short or open: no power"],
                [
                  "B+ to chassis",
                  "over 10 to 20 kΩ once the meter has charged the filter; turn the leads round as well",
                  "filter capacitor, rectifier, bleeder: find it first",
                ],
                ["heater winding to chassis", "near nothing where it is grounded, else open", "as the service sheet has it"],
              ],
      },
      {
        id: "lamps",
        title: "Behind each lamp: a sound set, and a dead short",
        columns: [
          { name: "lamp", dimension: "power", u: 3 },
          { name: "set's volts", dimension: "voltage", u: 1 },
          { name: "current", dimension: "current", u: 0.01 },
          { name: "short takes", dimension: "current", u: 0.01 },
        ],
        rows: lampSizes.map((w) => {
          const r = lampInSeries(x.lineVoltage, w, x.lampRated, x.ratedLine ** 2 / x.plateWatts);
          return [w, r.setV, r.ampere, lampInSeries(x.lineVoltage, w, x.lampRated, 0).ampere];
        }),
      },
      {
        id: "variac",
        title: "If a variac is used: by the volts at the set itself, the lamp still in series",
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
          const short = lampInSeries(x.lineVoltage, x.lampWatts, x.lampRated, 0).ampere;
          return [
            part * x.ratedLine,
            x.heaters === "series" ? "glow faintly" : printValue(part * x.heaterRated, "voltage", 0.1),
            none
              ? "none yet: the rectifier is cold"
              : `${printValue(part * x.bPlus, "voltage", 10)}${tube ? "" : ", up to the crest while the tubes are cold"}`,
            current,
            // never so high that a dead short behind this lamp would pass for sound
            Math.min(1.4 * current, 0.8 * short),
            part < 0.5 ? "5 min" : "10 min",
          ];
        }),
      },
    ] satisfies Table[];
  },
  figures: [
    {
      id: "load",
      title: "The set's volts behind this lamp, against its load",
      xLabel: "load at the rated line",
      yLabel: "volts of the set",
      traces: [{ label: "behind this lamp", curve: "byLoad", stroke: "ink", band: true }],
      yFrom: 0,
    },
  ],
  theory,
});
