import { chassisInput } from "../../ask/chassis";
import { declare, type GroundOf, type InputsOf, inside, type PutOf, practice } from "../../ask/declare";
import { asked, stored } from "../../ask/stored";
import { centre } from "../../set/addresses/accessory";
import { quantity } from "../../set/addresses/declare";
import { joint } from "../../set/addresses/plate-joint";
import { multiplier } from "../../set/addresses/q-multiplier";
import { cableCapacitancePerLengthInput, stripAliases, stripInput } from "../inputs/strip-and-cable";

const db = (meaning: string) => ({ dimension: "decibel", meaning, known: 0.1 }) as const;
const hz = (meaning: string) => ({ dimension: "frequency", meaning, known: 5 }) as const;

export const ask = declare({
  id: "multiplier-centre",
  version: 1,
  title: "Setting a Q multiplier on a station",
  question: "How do I set the Q multiplier on the IF, what should ear and meter tell me at each step, and is it centred?",
  found: { when: ["fitting"], words: "q multiplier centre set on station first can touch up whistle off centre coil for the cable" },
  subject: "fitting",
  fitting: "q-multiplier",
  joins: true,
  works: "panel",
  place: inside,
  draws: ["circuit"],
  steps: ["31b"],
  inputs: {
    chassis: chassisInput,
    strip: stripInput,
    cableType: stored(joint.cableType),
    couplingCapacitance: stored(joint.couplingCapacitance),
    cableLength: stored(joint.cableLength),
    cableCapacitancePerLength: cableCapacitancePerLengthInput,
    coilQ: stored(joint.coilQ),
    coilError: stored(joint.coilError, { usual: [0, 0.01, `tuned by ear or meter, ${practice}`] }),
    tankCapacitance: stored(multiplier.tankCapacitance),
    tankQ: stored(multiplier.tankQ),
    regeneration: stored(multiplier.regeneration, { usual: [0.8, 0.05, `a first setting, ${practice}`] }),
    beat: stored(centre.centreBeat, { optional: true, reading: true }),
    side: stored(centre.centreSide),
    dbPerUnit: asked(
      quantity("decibel", "decibels of an S unit on this meter", "the sheet on the S meter; 6 dB by the IARU", [6, 1.5, practice], {
        positive: true,
        max: 20,
      }),
    ),
  },
  aliases: stripAliases,
  first: ["beat", "cableLength", "coilQ", "tankQ", "regeneration"],
  results: {
    cableAlone: db("gain at the IF with the cable on and no coil tuning it out"),
    unitsLost: { dimension: "ratio", meaning: "S units lost to the cable until its coil is tuned", known: 0.2 },
    coilTuned: db("gain at the IF once the cable's coil is tuned, tank off"),
    coilThreeDb: { dimension: "fraction", meaning: "error of the coil's inductance that costs 3 dB more", known: 0.001 },
    tankOff: db("gain at the IF with the tank on and no regeneration"),
    tankSet: db("gain at the IF at the regeneration set, tank centred"),
    widthSet: hz("width at -6 dB at the regeneration set, tank centred"),
    retouched: db("gain that re-peaking the first primary gets back, coil left as it is"),
    leftWithout: db("gain missing with the accessory unplugged, once the first primary was re-peaked with the accessory on"),
    offCentre: hz("how far the peak is off the carrier, by the note that was heard"),
    lost: db("gain lost at the carrier by being off centre"),
    uneven: { dimension: "fraction", meaning: "how uneven the -6 dB points lie about the carrier: 0 even, 1 all on one side", known: 0.01 },
  },
  key: ["offCentre", "lost", "cableAlone", "coilTuned"],
  curves: {
    centred: { x: "frequency", y: "decibel", holds: "power", meaning: "response with the accessory centred" },
    asIs: { x: "frequency", y: "decibel", holds: "power", meaning: "response with the accessory where the note says it sits" },
  },
  figures: [
    {
      id: "centre",
      title: "The nose of the pass band, centred and as it sits",
      xLabel: "frequency",
      yLabel: "relative to the centred peak",
      traces: [
        { label: "centred", curve: "centred", stroke: "faint" },
        { label: "as it sits", curve: "asIs", stroke: "ink", band: true },
      ],
      yFrom: -40,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
