import { type GroundOn, sheet } from "../../ask/contract";
import { inside, practice } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { choice, quantity } from "../../ask/in-short";
import type { NoValue } from "../../ask/results";
import type { Bench } from "../../set/bench";
import { environments, externalNoiseDb } from "../../standards/external-noise";
import { tubeNoiseOf, tubeNoiseSource } from "../../standards/tube-noise";
import { printValue } from "../../units/print";
import {
  asStated,
  dbOf,
  definitionOf,
  factorForLoss,
  gainNeeded,
  lacking,
  leastLossDb,
  levelForFactorV,
  levelWords,
  lossAgainstWorldDb,
  mixerTubes,
  modeWords,
  noiseOf,
  predictedFactor,
  ratioWords,
  rfTubes,
  type SensitivityInputs,
  sayDefinition,
} from "./solve";
import theory from "./theory.md";

type Names =
  | "receiverNoise"
  | "predictedNoise"
  | "levelAsked"
  | "levelDbm"
  | "worldNoise"
  | "lossNow"
  | "lossWithout"
  | "noiseForOneDb"
  | "gainForOneDb"
  | "gainEnough";
type G = GroundOn<SensitivityInputs, Names>;
/** The tube of a stage as the set has it, where its noise is in the table. */
const tubeAt =
  (stage: RegExp, use: "amplifier" | "mixer", otherwise?: string) =>
  (b: Bench): string | undefined => {
    const kept = b.choice(`supplies.${use === "mixer" ? "mixerTube" : "rfTube"}`);
    if (kept) return kept;
    const all = b.tubes();
    const t = all.find((u) => stage.test(u.stage));
    if (!t) return all.length > 0 ? otherwise : undefined;
    return tubeNoiseOf(t.type, use)?.type;
  };
/** One decibel of noise that the set adds: below it the world is the limit, above three the set is. */
const worldLimit = 1;
const setLimit = 3;

