import { frequencyAxis } from "../../ask/axes";
import { type GroundOn, sheet } from "../../ask/contract";
import { inside, practice } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { quantity } from "../../ask/in-short";
import type { NoValue } from "../../ask/results";
import { type CrystalFilter, CrystalResponse, notchHz, ringingS } from "../../physics/crystal-filter";
import { crossingHz, peakOf } from "../../physics/passband";
import { printValue } from "../../units/print";
import { tolerance } from "../../units/quantity";
import { intermediateInput } from "../inputs/dial";
import theory from "./theory.md";

interface Inputs {
  readonly intermediate: number;
  readonly crystalSeries: number;
  readonly crystalMotional: number;
  readonly crystalQ: number;
  readonly crystalHolder: number;
  readonly phasing: number;
  readonly phasingLow: number;
  readonly phasingHigh: number;
  readonly crystalAround: number;
}
type Names = "neutral" | "notchAt" | "notchOff" | "notchDepth" | "peakAt" | "peakOff" | "width" | "ringing" | "reachBelow" | "reachAbove";
type G = GroundOn<Inputs, Names>;
const filterOf = (x: Inputs, phasingF = x.phasing): CrystalFilter => ({
  seriesHz: x.crystalSeries,
  motionalF: x.crystalMotional,
  crystalQ: x.crystalQ,
  holderF: x.crystalHolder,
  phasingF,
  aroundOhm: x.crystalAround,
});
const halfPower = 10 * Math.log10(2);
function figuresOf(x: Inputs, phasingF = x.phasing) {
  const r = new CrystalResponse(filterOf(x, phasingF));
  const peak = peakOf(r, [x.crystalSeries]);
  const notch = notchHz(filterOf(x, phasingF));
  return { r, peak, notch, depthDb: notch === undefined ? undefined : 10 * Math.log10(peak.power / r.at(notch)) };
}
const none: NoValue = { none: "balanced: there is no notch" };

