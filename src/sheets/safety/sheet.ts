import { lineCurrentA, storedJ, timeToFall } from "../../physics/discharge";
import { hazardousDcV } from "../../standards/cautions";
import { lastPreferred, nextFuseA, nextRatedV } from "../../standards/preferred";
import {
  bondMostOhm,
  dangerousJ,
  impulseVOf,
  insulationLeastOhm,
  lineClasses,
  touchLimitNames,
  touchLimitOf,
} from "../../standards/touch-current";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { chassisInput, isSafeToJoin } from "../chassis";
import { type Finding, type GroundOn, type NoValue, type Part, sheet, type Table } from "../contract";
import { recorded, touchOneInput, touchOtherInput } from "../safety-inputs";
import { highLineInput, lineFrequencyInput, ofSupply, ratedLineInput, secondaryInput } from "../supply-inputs";
import theory from "./theory.md";

const practice = "common practice, no source";
const all: Finding["hazards"] = ["line", "b-plus", "stored-charge"];
interface Inputs {
  readonly chassis: string;
  readonly cord: string;
  readonly bypassClass: string;
  readonly touchLimit: string;
  readonly ratedLine: number;
  readonly highLine: number;
  readonly lineFrequency: number;
  readonly secondaryVoltage: number;
  readonly plateWatts: number;
  readonly bypass: number;
  readonly firstCapacitance: number;
  readonly secondCapacitance: number;
  readonly thirdCapacitance: number;
  readonly bleeder: number;
  readonly bond: number;
  readonly insulation: number;
  readonly touchOne: number;
  readonly touchOther: number;
  readonly connectorVolts: number;
}
type Names =
  | "bypassCurrent"
  | "largestBypass"
  | "fuseLow"
  | "fuseHigh"
  | "stored"
  | "noLoad"
  | "falls"
  | "fallsOpen"
  | "bleederPower"
  | "bleederWanted";
type G = GroundOn<Inputs, Names>;

const never: NoValue = { none: "never by itself: MEASURE, and discharge it through a resistor" };

