import { lampInSeries, loadBehindLamp } from "../../physics/lamp";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { chassisInput, isSafeToJoin } from "../chassis";
import { type Finding, type GroundOn, type NoValue, sheet, type Table } from "../contract";
import { touchOneInput, touchOtherInput } from "../safety-inputs";
import { lineVoltageInput, ofSupply, ratedLineInput, rectifierTypeInput } from "../supply-inputs";
import theory from "./theory.md";

const practice = "common practice, no source";
const at: Finding["hazards"] = ["line", "b-plus", "stored-charge"];
export const lampSizes = [25, 40, 60, 100, 150, 200] as const;
interface Inputs {
  readonly chassis: string;
  readonly rectifierType: string;
  readonly heaters: "parallel" | "series";
  readonly touchOne: number;
  readonly touchOther: number;
  readonly lineVoltage: number;
  readonly ratedLine: number;
  readonly plateWatts: number;
  readonly lampWatts: number;
  readonly lampRated: number;
  readonly setVolts: number;
  readonly setVoltsNoRectifier: number;
  readonly bPlus: number;
  readonly heaterRated: number;
}
type Names = "setExpected" | "currentExpected" | "currentShort" | "equivalentWatts" | "equivalentNoRectifier" | "overload" | "lampWanted";
type G = GroundOn<Inputs, Names>;
const lampFor = (watts: number): number => lampSizes.find((w) => w >= 1.3 * watts) ?? 200;
const notRead = "not read yet";

/** Whether the readings behind the lamp say stop: with the rectifier in, or already with it out. */
function overloads(g: G): { readonly whole: boolean; readonly primary: boolean; readonly clear: boolean } {
  const x = g.best;
  const whole = x.setVolts > 0 && g.figures.overload.value !== null && g.verdict((_, y) => y.overload > 1.5) !== "no";
  const out = x.setVoltsNoRectifier > 0 && g.figures.equivalentNoRectifier.value !== null;
  const primary = out && g.verdict((i, y) => y.equivalentNoRectifier > 1.1 * i.plateWatts) !== "no";
  return { whole, primary, clear: out && g.verdict((i, y) => y.equivalentNoRectifier < 0.8 * i.plateWatts) === "yes" };
}
/** What the record of the safety test says against any power at all. */
const recordFails = (x: Inputs): boolean => Math.max(x.touchOne, x.touchOther) > 0.5e-3;

/** From the volts of the set behind the lamp to where to look. */
function lampFindings(g: G): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const { whole, primary, clear } = overloads(g);
  const impossible =
    (x.setVolts > 0 && g.figures.equivalentWatts.value === null) ||
    (x.setVoltsNoRectifier > 0 && g.figures.equivalentNoRectifier.value === null);
  if (recordFails(x))
    out.push({
      id: "bring-up-record-fails",
      severity: "danger",
      says: `The safety record has a touch current of ${printValue(Math.max(x.touchOne, x.touchOther), "current", 3e-5)}, over 0.5 mA.`,
      do: "Plug out. No power until its cause is found: first the line bypass (sheet on safety).",
      restsOn: [],
      hazards: at,
    });
  if (impossible)
    out.push({
      id: "bring-up-not-in-series",
      severity: "act",
      says: `The set's volts reach the line's ${printValue(x.lineVoltage, "voltage", 1)}: the lamp is not in series, it is out, or the meter sits on the wrong side of it. Nothing can be said of the load.`,
      do: "Plug out. Put the lamp in one wire of the line, the meter across the set behind it, and read again.",
      restsOn: ["equivalentWatts"],
      hazards: at,
    });
  if (primary)
    out.push({
      id: "bring-up-primary-short",
      severity: "danger",
      says: `Overload with the rectifier out: as ${g.say("equivalentNoRectifier")}, where heaters and iron alone take well under ${printValue(x.plateWatts, "power", 1)}. It is the transformer, the heater wiring, or the line side.`,
      do: "Plug out. Do not take the lamp away, and do not put the rectifier in. Unload the heater windings and the high-voltage winding in turn, power off; a transformer that alone overloads the lamp is done.",
      restsOn: ["equivalentNoRectifier"],
      hazards: [...at, "heat"],
    });
  else if (whole)
    out.push({
      id: clear ? "bring-up-b-plus-short" : "bring-up-overload",
      severity: "danger",
      says: clear
        ? `Overload: as ${g.say("equivalentWatts")} with the rectifier in, ${g.say("equivalentNoRectifier")} with it out. It lies after the rectifier: first filter capacitor, then what the filter feeds, then the rectifier itself. Primary and heaters are sound.`
        : `Overload: the set takes what ${g.say("equivalentWatts")} at the rated line would, ${g.about("overload")} times the power on its type plate.`,
      do: clear
        ? "Plug out. Do not take the lamp away. Discharge, measure; then ohms from B+ to the chassis, filter capacitors lifted one by one."
        : "Plug out. Do not take the lamp away. Discharge, measure, pull the rectifier (or lift the diodes), and read the set's volts behind the lamp once more.",
      restsOn: ["equivalentWatts", "overload"],
      hazards: [...at, "heat"],
    });
  else if (x.setVolts > 0 && !impossible)
    out.push({
      id: "bring-up-load-right",
      severity: "note",
      says: `Behind the lamp the set takes what ${g.say("equivalentWatts")} at the rated line would: no overload for a set of ${printValue(x.plateWatts, "power", 1)}. A lamp shows shorts, not leaks.`,
      restsOn: ["equivalentWatts", "overload"],
      hazards: at,
    });
  return out;
}

