import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { sheet } from "../../ask/contract";
import type { Finding } from "../../ask/findings";
import { slugsTouched } from "../../infer/strip/attempt";
import type { Bench } from "../../set/bench";
import { stripInput } from "../inputs/strip-and-cable";
import { fillResponse, solveResponse } from "./solve";
import theory from "./theory.md";

const width = (level: number) => ({ dimension: "frequency", meaning: `width at -${level} dB` }) as const;
type Num = Record<string, number>;

export const ifResponse = sheet({
  id: "if-response",
  version: 2,
  title: "What the IF passes",
  question: "What does this IF strip pass?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["20", "33b"],
  inputs: {
    strip: { ...stripInput, from: (b: Bench) => b.stripAsFitted() },
    slugsTouched: {
      kind: "choice",
      options: slugsTouched,
      meaning: "whether somebody has turned the slugs since the maker set them",
      howMeasured: "ask the owner; look for bare metal in the slots, broken wax or a missing seal",
      from: (b: Bench) => b.choice("supplies.slugsTouched"),
      assumed: "perhaps",
      keptAt: "supplies.slugsTouched",
    },
    sweepReaches60dB: {
      kind: "choice",
      options: ["no", "yes"],
      meaning: "whether a sweep of this strip reaches -60 dB on both sides",
      howMeasured: "read a sweep in as if-sweep",
      from: (b: Bench) => b.choice("readings.reach60dB"),
      assumed: "no",
    },
  },
  first: ["strip", "slugsTouched"],
  results: {
    centre: { dimension: "frequency", meaning: "middle of the -6 dB points" },
    peakFrequency: { dimension: "frequency", meaning: "frequency of the peak" },
    width3dB: width(3),
    width6dB: { ...width(6), gives: "strip.width6dB" },
    width20dB: width(20),
    width60dB: { dimension: "frequency", meaning: "width at -60 dB, model without strays" },
    shapeFactor: { dimension: "ratio", meaning: "-60 dB width over -6 dB width, model without strays" },
    gain: { dimension: "decibel", meaning: "voltage gain, mixer grid to detector, at the IF, without AVC" },
    audioBandwidthAm: { dimension: "frequency", meaning: "AM audio, to half its power (-3 dB)", gives: "strip.audioAm" },
    noiseBandwidth: { dimension: "frequency", meaning: "noise bandwidth" },
    adjacentRejection5kHz: { dimension: "decibel", meaning: "rejection 5 kHz off centre, worse side", gives: "strip.rejection5kHz" },
    offCentre: { dimension: "frequency", meaning: "middle of the pass band, off the IF" },
  },
  key: ["width6dB", "audioBandwidthAm", "adjacentRejection5kHz"],
  curves: {
    response: {
      x: "frequency",
      y: "decibel",
      holds: "power",
      meaning: "response relative to its peak; below -50 dB a model without strays",
    },
  },
  prepare: (best, points) => {
    const at = solveResponse(best.strip);
    const wide = typeof at.width20dB === "number" ? at.width20dB : 40_000;
    const response = frequencyAxis(best.strip.intermediateFrequency, roundSpanHz(wide * 1.2), points);
    return {
      axes: { response },
      solve: (x, into) => {
        const y = solveResponse(x.strip);
        fillResponse(x.strip, response, into.response);
        return y;
      },
    };
  },
  headline: (g) =>
    `The strip passes ${g.say("width6dB")} at -6 dB: AM audio to ${g.about("audioBandwidthAm")}, a signal 5 kHz away ${g.about("adjacentRejection5kHz")} down.`,
  findings: (g) => {
    const out: Finding[] = [];
    const centred = g.verdict(
      (x, y) => Math.abs(Number((y as Num).offCentre)) < 0.1 * Number((y as Num).width6dB) && x.strip.intermediateFrequency > 0,
    );
    if (centred !== "yes")
      out.push({
        id: "response-off-centre",
        severity: centred === "no" ? "act" : "check",
        says: `The pass band's middle is ${g.say("offCentre")} off the IF.`,
        do:
          centred === "no"
            ? "Find out which is right before touching a slug: the filter's centre, or the IF on the service sheet. Then peak the cans to that."
            : "Sweep the strip: the parts' tolerances alone leave this open.",
        restsOn: ["offCentre", "width6dB"],
        hazards: ["b-plus", "stored-charge"],
      });
    if (g.best.slugsTouched !== "not" && g.isAssumed("strip.can1.primaryOffset"))
      out.push({
        id: "response-slugs",
        severity: "check",
        says:
          g.best.slugsTouched === "yes"
            ? "The slugs have been turned: this curve is that of a strip set by the service sheet, and the real one isn't."
            : "Whether the slugs have been turned is not known: this curve holds only if they have not.",
        do: "Sweep the strip as found before anything is turned, and read the sweep in: the fit allows for slugs that were turned.",
        restsOn: ["width6dB", "centre"],
        hazards: ["b-plus", "stored-charge"],
      });
    const wide = g.verdict((_, y) => Number((y as Num).width6dB) > 8000);
    const narrow = g.verdict((_, y) => Number((y as Num).audioBandwidthAm) < 2200);
    if (wide === "yes")
      out.push({
        id: "response-wide",
        severity: "note",
        says: `Wide for crowded bands: a carrier 5 kHz away is only ${g.say("adjacentRejection5kHz")} down. A selectivity accessory gains most here, on AM too.`,
        restsOn: ["width6dB", "adjacentRejection5kHz"],
        hazards: ["none"],
      });
    if (narrow === "yes")
      out.push({
        id: "response-narrow",
        severity: "note",
        says: `Too narrow for good AM: audio ends at ${g.say("audioBandwidthAm")}.`,
        restsOn: ["audioBandwidthAm"],
        hazards: ["none"],
      });
    const hanging = g.verdict((x) => x.strip.cans.some((c) => c.addedCapacitance > 0));
    if (hanging === "yes")
      out.push({
        id: "response-cable-hangs",
        severity: "act",
        says: "This is the strip as it stands: a fitted cable hangs on a can and has not been tuned out yet.",
        do: "Tune the accessory's coil for the cable and re-peak that one primary, then record the work accessory-set.",
        restsOn: ["width6dB", "gain"],
        hazards: ["b-plus", "stored-charge"],
      });
    out.push(
      g.best.sweepReaches60dB === "yes"
        ? {
            id: "response-skirts-measured",
            severity: "note",
            says: "A sweep of this job reaches -60 dB: below -50 dB take its own width, not the model's.",
            restsOn: ["width60dB", "shapeFactor"],
            hazards: ["none"],
          }
        : {
            id: "response-no-strays",
            severity: "note",
            says: "Below -50 dB the curve is a model without stray coupling: a real set passes more there. Only a sweep that reaches it tells.",
            restsOn: ["width60dB", "shapeFactor"],
            hazards: ["none"],
          },
    );
    return out as never;
  },
  figures: [
    {
      id: "response",
      title: "Response of the IF strip",
      xLabel: "frequency",
      yLabel: "relative to the peak",
      traces: [{ label: "this strip", curve: "response", stroke: "ink", band: true }],
      yFrom: -80,
      floor: { y: -50, label: "below this: model without strays" },
    },
  ],
  theory,
});
