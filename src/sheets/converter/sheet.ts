import { chassisInput } from "../../ask/chassis";
import { type GroundOn, sheet } from "../../ask/contract";
import { practice } from "../../ask/declare";
import { quantity, rows } from "../../ask/in-short";
import { dialHz } from "../../physics/converter";
import { printExact } from "../../units/print";
import { intermediateInput, markerErrorInput, oscillatorInput, spacingInput } from "../inputs/dial";
import { findingsOf } from "./findings";
import {
  type Chosen,
  type ConverterInputs,
  choose,
  crystalErrorByMarkers,
  hz,
  inputLeavesDb,
  type Names,
  planStrips,
  senses,
  throughOwnImageHz,
} from "./solve";
import { tablesOf } from "./tables";
import theory from "./theory.md";

const own =
  (name: string): NonNullable<Parameters<typeof quantity>[4]>["from"] =>
  (b) =>
    b.quantity(`${b.at}.${name}`);
const choices = new WeakMap<object, Chosen>();
/** The choice of these inputs, made once for an answer's curves, findings and tables. */
const chosenOf = (x: ConverterInputs): Chosen | undefined => {
  const known = choices.get(x.ranges);
  if (known) return known;
  const made = choose(x);
  return made.ok ? made.value : undefined;
};
const general = [
  [0.55e6, 1.6e6],
  [1.6e6, 4.8e6],
  [4.8e6, 14.5e6],
  [3.5e6, 4e6],
  [7e6, 7.3e6],
].map(([low, high]) => ({ low, high }));