function planFindings(g: G): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const step = (id: string, says: string, todo: string, hazards: Finding["hazards"] = at): void => {
    out.push({ id: `bring-up-${id}`, severity: "act", says, do: todo, restsOn: [], hazards });
  };
  if (!isSafeToJoin(x.chassis))
    out.push({
      id: "chassis-may-be-live",
      severity: "danger",
      says: `This chassis ${x.chassis === "live" ? "is" : "must be taken to be"} joined to the line. Lamp and variac isolate nothing.`,
      do: "Run it from a line isolation transformer of half again its power and more, then the lamp, then the set. Prove the chassis dead to earth both ways of the plug. Never earth it, and clip no earthed instrument to it.",
      restsOn: [],
      hazards: ["live-chassis", ...at],
    });
  step(
    "first-look",
    "1. Before any power: look it over, and decide cord, fuse and line bypass.",
    "Plug out. No damaged cord, no cracked insulation, the right fuse, the line bypass out or of the right class (sheet on safety).",
  );
  const series = x.heaters === "series";
  step(
    "ohms",
    "2. Ohms with the plug out (table below).",
    series
      ? "Discharged and measured: the heater string from plug to plug, all tubes in, a few tens to a hundred ohms cold; open means a heater is. B+ to the chassis over 10 to 20 kΩ once the meter has charged the filter. Less: find it before any power."
      : "Discharged and measured: primary a few ohms to tens and open to the chassis; halves of the high-voltage winding within a tenth of each other; B+ to the chassis over 10 to 20 kΩ once the meter has charged the filter. Less: find it before any power.",
  );
  step(
    "capacitors",
    "3. Capacitors that can do harm: decided, before power (sheet on reforming).",
    "Line bypass, output coupling and paper in harm's way are replaced unseen; electrolytics are reformed apart, or replaced.",
  );
  if (series)
    step(
      "no-rectifier",
      `4. First power: behind the isolation transformer, a lamp of ${x.lampWatts.toFixed(0)} W in series, every tube in its socket: with one pulled the whole string is dark, and that proves nothing.`,
      "One hand, nothing touched. The lamp bright at first and dim within a minute; a lamp that stays bright: plug out, B+ and heater string in ohms. A lamp that never lights: the string is open.",
    );
  else
    step(
      "no-rectifier",
      `4. First power: a lamp of ${x.lampWatts.toFixed(0)} W in series, the rectifier out. Expect the heaters alone: the lamp dim at once, the set's volts higher than with the rectifier in.`,
      "One hand, nothing touched. Read the set's volts and type them as setVoltsNoRectifier. A lamp that stays bright: plug out, and look at transformer and heaters.",
    );
  step(
    "rectifier",
    `5. ${series ? "Left on behind the lamp" : "Plug out, discharged, measured; the rectifier in"}. Expect ${g.about("setExpected")} at the set and ${g.about("currentExpected")}, the lamp bright for a second or two and then dim.`,
    `Stop at smoke, smell, a glowing plate, blue light in the output tube, or a lamp that stays bright: near ${g.about("currentShort")} is a dead short. Hold a quarter of an hour while it stays as expected, and read B+ from clips put on beforehand.`,
  );
  step(
    "full",
    "6. The lamp out only when steps 4 and 5 were as expected; then half an hour under watch.",
    `Compare B+ with the sheet on it. Expect ${printValue(x.bPlus, "voltage", 10)} on the first filter capacitor with all tubes warm. Let the transformer cool if it passes what the hand bears.`,
    [...at, "heat"],
  );
  out.push({
    id: "bring-up-variac",
    severity: "check",
    says:
      x.rectifierType === "silicon"
        ? "With silicon B+ follows a variac from the first volts, so capacitors do reform on it; heaters lag, and B+ stands at its crest until the tubes draw."
        : "A variac does little before a tube rectifier heats: no B+ up to about 40 % of the line, then it comes at once. It does not reform capacitors gently, and half-warm cathodes are worn by it. Use the lamp, and reform apart.",
    do: "If a variac is used all the same, go by the table, with the lamp still in series, and stop where the current passes the limit beside the step.",
    restsOn: [],
    hazards: at,
  });
  return out;
}

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
    const b = best as unknown as Inputs;
    const axis = Float64Array.from(
      { length: Math.min(points, 81) },
      (_, i) => b.plateWatts * 10 ** (-1 + (2 * i) / (Math.min(points, 81) - 1)),
    );
    return {
      axes: { byLoad: axis },
      solve: (plain, into) => {
        const x = plain as unknown as Inputs;
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
  findings: (ground) => {
    const g = ground as unknown as G;
    const lamp = lampFindings(g);
    const plan = planFindings(g);
    const { whole, primary } = overloads(g);
    const chassis = plan.filter((f) => f.id === "chassis-may-be-live");
    // after a stop the plan is withheld: nobody reads on to the step that takes the lamp out
    return [
      ...chassis,
      ...lamp,
      ...(whole || primary || recordFails(g.best) ? [] : plan.filter((f) => f.id !== "chassis-may-be-live")),
    ] as never;
  },
  tables: (best) => {
    const x = best as unknown as Inputs;
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