export const phasing = sheet({
  id: "phasing",
  version: 1,
  title: "Crystal filter and phasing",
  question: "Where are the single-crystal filter's notch and peak, and where is its phasing neutral?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["18", "21"],
  inputs: {
    intermediate: intermediateInput,
    crystalSeries: quantity(
      "frequency",
      "series resonance of the crystal",
      "generator by counter, phasing neutral: where the output peaks",
      [455.6e3, 300, practice],
      {
        max: 20e6,
        from: (b) => {
          const own = b.quantity("supplies.crystalSeries");
          const ifHz = b.strip()?.intermediateFrequency.value;
          return (
            own ??
            (ifHz === undefined
              ? undefined
              : {
                  value: ifHz,
                  spread: tolerance(0.003 * ifHz),
                  origin: "assumed",
                  source: "near the IF on the service sheet, not measured",
                })
          );
        },
        keptAt: "supplies.crystalSeries",
      },
    ),
    crystalMotional: quantity(
      "capacitance",
      "motional capacitance of the crystal",
      "width and load, or two notches of known phasing",
      [0.04e-12, 0.01e-12, practice],
      { max: 1e-12 },
    ),
    crystalQ: quantity("ratio", "Q of the crystal by itself", "width of its peak, driven and loaded lightly", [10e3, 4e3, practice], {
      max: 2e6,
    }),
    crystalHolder: quantity(
      "capacitance",
      "capacitance of the crystal's holder and wiring",
      "bridge, far off resonance",
      [6e-12, 1e-12, practice],
      {
        max: 1e-10,
      },
    ),
    phasing: quantity(
      "capacitance",
      "phasing capacitor as it stands",
      "bridge, or by the angle of its plates",
      [6e-12, 0.5e-12, practice],
      { max: 1e-10 },
    ),
    phasingLow: quantity("capacitance", "least capacitance of the phasing capacitor", "bridge, plates out", [2e-12, 0.5e-12, practice], {
      max: 1e-10,
    }),
    phasingHigh: quantity("capacitance", "most capacitance of the phasing capacitor", "bridge, plates in", [12e-12, 1e-12, practice], {
      max: 1e-10,
    }),
    crystalAround: quantity(
      "resistance",
      "source and load that the crystal works between, together",
      "from its width: the selectivity switch sets it",
      [10e3, 4e3, practice],
      {
        max: 1e7,
      },
    ),
  },
  observed: ["crystalSeries"],
  readAt: inside,
  beforehand: ["phasing-avc-volts"],
  first: ["crystalSeries", "crystalHolder", "phasing", "crystalAround", "crystalMotional"],
  results: {
    neutral: { dimension: "capacitance", meaning: "phasing capacitance that balances the holder: no notch, both sides alike" },
    notchAt: { dimension: "frequency", meaning: "frequency of the notch, as the phasing stands" },
    notchOff: { dimension: "frequency", meaning: "notch off the crystal's own resonance, as the phasing stands" },
    notchDepth: { dimension: "decibel", meaning: "depth of the notch below the peak, as the phasing stands" },
    peakAt: { dimension: "frequency", meaning: "frequency of the peak, as the phasing stands" },
    peakOff: { dimension: "frequency", meaning: "peak off the IF, as the phasing stands" },
    width: { dimension: "frequency", meaning: "width at -3 dB, phasing neutral" },
    ringing: { dimension: "time", meaning: "time in which a note dies away to 1/e" },
    reachBelow: { dimension: "frequency", meaning: "nearest notch below the crystal's resonance, phasing at its most" },
    reachAbove: { dimension: "frequency", meaning: "nearest notch above the crystal's resonance, phasing at its least" },
  },
  key: ["neutral", "notchAt", "peakOff"],
  curves: {
    asItStands: { x: "frequency", y: "decibel", holds: "power", meaning: "response as the phasing stands" },
    balanced: { x: "frequency", y: "decibel", holds: "power", meaning: "response with the phasing neutral" },
  },
  prepare: (best, points) => {
    const b = best as unknown as Inputs;
    const blank = { axes: { asItStands: new Float64Array(1), balanced: new Float64Array(1) }, solve: () => ({}) as never };
    const issue = (path: string, code: string, read: string, expected: string) => ({ ...blank, issues: [{ path, code, read, expected }] });
    if (!(b.phasingHigh > b.phasingLow))
      return issue("phasingHigh", "crossed", printValue(b.phasingHigh, "capacitance"), "more than phasingLow");
    if (b.phasing < b.phasingLow || b.phasing > b.phasingHigh)
      return issue(
        "phasing",
        "out-of-travel",
        printValue(b.phasing, "capacitance"),
        `within its travel, ${printValue(b.phasingLow, "capacitance")} to ${printValue(b.phasingHigh, "capacitance")}`,
      );
    if (Math.abs(b.crystalSeries / b.intermediate - 1) > 0.03)
      return issue(
        "crystalSeries",
        "far-off",
        printValue(b.crystalSeries, "frequency", 100),
        `within 3 % of the IF, ${printValue(b.intermediate, "frequency", 100)}`,
      );
    const axis = frequencyAxis(b.crystalSeries, 12e3, Math.min(points, 241));
    return {
      axes: { asItStands: axis, balanced: axis },
      solve: (plain, into) => {
        const x = plain as unknown as Inputs;
        const now = figuresOf(x);
        const even = figuresOf(x, x.crystalHolder);
        for (let i = 0; i < axis.length; i++) {
          into.asItStands[i] = now.r.at(axis[i]) / even.peak.power;
          into.balanced[i] = even.r.at(axis[i]) / even.peak.power;
        }
        const width = crossingHz(even.r, even.peak, halfPower, 1) - crossingHz(even.r, even.peak, halfPower, -1);
        const reach = (phasingF: number, side: 1 | -1): number | NoValue => {
          const n = notchHz(filterOf(x, phasingF));
          return n !== undefined && Math.sign(n - x.crystalSeries) === side
            ? n - x.crystalSeries
            : { none: "the phasing does not go past neutral to that side" };
        };
        return {
          neutral: x.crystalHolder,
          notchAt: now.notch ?? none,
          notchOff: now.notch === undefined ? none : now.notch - x.crystalSeries,
          notchDepth: now.depthDb ?? none,
          peakAt: now.peak.hz,
          peakOff: now.peak.hz - x.intermediate,
          width,
          ringing: ringingS(width),
          reachBelow: reach(x.phasingHigh, -1),
          reachAbove: reach(x.phasingLow, 1),
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    return `The phasing is neutral at ${g.about("neutral")}; the filter peaks ${g.about("peakOff")} off the IF and is ${g.about("width")} wide.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const out: Finding[] = [];
    const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly Names[]): void => {
      out.push({ id: `phasing-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
    };
    const off = g.verdict((_, y) => Math.abs(y.peakOff) > 100);
    if (off !== "no")
      put(
        `off-the-if-${off}`,
        off === "yes" ? "act" : "check",
        `The crystal peaks ${g.say("peakOff")} off the IF: the cans belong on the crystal, which can't be moved.`,
        "Align the IF to the crystal's own peak, phasing neutral, then set the BFO by it; the oscillator follows band by band.",
        ["peakOff"],
      );
    const reached = g.verdict((x) => x.phasingLow < x.crystalHolder && x.phasingHigh > x.crystalHolder);
    if (reached !== "yes")
      put(
        `not-neutral-${reached}`,
        "check",
        "The phasing capacitor may not reach the point that balances this holder: then there is a notch on one side only.",
        "Power off, discharged and measured: look at the wiring on the crystal's side first, then at its holder; a fixed capacitor of a few pF on the other side helps.",
        ["neutral"],
      );
    put(
      "avc-volts",
      "note",
      "Judge notch and peak by the AVC volts or an output meter without BFO: a null by ear may be just the note passing zero beat.",
      undefined,
      ["notchAt"],
    );
    const rings = g.verdict((_, y) => y.ringing > 0.01);
    if (rings !== "no") put("rings", "note", `It rings for ${g.about("ringing")}: fast CW runs together.`, undefined, ["ringing"]);
    return out as never;
  },
  tables: (best) => {
    const x = best as unknown as Inputs;
    const span = x.phasingHigh - x.phasingLow;
    return [
      {
        id: "phasing",
        title: "Notch and peak against the phasing capacitor",
        columns: [
          { name: "phasing", dimension: "capacitance" },
          { name: "notch off the crystal", dimension: "frequency", u: 20 },
          { name: "notch depth", dimension: "decibel", u: 0.5 },
          { name: "peak off the crystal", dimension: "frequency", u: 1 },
        ],
        rows: Array.from({ length: 9 }, (_, i) => {
          const c = x.phasingLow + (span * i) / 8;
          const f = figuresOf(x, c);
          return [c, f.notch === undefined ? Number.NaN : f.notch - x.crystalSeries, f.depthDb ?? Number.NaN, f.peak.hz - x.crystalSeries];
        }),
      },
    ];
  },
  figures: [
    {
      id: "response",
      title: "The crystal filter, as its phasing stands and neutral",
      xLabel: "frequency",
      yLabel: "relative to the neutral peak",
      traces: [
        { label: "as it stands", curve: "asItStands", stroke: "accent", band: true },
        { label: "neutral", curve: "balanced", stroke: "ink" },
      ],
      yFrom: -80,
    },
  ],
  theory,
});