export const safety = sheet({
  id: "safety",
  version: 1,
  title: "Line, chassis and stored charge",
  question: "Is it safe to touch and to hand over, and what must be proved?",
  subject: "set",
  joins: false,
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
    bypass: ofSupply("lineBypass", {
      dimension: "capacitance",
      min: 0,
      max: 2e-6,
      meaning: "capacitance from the line to the chassis; 0 for none",
      howMeasured: "its marking; a bridge from both line wires to the chassis, plug out",
      assumed: [20e-9, tolerance(10e-9), `0.01 to 0.05 µF in sets of the era, ${practice}`],
    }),
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
      howMeasured: "ohmmeter, plug out, discharged, reading settled",
      assumed: [50e3, tolerance(20e3), "usual for a set of this class"],
    }),
    bond: recorded("resistance", "bond from the earth pin to the chassis", "milliohmmeter or four wires, plug out", "Bond, Ω", "ohm"),
    insulation: recorded(
      "resistance",
      "insulation from the line to the chassis",
      "insulation tester at 500 V DC, plug out, switch on, by a person used to it",
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
    largestBypass: { dimension: "capacitance", meaning: "largest bypass under the limit, both line wires together", known: 1e-11 },
    fuseLow: { dimension: "current", meaning: "fuse, from", known: 0.01 },
    fuseHigh: { dimension: "current", meaning: "fuse, to; slow", known: 0.01 },
    noLoad: { dimension: "voltage", meaning: "volts that the filter can be charged to", known: 1 },
    stored: { dimension: "energy", meaning: "energy in the filter then", known: 0.01 },
    falls: { dimension: "time", meaning: "filter to 60 V if the bleeder is intact: a guide only, measure before touching", known: 0.1 },
    fallsOpen: { dimension: "time", meaning: "filter to 60 V if the bleeder is open", known: 0.1 },
    bleederPower: { dimension: "power", meaning: "power in the bleeder, nothing else drawn", known: 0.05 },
    bleederWanted: { dimension: "resistance", meaning: "bleeder that would bring the whole filter to 60 V in ten seconds", known: 1000 },
  },
  key: ["bypassCurrent", "stored"],
  curves: {},
  prepare: () => ({
    axes: {},
    solve: (plain) => {
      const x = plain as unknown as Inputs;
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
    const chassis = isSafeToJoin(x.chassis) ? "" : "The chassis counts as live: never earth it, and touch nothing of it. ";
    const over = g.verdict((i, y) => y.bypassCurrent > touchLimitOf(i.touchLimit).ampere);
    const bypass =
      x.bypass > 0 && !g.isAssumed("bypass")
        ? `The line bypass alone passes ${g.about("bypassCurrent")}${over === "yes" ? `, over the ${x.touchLimit} allowed` : over === "open" ? `, perhaps over the ${x.touchLimit} allowed` : ""}. `
        : "";
    return `${chassis}${bypass}The filter can hold ${g.about("noLoad")} and ${g.about("stored")}: with the bleeder open it stays. Measure before touching, every time.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const out: Finding[] = [];
    const limit = touchLimitOf(x.touchLimit);
    const live = !isSafeToJoin(x.chassis);
    if (live)
      out.push({
        id: "chassis-may-be-live",
        severity: "danger",
        says: `The chassis ${x.chassis === "live" ? "is" : "must be taken to be"} joined to the line: every screw and shaft of it can kill.`,
        do: "Never earth it, and fit no three-wire cord with the green wire to the chassis. Work on it only behind a line isolation transformer of half again its power and more, the chassis proved dead both ways of the plug. A polarised plug with the chassis on the neutral lowers the risk and does not take it away: a wrong socket turns it round. Knobs, screws and back must cover every part of it. Local code prevails.",
        restsOn: [],
        hazards: ["live-chassis", ...all],
      });
    if (live && x.cord === "three-wire")
      out.push({
        id: "safety-cord-live",
        severity: "danger",
        says: "A three-wire cord is stated on a chassis that is, or counts as, joined to the line. With its green wire on the chassis it is a short of the line, or a chassis at line voltage through a broken wire.",
        do: "Plug out. It is not plugged in by anyone until the green wire is proved off the chassis, or the set is proved to have a transformer of its own.",
        restsOn: [],
        hazards: ["live-chassis", ...all],
      });
    if (x.bypass > 0 && x.bypassClass !== "none fitted" && g.isAssumed("bypass"))
      out.push({
        id: "safety-line-bypass-look",
        severity: "act",
        says: `Nobody has looked yet whether a capacitor goes from the line to the chassis. One of 0.01 to 0.05 µF is usual in sets of the era, and passes up to 2 mA at 117 V; an old one has no safety class.`,
        do: "Plug out. Look at the line switch and the transformer's primary; read its marking; then record it (supplies.lineBypass, supplies.bypassClass). Local code prevails.",
        restsOn: ["bypassCurrent"],
        hazards: all,
      });
    else if (x.bypass > 0 && x.bypassClass !== "none fitted") {
      const over = g.verdict((i, y) => y.bypassCurrent > touchLimitOf(i.touchLimit).ampere);
      const classed = lineClasses.some((c) => c.name === x.bypassClass && c.name.startsWith("Y"));
      if (over !== "no" || !classed)
        out.push({
          id: "safety-line-bypass",
          severity: over === "yes" || !classed ? "danger" : "check",
          says: `The capacitor from line to chassis passes ${g.say("bypassCurrent")} at the highest line${over === "yes" ? `, over ${x.touchLimit}` : over === "open" ? `, and may be over ${x.touchLimit}` : ""} (${limit.source})${classed ? "" : `; ${x.bypassClass === "no class" ? "it is of no safety class, and a short of it puts the line on the chassis" : `${x.bypassClass} is no class for line to chassis`}`}.`,
          do: `Plug out. Take it out, or replace it by class Y2${x.ratedLine < 150 ? " or Y4" : ""} (impulse ${printValue(impulseVOf("Y2", 4.7e-9), "voltage")}) of no more than ${printValue(allowedF(g), "capacitance")} for both line wires together; X2 is for line to line only. Never a plain film or paper part. Work on the line side belongs to a licensed person where local code says so.`,
          restsOn: ["bypassCurrent", "largestBypass"],
          hazards: all,
        });
    }
    if (!live && x.cord !== "three-wire")
      out.push({
        id: "safety-cord",
        severity: "act",
        says: `The cord is ${x.cord === "not-stated" ? "not stated" : `a ${x.cord} one`}. Practices differ: many fit a three-wire cord to every set with a transformer, so that a fault blows the fuse; others keep two wires to avoid ground loops, or for originality. Local code decides; where it is silent, earth is the safer of the two.`,
        do: "Plug out. Three-wire: hot to fuse, then switch; neutral straight to the transformer; green to the chassis by itself, on its own bolt and the longest of the three, strain relief on the jacket. Then prove the bond.",
        restsOn: [],
        hazards: all,
      });
    out.push({
      id: "safety-fuse",
      severity: "act",
      says: `Line fuse: 1.5 to 2 times the running current, so ${printValue(nextFuseA(g.figures.fuseLow.value ?? 1), "current")}, slow (common practice; from memory). It guards against fire, not against shock.`,
      do: "Plug out. Fuse in the hot wire, before the switch; of the breaking capacity that local code asks for. Read the running current once the set is proved, and choose by it.",
      restsOn: ["fuseLow", "fuseHigh"],
      hazards: all,
    });
    const energy = g.verdict((_, y) => y.stored > dangerousJ);
    out.push({
      id: "safety-stored",
      severity: energy === "no" ? "check" : "act",
      says: `Charged to ${g.about("noLoad")} the filter holds ${g.say("stored")}${energy === "no" ? "" : `; over ${dangerousJ} J counts as dangerous`}. If the bleeder is intact it falls to ${hazardousDcV.value} V in ${g.say("falls")}; if it is open, never. This is a guide, no proof.`,
      do: "After every switching off: plug out, wait, MEASURE each filter capacitor by itself, discharge through a resistor with an insulated handle, and MEASURE once more before touching.",
      restsOn: ["stored", "noLoad", "falls", "fallsOpen"],
      hazards: all,
    });
    const hot = g.verdict((i, y) => y.falls > 60 && i.bleeder > 0);
    if (hot !== "no")
      out.push({
        id: "safety-bleeder",
        severity: "check",
        says: `It takes over a minute to fall, or may. ${g.say("bleederWanted")} across the filter would do it in ten seconds.`,
        do: `Plug out, discharged and measured: a bleeder rated twice ${printValue((g.figures.noLoad.value ?? 0) ** 2 / (g.figures.bleederWanted.value ?? 1e6), "power", 0.1)} and for the whole volts, mounted clear of what its heat harms.`,
        restsOn: ["bleederWanted", "falls"],
        hazards: [...all, "heat"],
      });
    if (x.connectorVolts > hazardousDcV.value)
      out.push({
        id: "safety-connector",
        severity: "danger",
        says: `A connector on the outside carries ${printValue(x.connectorVolts, "voltage", 1)}; ${hazardousDcV.value} V DC already counts as hazardous (${hazardousDcV.source}).`,
        do: `Plug out, discharged and measured: a recessed or shrouded socket on the set, never a pin; a series capacitor at the tap rated ${printValue(nextRatedV(1.5 * (g.figures.noLoad.high ?? x.connectorVolts)) ?? 1000, "voltage")} where only signal is wanted; a fuse in the lead where power is; and a warning on it.`,
        restsOn: ["noLoad"],
        hazards: all,
      });
    return [...out, ...proofs(g)] as never;
  },
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
    if (isSafeToJoin(x.chassis) && x.cord !== "three-wire" && x.cord !== "not-stated")
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
    const x = best as unknown as Inputs;
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

/** Largest preferred value that stays under the limit. */
const allowedF = (g: G): number => lastPreferred(g.figures.largestBypass.low ?? 1e-9, 6);

/** What the safety record holds against its limits, and what it does not hold yet. */
function proofs(g: G): Finding[] {
  const x = g.best;
  const limit = touchLimitOf(x.touchLimit);
  const wanted: string[] = [];
  const failed: string[] = [];
  const held: string[] = [];
  const judge = (measured: boolean, good: boolean, what: string, figure: string): void => {
    (measured ? (good ? held : failed) : wanted).push(measured ? `${what} ${figure}` : what);
  };
  const out: Finding[] = [];
  if (!isSafeToJoin(x.chassis)) {
    if (x.insulation > 0 || x.touchOne > 0 || x.touchOther > 0)
      out.push({
        id: "safety-record-contradicts",
        severity: "check",
        says: "The safety record has insulation or touch current of the chassis, yet the chassis is recorded as live, or not stated: one of the two is wrong, or it was measured behind an isolation transformer.",
        do: "Plug out. Trace whether one side of the line goes to the chassis, and put the record right before anything else.",
        restsOn: [],
        hazards: ["live-chassis", ...all],
      });
    out.push({
      id: "safety-live-proofs",
      severity: "act",
      says: "What is proved on a set with a live chassis is that nobody can reach it: knobs, set screws, shafts, cabinet back, antenna and ground terminals.",
      do: "With the cabinet closed, plug out: no metal of the chassis can be touched with a finger or a pin, the back is fixed, knob screws are covered, and antenna and ground leave it through capacitors of class Y. What can be reached is tested, on the line, only by a person used to it, with the instrument that local code asks for.",
      restsOn: [],
      hazards: ["live-chassis", ...all],
    });
    return out;
  }
  judge(
    x.bond > 0,
    x.bond <= bondMostOhm.value,
    "bond",
    `${printValue(x.bond, "resistance", 0.001)} (${printValue(bondMostOhm.value, "resistance")} at most)`,
  );
  judge(
    x.insulation > 0,
    x.insulation >= insulationLeastOhm.value,
    "insulation from line to chassis",
    `${printValue(x.insulation, "resistance")} (over ${printValue(insulationLeastOhm.value, "resistance")}, over ${printValue(insulationLeastOhm.good, "resistance")} good)`,
  );
  for (const [name, v] of [
    ["touch current one way", x.touchOne],
    ["touch current the other way", x.touchOther],
  ] as const)
    judge(v > 0, v <= limit.ampere, name, `${printValue(v, "current", 3e-5)} (${x.touchLimit} at most)`);
  if (failed.length > 0)
    out.push({
      id: "safety-proof-failed",
      severity: "danger",
      says: `The safety record fails: ${failed.join("; ")}.`,
      do: "Plug out. It is not powered by anyone, and not handed over, until the cause is found and the whole test is made anew.",
      restsOn: [],
      hazards: all,
    });
  if (wanted.length > 0)
    out.push({
      id: "safety-proof-wanted",
      severity: "act",
      says: `Not on the safety record yet: ${wanted.join(", ")}.`,
      do: "Measure them with the cover on, as it will be used, and write them on the card of the safety record. What needs the set on and the chassis to earth is for a person used to it.",
      restsOn: [],
      hazards: all,
    });
  if (held.length > 0)
    out.push({
      id: "safety-proof-held",
      severity: "note",
      says: `On the safety record, within its limits: ${held.join("; ")}. A record tells of that day: any work on cord or cabinet undoes it.`,
      restsOn: [],
      hazards: all,
    });
  return out;
}
