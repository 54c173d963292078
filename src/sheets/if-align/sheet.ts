import { type GroundOn, sheet } from "../../ask/contract";
import { noneOf, practice } from "../../ask/declare";
import { choice, quantity } from "../../ask/in-short";
import type { NoValue } from "../../ask/results";
import type { Bench } from "../../set/bench";
import { printValue } from "../../units/print";
import { oscillatorInput } from "../inputs/dial";
import { stripInput } from "../inputs/strip-and-cable";
import { findingsOf } from "./findings";
import {
  type AlignInputs,
  type AlignNames,
  couplingOf,
  fastestSweepHzPerS,
  feels,
  loadFor,
  loadingOhm,
  loadPart,
  narrowestHz,
  outputAt,
  pairFromHumps,
  pairWidthHz,
  width6Hz,
} from "./solve";
import theory from "./theory.md";

const notRead: NoValue = { none: "no double hump was read" };

export const ifAlign = sheet({
  id: "if-align",
  version: 1,
  title: "Aligning the IF",
  question: "In what order, how and to which centre do I align these IF cans?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["18", "19", "20"],
  inputs: {
    strip: { ...stripInput, from: (b: Bench) => b.stripAsFitted() },
    oscillator: oscillatorInput,
    narrowest: choice(["none", "single crystal", "ceramic or mechanical filter"], "sharp filter in the strip", "look for it", {
      from: (b) => b.choice("supplies.narrowest") ?? (b.strip()?.filter ? "ceramic or mechanical filter" : undefined),
      assumed: "none",
    }),
    humpFrom: choice(
      ["one can alone", "the whole strip"],
      "what the double hump was seen of",
      "generator through a small capacitor to the plate before the can, detector with a small capacitor after it: that is one can alone",
    ),
    feel: choice(feels, "how a slug or trimmer feels", "turn it, after marking its slot with a pencil"),
    humpSpacing: quantity(
      "frequency",
      "distance of the two humps; 0 where none were seen",
      "sweep or slow generator",
      [0, 0, "none seen"],
      { min: 0, max: 100e3 },
    ),
    humpValley: quantity("decibel", "how far the middle is below the humps", "the same", [0, 0, "none seen"], { min: 0, max: 20 }),
    humpDifference: quantity("decibel", "how far one hump is below the other", "the same", [0, 0, "none seen"], { min: 0, max: 30 }),
    canCapacitance: quantity(
      "capacitance",
      "capacitor across a winding of the can with two humps",
      "service sheet, or a bridge with one lead lifted",
      [120e-12, 12e-12, practice],
      {
        max: 1e-8,
      },
    ),
    filterCentre: quantity(
      "frequency",
      "centre of the sharp filter as measured; 0 where not measured",
      "crystal: generator where its output peaks; ceramic: mean of its -6 dB points; generator by counter",
      [0, 0, "not measured"],
      { min: 0, max: 20e6 },
    ),
    crystalWidth: quantity(
      "frequency",
      "narrowest width of the crystal filter at -3 dB",
      "its selectivity switch at sharp",
      [300, 100, practice],
      { max: 10e3 },
    ),
  },
  first: ["humpSpacing", "humpValley", "humpDifference", "filterCentre", "canCapacitance"],
  results: {
    centreToUse: { dimension: "frequency", meaning: "centre to align to", known: 50 },
    dialShift: {
      dimension: "frequency",
      meaning: "by how much every dial mark receives higher once the IF is moved, the oscillator left alone",
    },
    mostOver: { dimension: "ratio", meaning: "coupling of the most coupled can over critical (k Q)" },
    lostByOneKhz: { dimension: "decibel", meaning: "gain lost by 1 kHz of error in the first primary" },
    pairA: {
      dimension: "ratio",
      meaning: "coupling over critical, from the humps: an upper limit where the windings may be off each other",
      known: 0.01,
    },
    pairQ: { dimension: "ratio", meaning: "loaded Q, from the humps", known: 1 },
    pairK: { dimension: "ratio", meaning: "coupling k, from the humps", known: 2e-4 },
    pairWidth: { dimension: "frequency", meaning: "width at -6 dB below the humps", known: 100 },
    loading: {
      dimension: "resistance",
      meaning: "resistor across one winding that takes the can with two humps under critical (a quarter of its Q, or less)",
      known: 1000,
    },
    sweepWidth: { dimension: "frequency", meaning: "width of sweep to set: three times the pass band" },
    sweepRate: { dimension: "frequency", meaning: "fastest sweep that the narrowest resonance follows: so much in one second" },
  },
  key: ["centreToUse", "mostOver", "sweepRate"],
  curves: {
    primary: { x: "frequency", y: "decibel", holds: "power", meaning: "output against the first can's primary" },
    secondary: { x: "frequency", y: "decibel", holds: "power", meaning: "output against the first can's secondary" },
  },
  prepare: (best) => {
    const b = best as unknown as AlignInputs;
    const axis = Float64Array.from({ length: 41 }, (_, i) => -10e3 + 500 * i);
    const ifHz = b.strip.intermediateFrequency;
    const blank = { axes: { primary: new Float64Array(1), secondary: new Float64Array(1) }, solve: () => ({}) as never };
    if (b.filterCentre > 0 && Math.abs(b.filterCentre / ifHz - 1) > 0.05)
      return {
        ...blank,
        issues: [
          {
            path: "filterCentre",
            code: "far-off",
            read: printValue(b.filterCentre, "frequency", 100),
            expected: `within 5 % of the IF, ${printValue(ifHz, "frequency", 500)}: else it is another filter, or another IF`,
          },
        ],
      };
    if (b.humpSpacing > 0 !== b.humpValley > 0)
      return {
        ...blank,
        issues: [
          {
            path: b.humpSpacing > 0 ? "humpValley" : "humpSpacing",
            code: "half-a-hump",
            read: "0",
            expected: "both the distance of the humps and the depth between them",
          },
        ],
      };
    return {
      axes: { primary: axis, secondary: axis },
      solve: (plain, into) => {
        const x = plain as unknown as AlignInputs;
        let top = 0;
        for (let i = 0; i < axis.length; i++) {
          into.primary[i] = outputAt(x.strip, "primaryOffset", axis[i]);
          into.secondary[i] = outputAt(x.strip, "secondaryOffset", axis[i]);
          top = Math.max(top, into.primary[i], into.secondary[i]);
        }
        for (const a of [into.primary, into.secondary]) for (let i = 0; i < axis.length; i++) a[i] /= top;
        const f = x.strip.intermediateFrequency;
        const centre = x.filterCentre > 0 ? x.filterCentre : f;
        const width = width6Hz(x.strip);
        const first = outputAt(x.strip, "primaryOffset", 0);
        const common = {
          centreToUse: centre,
          dialShift:
            x.filterCentre > 0 ? (x.oscillator === "above" ? f - centre : centre - f) : { none: "the filter's centre was not measured" },
          mostOver: Math.max(...x.strip.cans.map((c) => couplingOf(c, f).a)),
          lostByOneKhz:
            10 * Math.log10(first / Math.min(outputAt(x.strip, "primaryOffset", 1000), outputAt(x.strip, "primaryOffset", -1000))),
          sweepWidth: 3 * width,
          sweepRate: fastestSweepHzPerS(narrowestHz(x, width)),
        };
        const pairs = ["pairA", "pairQ", "pairK", "pairWidth", "loading"] as const;
        if (!(x.humpSpacing > 0)) return { ...common, ...noneOf(pairs, notRead.none) };
        if (x.humpFrom === "the whole strip")
          return { ...common, ...noneOf(pairs, "a hump of the whole strip mixes all its cans: fit the sweep, which gives an interval") };
        const p = pairFromHumps(x.humpSpacing, x.humpValley, centre);
        return {
          ...common,
          pairA: p.a,
          pairQ: p.q,
          pairK: p.k,
          pairWidth: pairWidthHz(p.a, p.q, centre, 6),
          loading: loadingOhm(p.q, x.canCapacitance, centre, loadPart(p.a)),
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as GroundOn<AlignInputs, AlignNames>;
    const over = g.verdict((_, y) => y.mostOver > 1.1);
    if (g.best.strip.cans.some((c) => c.addedCapacitance > 0))
      return "Not yet: a cable hangs on a can and must be tuned out by its own coil first.";
    const to = `Align to ${g.about("centreToUse")}, last can first`;
    if ((g.figures.pairA.value ?? 0) > 1.1) return `${to}; the can with two humps is overcoupled and must not simply be peaked.`;
    return over === "no"
      ? `${to}: every can here is peaked, secondary and primary in turn.`
      : `${to}: ${over === "yes" ? "at least one can is overcoupled and must not simply be peaked" : "one can may be overcoupled; sweep it before peaking"}.`;
  },
  findings: (ground) => findingsOf(ground as unknown as GroundOn<AlignInputs, AlignNames>) as never,
  tables: (best) => {
    const x = best as unknown as AlignInputs;
    const f = x.strip.intermediateFrequency;
    const word = (name: string) => ({ name, dimension: "ratio" as const });
    const n = x.strip.cans.length;
    return [
      {
        id: "order",
        title: "The procedure for these cans",
        columns: [
          word("turn"),
          word("what"),
          { name: "k Q", dimension: "ratio", u: 0.03 },
          { name: "resistor", dimension: "resistance" },
          word("how"),
        ],
        rows: [
          [
            "first",
            "before anything",
            Number.NaN,
            Number.NaN,
            "warm half an hour; oscillator stopped or a band without signals; BFO off; AVC clamped at -1.5 to -3 V; volume full, the generator turned down to the least that reads",
          ],
          ...x.strip.cans
            .map((c, i) => ({ i, ...couplingOf(c, f) }))
            .reverse()
            .flatMap(({ i, a }, k): (string | number)[][] => {
              const [turn, name] = [String(k + 1), `can ${i + 1}`];
              const where = `generator at the ${i === 0 ? "mixer grid" : `grid before can ${i + 1}`} through 0.01 to 0.1 µF`;
              if (a <= 1.1) return [[turn, name, a, Number.NaN, `${where}: secondary, then primary, twice round`]];
              const ohm = loadFor(x.strip.cans[i], f);
              return [
                [turn, name, a, ohm, `${where}: resistor across the primary, peak the secondary`],
                [turn, name, a, ohm, "resistor across the secondary, peak the primary; take it off; look at the sweep"],
              ];
            }),
          [
            "last",
            "the whole",
            Number.NaN,
            Number.NaN,
            `generator at the mixer grid, all ${n} once more without resistors; -6 dB points within a tenth of the same distance from the centre`,
          ],
        ],
      },
    ];
  },
  figures: [
    {
      id: "slug",
      title: "What the output does as a winding of the first can is tuned through the IF",
      xLabel: "winding off the IF",
      yLabel: "output",
      traces: [
        { label: "primary", curve: "primary", stroke: "accent", band: true },
        { label: "secondary", curve: "secondary", stroke: "ink" },
      ],
    },
  ],
  theory,
});
