import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { stored } from "../../ask/stored";
import { coil } from "../../set/addresses/coil";

export const ask = declare({
  id: "coil",
  version: 2,
  title: "A coil",
  question: "What inductance has this coil, and how many turns give the one I want?",
  found: { when: ["fitting", "weak"], words: "wind a coil turns inductance former rewind choke slug" },
  subject: "set",
  joins: false,
  works: "open-dead",
  place: inside,
  draws: ["circuit"],
  steps: ["23", "24", "31a"],
  inputs: {
    winding: stored(coil.winding),
    turns: stored(coil.turns),
    diameter: stored(coil.diameter),
    length: stored(coil.length),
    depth: stored(coil.depth),
    frequency: stored(coil.frequency),
    capacitance: stored(coil.capacitance),
    selfCapacitance: stored(coil.selfCapacitance),
    coilRange: stored(coil.coilRange),
    bandwidth: stored(coil.bandwidth),
    windingOff: stored(coil.windingOff),
  },
  first: ["turns", "diameter", "length", "frequency", "capacitance"],
  results: {
    inductance: { dimension: "inductance", meaning: "inductance as wound, without its slug" },
    wanted: { dimension: "inductance", meaning: "inductance that resonates with the capacitance given, at the frequency wanted" },
    turnsWanted: { dimension: "ratio", meaning: "turns for the inductance wanted, on the same form and length", known: 0.1 },
    resonance: { dimension: "frequency", meaning: "resonance as wound" },
    rangeLow: { dimension: "frequency", meaning: "resonance with the slug at the stop for most inductance" },
    rangeHigh: { dimension: "frequency", meaning: "resonance with the slug at the stop for least inductance" },
    offBy: { dimension: "fraction", meaning: "fractional error of the inductance as wound" },
    qWanted: { dimension: "ratio", meaning: "loaded Q that gives the width wanted" },
    coilOhm: { dimension: "resistance", meaning: "the coil's reactance at the wanted frequency" },
  },
  key: ["inductance", "turnsWanted", "resonance"],
  curves: { byTurns: { x: "ratio", y: "inductance", meaning: "inductance against turns" } },
  figures: [
    {
      id: "turns",
      title: "Inductance against turns on this form and length",
      xLabel: "turns",
      yLabel: "inductance",
      traces: [{ label: "as wound", curve: "byTurns", stroke: "ink", band: true }],
      marks: [{ at: "turns", label: "this coil" }],
      yFrom: 0,
    },
  ],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