export const converter = sheet({
  id: "converter",
  version: 2,
  title: "A crystal converter for a high band",
  question: "Which crystal puts a high band on this receiver, and what else comes through?",
  subject: "fitting",
  fitting: "converter",
  joins: true,
  works: "panel",
  steps: ["32"],
  inputs: {
    chassis: chassisInput,
    oscillator: oscillatorInput,
    ranges: rows(
      {
        low: { dimension: "frequency", meaning: "lowest frequency" },
        high: { dimension: "frequency", meaning: "highest frequency" },
      },
      "ranges that the receiver tunes",
      "its dials",
      {
        from: (b) => {
          const all = b.bands();
          return all.length > 0 ? all.map(({ low, high }) => ({ low, high })) : undefined;
        },
        example: general,
        mostRows: 40,
      },
    ),
    crystals: rows(
      { frequency: { dimension: "frequency", meaning: "frequency marked on the crystal" } },
      "crystals to choose from; none: every multiple of the step that would do",
      "the drawer, or a maker's list",
      { mostRows: 1000 },
    ),
    twoPath: rows(
      {
        beat: { dimension: "frequency", meaning: "beat of one marker heard by both paths" },
        sense: {
          options: senses,
          meaning: "whether the crystal is high or low: pull it a little with a trimmer and listen",
          optional: true,
        },
      },
      "beat between a marker heard through the converter and the one heard directly at the same place",
      "marker generator at the converter's input and a wire of it near the receiver's; zero beat neither, count the difference",
      { mostRows: 20 },
    ),
    wantedLow: quantity("frequency", "lowest frequency wanted", "the band", [28e6, 0, "an example"], {
      max: 150e6,
      from: own("wantedLow"),
    }),
    wantedHigh: quantity("frequency", "highest frequency wanted", "the band", [28.5e6, 0, "an example"], {
      max: 150e6,
      from: own("wantedHigh"),
    }),
    crystal: quantity("frequency", "crystal; 0 for the best that is found", "its marking", [0, 0, "the best that is found"], {
      min: 0,
      max: 200e6,
      from: own("crystal"),
    }),
    crystalStep: quantity("frequency", "step between the crystals tried where none are named", "chosen", [100e3, 0, practice], {
      min: 1e3,
      max: 10e6,
    }),
    order: quantity("ratio", "largest sum of harmonics to look at", "chosen", [15, 0, practice], { min: 2, max: 15 }),
    inputCircuits: quantity(
      "ratio",
      "tuned circuits at the converter's input, peaked at each place",
      "its schematic; fixed-tuned ones give less toward the ends",
      [2, 0, practice],
      {
        min: 0,
        max: 6,
        from: own("inputCircuits"),
      },
    ),
    inputQ: quantity("ratio", "loaded Q of each of the converter's input circuits", "width of its peak", [60, 15, practice], {
      max: 500,
      from: own("inputQ"),
    }),
    intermediate: intermediateInput,
    markerSpacing: { ...spacingInput },
    markerError: markerErrorInput,
    crystalError: quantity(
      "ppm",
      "how far the crystal is high",
      "a counter, or the beat of a marker by both paths",
      [0, 5e-5, `50 ppm as cut, ${practice}`],
      { min: -5e-3, max: 5e-3, from: own("crystalError") },
    ),
    dialError: quantity(
      "frequency",
      "how far the receiver's own dial reads low on the range in use",
      "zero beat a marker on the range; the sheet on the dial",
      [0, 3e3, practice],
      { min: -1e6, max: 1e6, from: own("dialError") },
    ),
    drift: quantity("frequency", "how far the receiver has drifted since", "a marker again, warm", [0, 500, practice], {
      min: -1e5,
      max: 1e5,
      from: own("drift"),
    }),
  },
  first: ["wantedLow", "wantedHigh", "crystal", "dialError", "crystalError"],
  results: {
    crystal: { dimension: "frequency", meaning: "crystal", exact: true },
    dialAtLow: { dimension: "frequency", meaning: "where the lower end of the band is on the receiver's dial", known: 500 },
    dialAtHigh: { dimension: "frequency", meaning: "where the upper end of the band is on the receiver's dial", known: 500 },
    imageLow: { dimension: "frequency", meaning: "image frequency of the lower end of the band", known: 500 },
    imageHigh: { dimension: "frequency", meaning: "image frequency of the upper end of the band", known: 500 },
    imageRejection: { dimension: "decibel", meaning: "worst image rejection by the converter's input", known: 0.5 },
    feedThroughRejection: { dimension: "decibel", meaning: "what the input leaves of signals on the receiver's own dial", known: 0.5 },
    ownImage: { dimension: "frequency", meaning: "signal that the receiver's own image brings in at the lower end", known: 500 },
    ownImageRejection: {
      dimension: "decibel",
      meaning: "what the converter's input alone takes off what the receiver's own image brings in",
      known: 0.5,
    },
    readout: { dimension: "frequency", meaning: "true frequency less what the card says" },
    byCrystal: { dimension: "frequency", meaning: "share of the crystal in the card's error" },
    crystalFound: { dimension: "ppm", meaning: "error of the crystal by the two-path beat" },
    whistles: { dimension: "ratio", meaning: "places where a signal whistles with itself", known: 5 },
    notes: { dimension: "ratio", meaning: "steady notes that are no signals", known: 5 },
  },
  key: ["crystal", "dialAtLow", "dialAtHigh", "imageRejection", "readout"],
  curves: {
    image: { x: "frequency", y: "decibel", meaning: "image rejection by the converter's input" },
    past: { x: "frequency", y: "decibel", meaning: "what the input leaves of the receiver's own range" },
    ownImage: { x: "frequency", y: "decibel", meaning: "what the input leaves of what the receiver's own image brings in" },
  },
  prepare: (best, points, chance) => {
    const b = best as unknown as ConverterInputs;
    const made = choose(b, chance.progress);
    if (!made.ok)
      return {
        axes: { image: new Float64Array(1), past: new Float64Array(1), ownImage: new Float64Array(1) },
        solve: () => ({}) as never,
        issues: made.issues,
      };
    choices.set(b.ranges, made.value);
    const { plan: p } = made.value.taken;
    const count = Math.min(points, 101);
    const axis = Float64Array.from({ length: count }, (_, i) => b.wantedLow + ((b.wantedHigh - b.wantedLow) * i) / (count - 1));
    return {
      axes: { image: axis, past: axis, ownImage: axis },
      solve: (plain, into) => {
        const x = plain as unknown as ConverterInputs;
        const imageAt = (f: number): number => Math.abs(2 * p.crystalHz - f);
        let [worst, past, ownWorst] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
        for (let i = 0; i < axis.length; i++) {
          const d = dialHz(p, axis[i]);
          into.image[i] = inputLeavesDb(x, p, d, imageAt(axis[i]));
          into.past[i] = inputLeavesDb(x, p, d, d);
          into.ownImage[i] = inputLeavesDb(x, p, d, throughOwnImageHz(x, p, d));
          worst = Math.min(worst, into.image[i]);
          past = Math.min(past, into.past[i]);
          ownWorst = Math.min(ownWorst, into.ownImage[i]);
        }
        const found = crystalErrorByMarkers(x, p);
        const byCrystal = (found ?? x.crystalError) * p.crystalHz;
        const sign = p.side === "below" ? 1 : -1;
        return {
          crystal: p.crystalHz,
          dialAtLow: dialHz(p, p.lowHz),
          dialAtHigh: dialHz(p, p.highHz),
          imageLow: imageAt(p.lowHz),
          imageHigh: imageAt(p.highHz),
          imageRejection: worst,
          feedThroughRejection: past,
          ownImage: throughOwnImageHz(x, p, dialHz(p, p.lowHz)),
          ownImageRejection: ownWorst,
          readout: byCrystal + sign * (x.dialError + x.drift),
          byCrystal,
          crystalFound:
            found === undefined
              ? { none: "no beat by both paths was read with its sense, or the crystal is no multiple of the markers" }
              : found,
          whistles: made.value.taken.responses.filter((r) => r.crossHz !== undefined).length,
          notes: made.value.taken.birdies.length,
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as GroundOn<ConverterInputs, Names>;
    const c = chosenOf(g.best)?.taken;
    if (!c) return "No crystal will do it.";
    return `${g.best.crystal > 0 ? "With" : "Take"} a crystal of ${hz(c.plan.crystalHz)}: ${hz(c.plan.lowHz)} to ${hz(c.plan.highHz)} is heard from ${g.about("dialAtLow")} to ${g.about("dialAtHigh")} on the dial${c.plan.side === "above" ? ", backward" : ""}; the image is ${g.about("imageRejection")} down.`;
  },
  findings: (ground) => {
    const g = ground as unknown as GroundOn<ConverterInputs, Names>;
    const made = chosenOf(g.best);
    return (made ? findingsOf(g, made) : []) as never;
  },
  parts: (ground) => {
    const g = ground as unknown as GroundOn<ConverterInputs, Names>;
    const c = chosenOf(g.best)?.taken;
    if (!c || g.isAssumed("wantedLow")) return [];
    return [
      {
        part: "Crystal of the converter",
        was: "",
        value: printExact(Math.round(c.plan.crystalHz), "frequency"),
        rating:
          c.overtone === 1
            ? "fundamental, 20 or 30 pF load as the circuit has it"
            : `${c.overtone === 3 ? "third" : "fifth"} overtone, series resonance`,
        kind: "quartz, in a holder that fits",
        quantity: 1,
        why: `puts ${hz(c.plan.lowHz)} to ${hz(c.plan.highHz)} on the dial from ${g.about("dialAtLow")}`,
      },
    ];
  },
  strips: (best) => {
    const x = best as unknown as ConverterInputs;
    const c = chosenOf(x)?.taken;
    return c ? [planStrips(x, c)] : [];
  },
  tables: (best) => {
    const x = best as unknown as ConverterInputs;
    const made = chosenOf(x);
    return made ? tablesOf(x, made) : [];
  },
  figures: [
    {
      id: "leaves",
      title: "What the converter's input leaves of other ways in, over the band",
      xLabel: "wanted",
      yLabel: "down by",
      traces: [
        { label: "image", curve: "image", stroke: "accent", band: true },
        { label: "past the converter", curve: "past", stroke: "ink" },
        { label: "the receiver's own image", curve: "ownImage", stroke: "faint" },
      ],
      yFrom: 0,
    },
  ],
  theory,
});
