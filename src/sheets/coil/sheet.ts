import { type GroundOn, sheet } from "../../ask/contract";
import { noneOf } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import type { NoValue } from "../../ask/results";
import { multilayerH, singleLayerH, thickCoilH } from "../../physics/inductance";
import { capacitorReactanceOhm } from "../../physics/resonance";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import theory from "./theory.md";

const practice = "common practice, no source";
interface Inputs {
  readonly winding: "single layer" | "several layers";
  readonly turns: number;
  readonly diameter: number;
  readonly length: number;
  readonly depth: number;
  readonly frequency: number;
  readonly capacitance: number;
  readonly selfCapacitance: number;
  readonly coilRange: number;
  readonly bandwidth: number;
  readonly windingOff: number;
}
type Names = "inductance" | "wanted" | "turnsWanted" | "resonance" | "rangeLow" | "rangeHigh" | "qWanted" | "coilOhm" | "offBy";
const names: Names[] = ["inductance", "wanted", "turnsWanted", "resonance", "rangeLow", "rangeHigh", "qWanted", "coilOhm", "offBy"];
type G = GroundOn<Inputs, Names>;
/** What the winding's own shape has over the plain formula of several layers: worked out once, and 1 for a single layer. */
const shapeOf = (x: Inputs): number =>
  x.winding === "single layer" ? 1 : thickCoilH(1, x.diameter, x.length, x.depth) / multilayerH(1, x.diameter, x.length, x.depth);
const of = (x: Inputs, shape: number, turns = x.turns): number =>
  (1 + x.windingOff) *
  shape *
  (x.winding === "single layer" ? singleLayerH(turns, x.diameter, x.length) : multilayerH(turns, x.diameter, x.length, x.depth));