export const sensitivity = sheet({
  id: "sensitivity",
  version: 1,
  title: "Sensitivity, and what limits it",
  question: "How sensitive is this receiver by a definition that holds, and what limits it, its own noise or the band's?",
  subject: "set",
  joins: false,
  works: "panel",
  steps: ["33a", "32"],
  inputs: {
    statedRatio: choice(ratioWords, "ratio that the level is stated for", "the sheet or the page that states it", {
      assumed: ratioWords[0],
    }),
    statedMode: choice(modeWords, "modulation that the level is stated for", "the same", { assumed: modeWords[0] }),
    levelIs: choice(
      levelWords,
      "whether the level is the volts across the terminals (p.d.) or the generator's own (EMF)",
      "the generator's manual",
      {
        assumed: levelWords[0],
      },
    ),
    place: choice(environments, "surroundings of the antenna", "look about", { assumed: "residential" }),
    before: choice(["nothing", "a converter or preamplifier"], "what stands before the receiver", "look at it"),
    rfTube: choice(rfTubes, "tube of the RF stage", "look at it; as stated takes rfNoise", {
      from: tubeAt(/^rf/, "amplifier", "none"),
      assumed: asStated,
    }),
    mixerTube: choice(mixerTubes, "tube of the first mixer", "look at it; as stated takes mixerNoise", {
      from: tubeAt(/^mixer/, "mixer"),
      assumed: asStated,
    }),
    level: quantity(
      "voltage",
      "level that gives the ratio; 0 where none was measured",
      "generator and output meter, AVC held; ratio, modulation, bandwidth, impedance and EMF or p.d. written down",
      [0, 0, "not measured yet"],
      {
        min: 0,
        max: 0.1,
        keptAt: "supplies.sensitivityLevel",
        from: (b) => b.quantity("supplies.sensitivityLevel"),
      },
    ),
    ratioDb: quantity("decibel", "the ratio", "the same place as its name", [10, 0, "the usual value"], { min: 0.5, max: 60 }),
    modulationDepth: quantity("fraction", "depth of AM", "the generator", [0.3, 0, "the usual depth"], { max: 1 }),
    noiseBandwidth: quantity(
      "frequency",
      "noise bandwidth before the detector; 0 where not stated",
      "the sheet on what the IF passes",
      [0, 0, "not stated"],
      {
        min: 0,
        max: 100e3,
      },
    ),
    sourceResistance: quantity(
      "resistance",
      "impedance that the level is stated for; 0 where not stated",
      "the generator, with its dummy antenna",
      [0, 0, "not stated"],
      {
        min: 0,
        max: 5000,
      },
    ),
    listenAt: quantity("frequency", "frequency to listen on", "the band", [14e6, 0, "an example"], { min: 1e5, max: 150e6 }),
    worldOff: quantity(
      "decibel",
      "by how much external noise at the set's place is over the median",
      "a quiet hour and a noisy one; with a calibrated set",
      [0, 6, "P.372 gives half of its deciles at some 5 to 10 dB, from memory"],
      { min: -40, max: 60 },
    ),
    rfNoise: quantity(
      "resistance",
      "equivalent noise resistance of the RF tube",
      `tube tables; ${tubeNoiseSource}`,
      [3550, 500, "6BA6 class"],
      { max: 1e6 },
    ),
    rfGain: quantity("ratio", "volts at the mixer grid over volts at the RF grid", "the sheet on stage gain", [10, 4, practice], {
      max: 1000,
    }),
    mixerNoise: quantity("resistance", "equivalent noise resistance of the mixer", "tube tables", [184e3, 30e3, "6BE6 class"], {
      max: 5e6,
    }),
    tankResistance: quantity(
      "resistance",
      "parallel resistance of the antenna circuit, as the grid sees it",
      "its Q times its reactance",
      [10e3, 4e3, practice],
      {
        max: 1e7,
      },
    ),
    stageResistance: quantity(
      "resistance",
      "parallel resistance of the mixer's circuit, as its grid sees it",
      "its Q times its reactance",
      [20e3, 8e3, practice],
      {
        max: 1e7,
      },
    ),
    inputLoss: quantity(
      "decibel",
      "loss before the first grid by mismatch and coils",
      "detune the trimmer and compare; 1 to 6 dB",
      [3, 2, practice],
      {
        min: 0,
        max: 40,
      },
    ),
    aheadNoise: quantity(
      "decibel",
      "noise figure of what stands before the receiver",
      "its maker, or its own first tube",
      [5, 1.5, practice],
      {
        min: 0.1,
        max: 40,
      },
    ),
    aheadGain: quantity("decibel", "gain of what stands before the receiver", "generator through it and round it", [15, 3, practice], {
      min: -20,
      max: 60,
    }),
  },
  first: ["listenAt", "level", "ratioDb", "inputLoss", "rfGain"],
  results: {
    receiverNoise: {
      dimension: "decibel",
      meaning: "noise figure of the receiver: measured where a level was, else by its tubes",
      known: 0.3,
    },
    predictedNoise: { dimension: "decibel", meaning: "noise figure by its tubes and circuits", known: 0.3 },
    levelAsked: { dimension: "voltage", meaning: "level that the receiver alone asks for, by the definition", known: 1e-8 },
    levelDbm: { dimension: "dbm", meaning: "level that the receiver alone asks for, as power into it", known: 0.3 },
    worldNoise: { dimension: "decibel", meaning: "external (band) noise over thermal noise", known: 0.5 },
    lossNow: { dimension: "decibel", meaning: "signal-to-noise ratio lost to the set's own noise, against a noiseless set", known: 0.05 },
    lossWithout: {
      dimension: "decibel",
      meaning: "signal-to-noise ratio lost to the set's own noise, without what stands before the receiver",
      known: 0.05,
    },
    noiseForOneDb: { dimension: "decibel", meaning: "noise figure that would cost 1 dB at the frequency to listen on", known: 0.5 },
    gainForOneDb: {
      dimension: "decibel",
      meaning: "gain ahead of the set that brings its loss to 1 dB; under 0 dB a pad would do",
      known: 0.5,
    },
    gainEnough: {
      dimension: "decibel",
      meaning: "gain ahead of the set beyond which not another 0.1 dB is won: more gain only overloads the set",
      known: 0.5,
    },
  },
  key: ["lossNow", "receiverNoise", "worldNoise", "levelAsked"],
  curves: {
    world: { x: "frequency", y: "decibel", meaning: "external (band) noise over frequency" },
    set: { x: "frequency", y: "decibel", meaning: "the set's noise figure" },
  },
  prepare: (best) => {
    const b = best as unknown as SensitivityInputs;
    const axis = Float64Array.from({ length: 61 }, (_, i) => 1.8e6 * (30 / 1.8) ** (i / 60));
    const lacks = b.level > 0 ? lacking(b) : [];
    if (lacks.length > 0)
      return {
        axes: { world: new Float64Array(1), set: new Float64Array(1) },
        solve: () => ({}) as never,
        issues: lacks.map((path) => ({
          path,
          code: "definition-incomplete",
          read: path === "noiseBandwidth" || path === "sourceResistance" ? "0" : "not stated",
          expected:
            "all five: ratio, modulation, bandwidth, impedance, and EMF or p.d. Microvolts without them are no sensitivity, and compare with nothing",
        })),
      };
    if (b.level > 0 && noiseOf(b).receiver < 1)
      return {
        axes: { world: new Float64Array(1), set: new Float64Array(1) },
        solve: () => ({}) as never,
        issues: [
          {
            path: "level",
            code: "below-thermal-noise",
            read: printValue(b.level, "voltage", b.level / 50),
            expected:
              "more than thermal noise allows by this definition: a generator that leaks past its attenuator, or a wrong step of it, reads so",
          },
        ],
      };
    return {
      axes: { world: axis, set: axis },
      solve: (plain, into) => {
        const x = plain as unknown as SensitivityInputs;
        const n = noiseOf(x);
        const d = definitionOf(x);
        for (let i = 0; i < axis.length; i++) {
          into.world[i] = externalNoiseDb(axis[i], x.place) + x.worldOff;
          into.set[i] = dbOf(n.all);
        }
        const spent: NoValue = { none: "its own noise alone costs that much already: no gain helps" };
        const one = gainNeeded(x, n, worldLimit);
        const enough = gainNeeded(x, n, leastLossDb(x, n) + 0.1);
        const volts = levelForFactorV(n.receiver, d);
        return {
          receiverNoise: dbOf(n.receiver),
          predictedNoise: dbOf(predictedFactor(x)),
          levelAsked: volts,
          levelDbm: dbOf((volts / (d.level === "EMF" ? 2 : 1)) ** 2 / d.sourceOhm / 1e-3),
          worldNoise: dbOf(n.world),
          lossNow: lossAgainstWorldDb(n.world, n.all),
          lossWithout: lossAgainstWorldDb(n.world, n.receiver),
          noiseForOneDb: dbOf(factorForLoss(n.world, worldLimit)),
          gainForOneDb: one === undefined ? spent : dbOf(one),
          gainEnough: enough === undefined ? spent : dbOf(enough),
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const world = g.verdict((_, y) => y.lossNow < worldLimit);
    const own = g.verdict((_, y) => y.lossNow > setLimit);
    const short = g.best.level > 0 && g.verdict((_, y) => y.receiverNoise > y.predictedNoise + 6) === "yes";
    if (short)
      return `Mend it first: its noise figure of ${g.about("receiverNoise")} is far from the ${g.about("predictedNoise")} that its tubes and circuits give. Only then can be said what external noise leaves of it.`;
    const where = `at ${printValue(g.best.listenAt, "frequency", 1e4)} in ${g.best.place === "city" ? "a city" : `a ${g.best.place} place`}`;
    return world === "yes"
      ? `External noise is the limit ${where}: this set's own noise costs only ${g.about("lossNow")}. A better front end does not help.`
      : own === "yes"
        ? `The receiver's own noise is the limit ${where}: it costs ${g.about("lossNow")}. A better front end helps.`
        : (g.figures.lossNow.value ?? 0) < worldLimit
          ? `External noise is most likely the limit ${where}: this set's own costs ${g.say("lossNow")}.`
          : (g.figures.lossNow.value ?? 0) > setLimit
            ? `The receiver's own noise is most likely the limit ${where}: it costs ${g.say("lossNow")}.`
            : `Both limit ${where}: the set's own noise costs ${g.about("lossNow")}.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const out: Finding[] = [];
    if (x.level > 0) {
      out.push({
        id: "sensitivity-defined",
        severity: "note",
        says: `${printValue(x.level, "voltage", x.level / 30)} for ${sayDefinition(definitionOf(x))} is a noise figure of ${g.about("receiverNoise")}.`,
        restsOn: ["receiverNoise"],
        hazards: ["none"],
      });
      const worse = g.verdict((_, y) => y.receiverNoise > y.predictedNoise + 6);
      if (worse !== "no")
        out.push({
          id: `sensitivity-short-${worse}`,
          severity: worse === "yes" ? "act" : "check",
          says: `Its tubes and circuits would give ${g.about("predictedNoise")}: the set is ${worse === "yes" ? "" : "perhaps "}more than 6 dB short of that.`,
          do: "Weak RF tube or mixer, mistracked or leaky signal circuits, too little oscillator: measure the gain of each stage, and the oscillator's grid current.",
          restsOn: ["receiverNoise", "predictedNoise"],
          hazards: inside,
        });
    } else
      out.push({
        id: "sensitivity-predicted",
        severity: "check",
        says: `Nothing was measured: going by its tubes, the set would need ${g.about("levelAsked")} for ${sayDefinition(definitionOf(x))}.`,
        do: "The plain test: tune to a quiet place, put a resistor of the antenna's impedance in place of the antenna, then the antenna. The noise must rise with the antenna. Then measure with a generator.",
        restsOn: ["levelAsked"],
        hazards: inside,
      });
    if (x.before !== "nothing") {
      const harm = g.verdict((i, y) => i.aheadGain > y.gainEnough + 3);
      const short = g.verdict((i, y) => i.aheadGain < y.gainForOneDb);
      if (harm !== "no")
        out.push({
          id: `sensitivity-gain-harm-${harm}`,
          severity: "check",
          says: `What stands before the receiver has ${harm === "yes" ? "" : "perhaps "}more gain than is useful here (${g.about("gainEnough")}): the rest only brings strong signals up to where they overload it.`,
          do: "A pad between the two, or less gain there, until the noise falls just noticeably when the antenna comes off.",
          restsOn: ["gainEnough"],
          hazards: inside,
        });
      else if (short === "yes")
        out.push({
          id: "sensitivity-gain-short",
          severity: "check",
          says: `What stands before the receiver has too little gain to bring the loss to 1 dB: ${g.about("gainForOneDb")} would.`,
          do: "Look for a weak tube or a mistuned circuit in it first.",
          restsOn: ["gainForOneDb"],
          hazards: inside,
        });
    }
    return out as never;
  },
  tables: (best) => {
    const x = best as unknown as SensitivityInputs;
    const n = noiseOf(x);
    const db = (name: string) => ({ name, dimension: "decibel" as const, u: 0.5 });
    return [
      {
        id: "bands",
        title: "The set's noise against external noise, by band and place (median; a quiet hour may be 5 to 10 dB better)",
        columns: [
          { name: "at", dimension: "frequency" },
          db("city: lost"),
          db("residential: lost"),
          db("rural: lost"),
          db("quiet rural: lost"),
          db("noise figure for 1 dB, here"),
        ],
        rows: [1.9, 3.75, 7.1, 10.1, 14.2, 21.2, 28.5].map((mhz) => {
          const at = (place: (typeof environments)[number]) => 10 ** (externalNoiseDb(mhz * 1e6, place) / 10);
          return [mhz * 1e6, ...environments.map((p) => lossAgainstWorldDb(at(p), n.all)), dbOf(factorForLoss(at(x.place), worldLimit))];
        }),
      },
    ];
  },
  figures: [
    {
      id: "noise",
      title: "External noise and the set's own",
      xLabel: "frequency",
      yLabel: "over thermal noise",
      traces: [
        { label: "external noise", curve: "world", stroke: "accent", band: true },
        { label: "the set's noise figure", curve: "set", stroke: "ink", band: true },
      ],
      yFrom: 0,
    },
  ],
  theory,
});
