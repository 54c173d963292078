import { trackingErrorHz, wantedHz } from "../../physics/tracking";
import { printValue } from "../../units/print";
import { exact, tolerance } from "../../units/quantity";
import { type Finding, type GroundOn, type NoValue, sheet, type Table } from "../contract";
import { intermediateInput, oscillatorInput } from "../dial-inputs";
import { bandOf, blame, changedHz, pointChoices, type Tracked, type TrackingInputs, tracked } from "./solve";
import theory from "./theory.md";

const inside: Finding["hazards"] = ["b-plus", "stored-charge"];
const practice = "common practice, no source";
type Names = "worst" | "worstLoss" | "coil" | "trimmer" | "padder" | "signalCoil" | "coilOff" | "trimmerOff" | "padderOff" | "left";
type G = GroundOn<TrackingInputs, Names>;
const grid = 81;
const axisOf = (x: TrackingInputs): Float64Array =>
  Float64Array.from({ length: grid }, (_, i) => x.low * (x.high / x.low) ** (i / (grid - 1)));
const noParts: NoValue = { none: "no positive parts make this curve on this gang" };
const noReadings: NoValue = { none: "no dial error was read" };
const share = (meaning: string, value: number) =>
  ({
    kind: "quantity",
    dimension: "fraction",
    positive: true,
    max: 1,
    meaning,
    howMeasured: "chosen",
    assumed: { value, spread: exact, source: practice },
  }) as const;