export const coil = sheet({
  id: "coil",
  version: 2,
  title: "A coil",
  question: "What inductance has this coil, and how many turns give the one I want?",
  subject: "set",
  joins: false,
  works: "open-dead",
  steps: ["23", "24", "31a"],
  inputs: {
    winding: {
      kind: "choice",
      options: ["single layer", "several layers"],
      meaning: "how the coil is wound",
      howMeasured: "look at it",
      assumed: "single layer",
    },
    turns: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      max: 20000,
      meaning: "turns",
      howMeasured: "count them",
      assumed: { value: 48, spread: exact, source: "an example" },
    },
    diameter: {
      kind: "quantity",
      dimension: "length",
      positive: true,
      max: 2,
      meaning: "mean diameter of the winding: form and one wire",
      howMeasured: "calipers",
      assumed: { value: 0.01905, spread: tolerance(1e-4), source: "an example" },
    },
    length: {
      kind: "quantity",
      dimension: "length",
      positive: true,
      max: 5,
      meaning: "length of the winding along the form",
      howMeasured: "calipers",
      assumed: { value: 0.0381, spread: tolerance(2e-4), source: "an example" },
    },
    depth: {
      kind: "quantity",
      dimension: "length",
      positive: true,
      max: 1,
      meaning: "depth of the winding from inside to outside, of several layers",
      howMeasured: "calipers",
      assumed: { value: 5e-3, spread: tolerance(2e-4), source: "an example" },
    },
    frequency: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 100e6,
      meaning: "frequency at which the coil is to resonate",
      howMeasured: "the band, or the IF",
      assumed: { value: 3.75e6, spread: exact, source: "an example" },
    },
    capacitance: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      max: 1e-6,
      meaning: "capacitance across the coil, strays included, its own left out",
      howMeasured: "bridge, or the gang's law at that place",
      assumed: { value: 100e-12, spread: tolerance(5e-12), source: "an example" },
    },
    selfCapacitance: {
      kind: "quantity",
      dimension: "capacitance",
      min: 0,
      max: 1e-9,
      meaning: "the coil's own capacitance",
      howMeasured: "resonance with two known capacitors",
      assumed: { value: 3e-12, spread: tolerance(2e-12), source: `small coils have 1 to 5 pF, ${practice}` },
    },
    coilRange: {
      kind: "quantity",
      dimension: "fraction",
      positive: true,
      max: 0.9,
      meaning: "how far the slug changes the inductance, up and down from the middle",
      howMeasured: "resonance at both stops",
      assumed: { value: 0.12, spread: tolerance(0.04), source: "assumed: no published range found" },
    },
    bandwidth: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 10e6,
      meaning: "width at -3 dB that the circuit is to have",
      howMeasured: "what the band or the sheet on images asks for",
      assumed: { value: 100e3, spread: exact, source: "an example" },
    },
    windingOff: {
      kind: "quantity",
      dimension: "fraction",
      min: -0.5,
      max: 0.5,
      meaning: "by how much the winding differs from an even sheet of current: round wire, spacing, leads",
      howMeasured: "measure its inductance: resonance with a known capacitor",
      assumed: { value: 0, spread: { shape: "normal", u: 0.012 }, source: `1 to 2 % of round wire, ${practice}` },
    },
  },
  first: ["turns", "diameter", "length", "frequency", "capacitance"],
  results: {
    inductance: { dimension: "inductance", meaning: "inductance as wound, without its slug" },
    wanted: { dimension: "inductance", meaning: "inductance that resonates with the capacitance given, at the frequency wanted" },
    turnsWanted: { dimension: "ratio", meaning: "turns for the inductance wanted, on the same form and length", known: 0.1 },
    resonance: { dimension: "frequency", meaning: "resonance as wound" },
    rangeLow: { dimension: "frequency", meaning: "resonance with the slug at the stop of most inductance" },
    rangeHigh: { dimension: "frequency", meaning: "resonance with the slug at the stop of least inductance" },
    offBy: { dimension: "fraction", meaning: "inductance over what is wanted, less one" },
    qWanted: { dimension: "ratio", meaning: "loaded Q that gives the width wanted" },
    coilOhm: { dimension: "resistance", meaning: "the coil's reactance at the wanted frequency" },
  },
  key: ["inductance", "turnsWanted", "resonance"],
  curves: { byTurns: { x: "ratio", y: "inductance", meaning: "inductance against turns" } },
  prepare: (best, points) => {
    const b = best as unknown as Inputs;
    if (b.winding === "several layers" && !(b.depth < b.diameter))
      return {
        axes: { byTurns: new Float64Array(1) },
        solve: () => noneOf(names, "refused"),
        issues: [
          {
            path: "depth",
            code: "past-its-axis",
            read: printValue(b.depth, "length"),
            expected: `less than the mean diameter, ${printValue(b.diameter, "length")}: deeper, the winding would reach past its own axis`,
          },
        ],
      };
    const shape = shapeOf(b);
    const count = Math.min(points, 61);
    const axis = Float64Array.from({ length: count }, (_, i) => b.turns * (0.3 + (1.7 * i) / (count - 1)));
    return {
      axes: { byTurns: axis },
      solve: (plain, into) => {
        const x = plain as unknown as Inputs;
        for (let i = 0; i < axis.length; i++) into.byTurns[i] = of(x, shape, axis[i]);
        const whole = x.capacitance + x.selfCapacitance;
        const l = of(x, shape);
        const wanted = 1 / ((2 * Math.PI * x.frequency) ** 2 * whole);
        const at = (h: number): number => 1 / (2 * Math.PI * Math.sqrt(h * whole));
        const high: number | NoValue =
          x.coilRange < 1 ? at(l * (1 - x.coilRange)) : { none: "the slug would remove all of the inductance" };
        return {
          inductance: l,
          wanted,
          turnsWanted: x.turns * Math.sqrt(wanted / l),
          resonance: at(l),
          rangeLow: at(l * (1 + x.coilRange)),
          rangeHigh: high,
          offBy: l / wanted - 1,
          qWanted: x.frequency / x.bandwidth,
          coilOhm: capacitorReactanceOhm(x.frequency, whole),
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    return `It has ${g.about("inductance")} and resonates at ${g.about("resonance")}; for ${g.about("wanted")} it takes ${g.about("turnsWanted")} turns on the same form and length.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const out: Finding[] = [];
    const reach = g.verdict((i, y) => Math.abs(y.offBy) <= i.coilRange);
    out.push({
      id: `coil-slug-${reach}`,
      severity: reach === "yes" ? "note" : "check",
      says: `As wound it is ${g.say("offBy")} off what is wanted; ${reach === "yes" ? "the slug can make that up" : reach === "no" ? "more than the slug can make up" : "whether the slug can make that up can't be told"}.`,
      ...(reach === "yes"
        ? {}
        : {
            do: "Power off, discharged and measured, where the coil sits in a set. Change the turns by the square root of the ratio wanted, then measure; or change the capacitance across it.",
          }),
      restsOn: ["offBy", "turnsWanted"],
      hazards: ["b-plus", "stored-charge"],
    });
    return out as never;
  },
  figures: [
    {
      id: "turns",
      title: "Inductance against turns on this form and length",
      xLabel: "turns",
      yLabel: "inductance",
      traces: [{ label: "as wound", curve: "byTurns", stroke: "ink", band: true }],
      yFrom: 0,
    },
  ],
  theory,
});