export const tracking = sheet({
  id: "tracking",
  version: 1,
  title: "Tracking of the oscillator",
  question: "How well can the oscillator track, and which of its parts is off?",
  subject: "band",
  joins: false,
  steps: ["23", "24"],
  inputs: {
    readings: {
      kind: "table",
      columns: {
        dial: { dimension: "frequency", meaning: "what the dial says" },
        received: { dimension: "frequency", meaning: "what is received there" },
      },
      meaning: "dial marks, and what is truly received on each",
      howMeasured: "zero beat a marker, read the dial; near both ends, and in the middle if there is a third",
      from: (bench) => {
        // a scale that is marked in frequency says both by itself
        const points = bench.points(bench.at);
        const unit = [1e3, 1e6].find((u) => points.length > 0 && points.every((p) => Math.abs((p.reading * u) / p.frequencyHz - 1) < 0.05));
        return unit === undefined ? undefined : points.map((p) => ({ dial: p.reading * unit, received: p.frequencyHz }));
      },
      assumed: { rows: [], source: "none read yet" },
      mostRows: 100,
    },
    oscillator: oscillatorInput,
    points: {
      kind: "choice",
      options: pointChoices,
      meaning: "where the circuit is designed to be exact",
      howMeasured: "service sheet; least worst error where nothing is known",
      assumed: "least worst error",
    },
    low: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 60e6,
      meaning: "lowest frequency of the band",
      howMeasured: "the dial",
      from: (b) => b.quantity(`${b.at}.low`),
      assumed: { value: 1.6e6, spread: exact, source: "an example" },
    },
    high: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      max: 60e6,
      meaning: "highest frequency of the band",
      howMeasured: "the dial",
      from: (b) => b.quantity(`${b.at}.high`),
      assumed: { value: 4.8e6, spread: exact, source: "an example" },
    },
    intermediate: intermediateInput,
    gangLow: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      max: 1e-9,
      meaning: "least capacitance of a section of the gang",
      howMeasured: "bridge, plates fully out",
      assumed: { value: 10e-12, spread: tolerance(2e-12), source: "usual of a 365 pF gang" },
    },
    gangHigh: {
      kind: "quantity",
      dimension: "capacitance",
      positive: true,
      max: 2e-9,
      meaning: "most capacitance of a section of the gang, on this band",
      howMeasured: "bridge, plates fully in",
      assumed: { value: 365e-12, spread: tolerance(10e-12), source: "usual of a 365 pF gang" },
    },
    signalQ: {
      kind: "quantity",
      dimension: "ratio",
      positive: true,
      max: 1000,
      meaning: "loaded Q of the signal circuit",
      howMeasured: "width of its peak",
      assumed: { value: 60, spread: tolerance(20), source: practice },
    },
    readingNoise: {
      kind: "quantity",
      dimension: "frequency",
      positive: true,
      meaning: "standard deviation of a dial reading",
      howMeasured: "read the same mark ten times over",
      assumed: { value: 2e3, spread: exact, source: practice },
    },
    coilDoubt: share("what the coil may be off by beforehand, one standard deviation", 0.1),
    trimmerDoubt: share("what trimmer and strays may be off by beforehand", 0.3),
    padderDoubt: share("what the padder may be off by beforehand", 0.05),
  },
  first: ["low", "high", "gangHigh", "signalQ", "readingNoise"],
  results: {
    worst: { dimension: "frequency", meaning: "worst error of the oscillator over the band, all parts right", known: 10 },
    worstLoss: { dimension: "decibel", meaning: "what that costs in the signal circuit, at the worst place", known: 0.1 },
    coil: { dimension: "inductance", meaning: "oscillator coil" },
    trimmer: { dimension: "capacitance", meaning: "its trimmer, strays included" },
    padder: { dimension: "capacitance", meaning: "its padder" },
    signalCoil: { dimension: "inductance", meaning: "signal coil on the same gang" },
    coilOff: { dimension: "fraction", meaning: "coil over what it should be, less one", known: 1e-3 },
    trimmerOff: { dimension: "fraction", meaning: "trimmer over what it should be, less one", known: 1e-3 },
    padderOff: { dimension: "fraction", meaning: "padder over what it should be, less one", known: 1e-3 },
    left: { dimension: "frequency", meaning: "worst reading that this leaves unexplained", known: 10 },
  },
  key: ["worst", "coilOff", "trimmerOff"],
  curves: {
    error: { x: "frequency", y: "frequency", meaning: "oscillator off what it should be, all parts right" },
    loss: { x: "frequency", y: "decibel", meaning: "what that costs in the signal circuit" },
    coilMore: { x: "frequency", y: "frequency", meaning: "what is received, less the dial, with 1 % more coil" },
    trimmerMore: { x: "frequency", y: "frequency", meaning: "the same with 5 % more trimmer" },
    padderMore: { x: "frequency", y: "frequency", meaning: "the same with 2 % more padder" },
  },
  prepare: (best) => {
    const b = best as unknown as TrackingInputs;
    const blank = {
      axes: {
        error: new Float64Array(1),
        loss: new Float64Array(1),
        coilMore: new Float64Array(1),
        trimmerMore: new Float64Array(1),
        padderMore: new Float64Array(1),
      },
      solve: () => ({}) as never,
    };
    const issue = (path: string, code: string, read: string, expected: string) => ({ ...blank, issues: [{ path, code, read, expected }] });
    const hz = (v: number): string => printValue(v, "frequency");
    if (!(b.high > b.low * 1.02)) return issue("high", "crossed", hz(b.high), `a frequency well above low, ${hz(b.low)}`);
    if (!(b.gangHigh > b.gangLow)) return issue("gangHigh", "crossed", printValue(b.gangHigh, "capacitance"), "more than gangLow");
    if (b.intermediate > b.low && b.intermediate < b.high)
      return issue(
        "intermediate",
        "inside-the-band",
        hz(b.intermediate),
        "an IF outside the band: inside it the set would receive its own IF",
      );
    if (b.oscillator === "below" && b.low <= b.intermediate)
      return issue("oscillator", "through-nothing", "below", `above, since ${hz(b.low)} less the IF is nothing or less`);
    const ratio = Math.sqrt(b.gangHigh / b.gangLow);
    if (ratio < b.high / b.low)
      return issue(
        "gangHigh",
        "gang-too-small",
        `${printValue(b.gangLow, "capacitance")} to ${printValue(b.gangHigh, "capacitance")}`,
        `a gang whose capacitance rises over ${((b.high / b.low) ** 2).toFixed(1)} times: this one covers at most ${ratio.toFixed(2)} to one in frequency`,
      );
    const far = b.readings.findIndex((r) => r.dial < 0.9 * b.low || r.dial > 1.1 * b.high || Math.abs(r.received / r.dial - 1) > 0.2);
    if (far >= 0)
      return issue(
        `readings row ${far + 1}`,
        "not-on-this-band",
        `${hz(b.readings[far].dial)} and ${hz(b.readings[far].received)}`,
        "a dial mark of this band, and what is received near it; 2 IF away it would be the image",
      );
    const axis = axisOf(b);
    return {
      axes: { error: axis, loss: axis, coilMore: axis, trimmerMore: axis, padderMore: axis },
      solve: (plain, into) => {
        const x = plain as unknown as TrackingInputs;
        const t = tracked(x);
        if (!t) {
          for (const a of Object.values(into)) a.fill(Number.NaN);
          const none = { none: "the oscillator can't follow this band with one padder" };
          return {
            worst: none,
            worstLoss: none,
            coil: none,
            trimmer: none,
            padder: none,
            signalCoil: none,
            coilOff: none,
            trimmerOff: none,
            padderOff: none,
            left: none,
          };
        }
        const band = bandOf(x);
        const sign = x.oscillator === "above" ? 1 : -1;
        let [worst, worstLoss] = [0, 0];
        for (let i = 0; i < axis.length; i++) {
          const e = trackingErrorHz(band, t.law, axis[i]);
          const loss = 10 * Math.log10(1 + ((2 * x.signalQ * e) / axis[i]) ** 2);
          into.error[i] = e;
          into.loss[i] = loss;
          worst = Math.max(worst, Math.abs(e));
          worstLoss = Math.max(worstLoss, loss);
          const off = (c: number, r: number, p: number): number =>
            t.parts ? changedHz(t, t.parts, axis[i], c, r, p) - sign * x.intermediate - axis[i] : Number.NaN;
          into.coilMore[i] = off(0.01, 0, 0);
          into.trimmerMore[i] = off(0, 0.05, 0);
          into.padderMore[i] = off(0, 0, 0.02);
        }
        const found = blame(x, t);
        const or = (v: number | undefined): number | NoValue => v ?? noParts;
        const off = (v: readonly [number, number] | undefined): number | NoValue => (v ? v[0] : t.parts ? noReadings : noParts);
        return {
          worst,
          worstLoss,
          coil: or(t.parts?.henry),
          trimmer: or(t.parts?.trimmerF),
          padder: or(t.parts?.padderF),
          signalCoil: t.signal.henry,
          coilOff: off(found?.coil),
          trimmerOff: off(found?.trimmer),
          padderOff: off(found?.padder),
          left: found ? found.leftHz : noReadings,
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const design = `At best the oscillator is off by ${g.about("worst")} on this band, which costs ${g.about("worstLoss")} in the signal circuit.`;
    const said = blamed(g);
    return said ? `${said} ${design}` : `${design} Read the dial near both ends to tell which part is off.`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const out: Finding[] = [];
    const t = tracked(x);
    const found = t && blame(x, t);
    if (found && found.leftHz > 4 * x.readingNoise)
      out.push({
        id: "tracking-unexplained",
        severity: "check",
        says: `Coil, trimmer and padder together leave ${g.about("left")} unexplained: more than reading errors do.`,
        do: "Look first at what no adjustment mends: the oscillator on the other side (sheet on images), bandspread plates in mesh, the pointer off its mark at full mesh, a marker taken for its neighbour.",
        restsOn: ["left"],
        hazards: ["none"],
      });
    else if (found) {
      const parts = (
        [
          ["coil", found.coil, "slug at the low end"],
          ["trimmer", found.trimmer, "trimmer at the high end"],
          ["padder", found.padder, "padder, or the coil where the padder is fixed"],
        ] as const
      ).filter(([, [v, u]]) => Math.abs(v) > 2 * u);
      out.push({
        id: parts.length > 0 ? `tracking-${parts.map(([n]) => n).join("-")}` : "tracking-none-sure",
        severity: parts.length > 0 ? "act" : "check",
        says:
          parts.length > 0
            ? `${parts.map(([n, [v, u]]) => `The ${n} is ${percent(Math.abs(v))} too ${v > 0 ? "large" : "small"} (give or take ${percent(2 * u)})`).join("; ")}. Assumed: the gang, the IF at ${printValue(x.intermediate, "frequency", 100)}, and ${x.readings.length < 3 ? "the padder near its value" : "nothing of the three"}.`
            : "The readings can't tell which part is off: each may be right.",
        do:
          parts.length > 0
            ? `Begin with the ${parts[0][2]}. Make one trial of a quarter turn, read the same two marks again, and record it: only then is it known which way and how many turns. The low end first, then the high, then the low once more; two rounds do it where the parts are as worked out.`
            : "Read the dial at the other end too, and a third mark in the middle.",
        restsOn: ["coilOff", "trimmerOff", "padderOff"],
        hazards: inside,
      });
    }
    const costs = g.verdict((_, y) => y.worstLoss > 3);
    if (costs !== "no")
      out.push({
        id: `tracking-costs-${costs}`,
        severity: "check",
        says: `Even with every part right the signal circuit is off its peak by up to ${g.say("worstLoss")} somewhere on the band.`,
        do: "It is the design's: peak the signal trimmer at the place that is used most.",
        restsOn: ["worstLoss"],
        hazards: inside,
      });
    return out as never;
  },
  tables: (best) => {
    const x = best as unknown as TrackingInputs;
    const t: Tracked | undefined = tracked(x);
    if (!t?.parts) return [];
    const sign = x.oscillator === "above" ? 1 : -1;
    const at = (f: number, c: number, r: number, p: number): number =>
      t.parts ? changedHz(t, t.parts, f, c, r, p) - sign * x.intermediate - f : Number.NaN;
    const col = (name: string) => ({ name, dimension: "frequency" as const, u: 30 });
    return [
      {
        id: "effects",
        title: "What is received, less the dial: as designed, and with one part larger",
        columns: [
          { name: "dial", dimension: "frequency" },
          col("as designed"),
          col("coil 1 % more"),
          col("trimmer 5 % more"),
          col("padder 2 % more"),
          { name: "oscillator", dimension: "frequency", u: 100 },
        ],
        rows: [0, 0.25, 0.5, 0.75, 1].map((k) => {
          const f = x.low + k * (x.high - x.low);
          return [f, at(f, 0, 0, 0), at(f, 0.01, 0, 0), at(f, 0, 0.05, 0), at(f, 0, 0, 0.02), wantedHz(bandOf(x), f)];
        }),
      } satisfies Table,
    ];
  },
  figures: [
    {
      id: "error",
      title: "The oscillator, off what it should be",
      xLabel: "dial",
      yLabel: "off by",
      traces: [{ label: "all parts right", curve: "error", stroke: "ink" }],
    },
    {
      id: "effects",
      title: "What a part that is too large does",
      xLabel: "dial",
      yLabel: "received less dial",
      traces: [
        { label: "coil 1 % more", curve: "coilMore", stroke: "ink" },
        { label: "trimmer 5 % more", curve: "trimmerMore", stroke: "accent" },
        { label: "padder 2 % more", curve: "padderMore", stroke: "faint", dash: true },
      ],
    },
  ],
  theory,
});
const percent = (v: number): string => `${Number((100 * v).toPrecision(2))} %`;
/** The verdict of the readings in a sentence; undefined without any. */
function blamed(g: G): string | undefined {
  const x = g.best;
  const t = tracked(x);
  const found = t && blame(x, t);
  if (!found) return undefined;
  if (found.leftHz > 4 * x.readingNoise) return "No setting of coil, trimmer and padder explains these readings.";
  const sure = (["coil", "trimmer", "padder"] as const).filter((n) => Math.abs(found[n][0]) > 2 * found[n][1]);
  if (sure.length === 0) return "These readings can't tell which part is off.";
  return `${sure.map((n, i) => `${i === 0 ? "The" : "the"} ${n} is ${percent(Math.abs(found[n][0]))} too ${found[n][0] > 0 ? "large" : "small"}`).join(", ")}.`;
}
