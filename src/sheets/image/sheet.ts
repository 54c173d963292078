import { circuitsRejectionDb, halfIfHz, imageHz } from "../../physics/images";
import { printValue } from "../../units/print";
import { type Finding, type GroundOn, sheet } from "../contract";
import { choice, inside, practice, quantity, rows } from "../declare";
import { intermediateInput, oscillatorInput } from "../dial-inputs";
import theory from "./theory.md";

const ways = ["image", "IF", "half IF"] as const;
const secondPlaces = ["not tried", "two IF lower", "two IF higher", "louder there than on its mark"] as const;
interface Inputs {
  readonly oscillator: "above" | "below";
  readonly secondPlace: (typeof secondPlaces)[number];
  readonly readings: readonly { readonly signal: number; readonly way: number; readonly rejection: number }[];
  readonly signal: number;
  readonly intermediate: number;
  readonly circuits: number;
  readonly signalQ: number;
  readonly strays: number;
}
type Names = "imageAt" | "imageRejection" | "ifRejection" | "halfIfAt" | "halfIfRejection" | "heardAt";
type G = GroundOn<Inputs, Names>;
/** Second place on the dial for a signal, Hz; undefined where there is none. */
const secondAt = (x: Inputs): number | undefined => {
  const at = x.signal + (x.oscillator === "above" ? -2 : 2) * x.intermediate;
  return at > 0 ? at : undefined;
};
const hz = (v: number): string => printValue(v, "frequency", Math.max(500, Math.abs(v) * 1e-4));
/** What the circuits leave, no further down than what finds a way round them. */
const limited = (db: number, strays: number): number => -10 * Math.log10(10 ** (-db / 10) + 10 ** (-strays / 10));
const atWay = (x: Inputs, signal: number, way: number): number =>
  way === 0
    ? imageHz(signal, x.intermediate, x.oscillator)
    : way === 1
      ? x.intermediate
      : Math.abs(halfIfHz(signal, x.intermediate, x.oscillator));
/** What the circuits alone leave, dB; NaN where the oscillator would have to run on nothing or less. */
const alone = (x: Inputs, signal: number, way: number): number =>
  x.oscillator === "below" && signal <= x.intermediate
    ? Number.NaN
    : circuitsRejectionDb(x.circuits, x.signalQ, signal, Math.max(1, atWay(x, signal, way)));
const leaves = (x: Inputs, signal: number, way: number): number => limited(alone(x, signal, way), x.strays);

export const image = sheet({
  id: "image",
  version: 1,
  title: "Images",
  question: "Where else is a signal heard, how far down, and is the oscillator on its side?",
  subject: "band",
  joins: false,
  works: "panel",
  reads: "panel",
  steps: ["25", "33c"],
  inputs: {
    oscillator: oscillatorInput,
    secondPlace: choice(
      secondPlaces,
      "second place on the dial where a strong generator on a known mark is heard",
      "strong generator on a dial mark of this band; note its own mark, then look two IF to both sides for the weaker place",
    ),
    readings: rows(
      {
        signal: { dimension: "frequency", meaning: "where the set is tuned" },
        way: { options: ways, meaning: "what was rejected" },
        rejection: { dimension: "decibel", bare: "dB", meaning: "how much more generator it takes for the same output" },
      },
      "rejection as measured",
      "generator on the signal, then on the other frequency, turned up to the same output; AVC off or the detector's volts held",
    ),
    signal: quantity("frequency", "where the set is tuned", "the dial", [3.75e6, 0, "an example"], {
      max: 200e6,
      from: (b) => {
        const high = b.quantity(`${b.at}.high`);
        return b.quantity(`${b.at}.signal`) ?? (high && { ...high, source: "top of the band, where it is worst" });
      },
    }),
    intermediate: intermediateInput,
    circuits: quantity(
      "ratio",
      "tuned circuits between antenna and mixer grid",
      "service sheet: sections of the gang but the oscillator's",
      [2, 0, practice],
      {
        min: 0,
        max: 6,
      },
    ),
    signalQ: quantity("ratio", "loaded Q of each of them", "width of its peak", [60, 20, practice], { max: 1000 }),
    strays: quantity(
      "decibel",
      "what goes round the circuits, down by",
      "rejection that no tuning betters",
      [70, 10, `one chassis seldom does better, ${practice}`],
      {
        max: 140,
      },
    ),
  },
  first: ["signal", "circuits", "signalQ"],
  results: {
    imageAt: { dimension: "frequency", meaning: "image of that signal", known: 500 },
    imageRejection: { dimension: "decibel", meaning: "image rejection", known: 0.5 },
    ifRejection: {
      dimension: "decibel",
      meaning: "rejection of a signal on the IF itself, mostly what goes round the circuits",
      known: 0.5,
    },
    halfIfAt: { dimension: "frequency", meaning: "signal heard through its second harmonic (half IF)", known: 500 },
    halfIfRejection: { dimension: "decibel", meaning: "what the circuits alone leave of that", known: 0.5 },
    heardAt: { dimension: "frequency", meaning: "second place on the dial where a strong signal on that frequency is heard", known: 500 },
  },
  key: ["imageRejection", "imageAt", "ifRejection"],
  curves: {
    image: { x: "frequency", y: "decibel", meaning: "image rejection over the band" },
    ownIf: { x: "frequency", y: "decibel", meaning: "IF rejection over the band" },
  },
  prepare: (best) => {
    const b = best as unknown as Inputs;
    const axis = Float64Array.from({ length: 61 }, (_, i) => b.signal * 0.33 ** (1 - i / 60));
    const blank = { axes: { image: new Float64Array(1), ownIf: new Float64Array(1) }, solve: () => ({}) as never };
    const issue = (path: string, code: string, read: string, expected: string) => ({ ...blank, issues: [{ path, code, read, expected }] });
    if (Math.abs(b.signal / b.intermediate - 1) < 1e-3)
      return issue("signal", "on-the-if", hz(b.signal), "a frequency off the IF: on it the set would receive its own IF");
    if (b.oscillator === "below" && b.signal <= b.intermediate)
      return issue("oscillator", "through-nothing", "below", `above, since ${hz(b.signal)} less the IF is nothing or less`);
    if (b.oscillator === "below" && Math.abs(b.signal / (2 * b.intermediate) - 1) < 1e-3)
      return issue("oscillator", "oscillator-on-the-if", "below", "above: below it would run on the IF itself at this place");
    const off = b.readings.findIndex((r) => !(r.signal > 0) || Math.abs(r.rejection) > 150);
    if (off >= 0) return issue(`readings row ${off + 1}`, "out-of-range", String(b.readings[off].rejection), "-150 dB to 150 dB");
    return {
      axes: { image: axis, ownIf: axis },
      solve: (plain, into) => {
        const x = plain as unknown as Inputs;
        for (let i = 0; i < axis.length; i++) {
          into.image[i] = leaves(x, axis[i], 0);
          into.ownIf[i] = leaves(x, axis[i], 1);
        }
        return {
          imageAt: imageHz(x.signal, x.intermediate, x.oscillator),
          imageRejection: leaves(x, x.signal, 0),
          ifRejection: leaves(x, x.signal, 1),
          halfIfAt: halfIfHz(x.signal, x.intermediate, x.oscillator),
          halfIfRejection: alone(x, x.signal, 2),
          heardAt: secondAt(x) ?? { none: "there is no second place on the dial for it: two IF lower is nothing or less" },
        };
      },
    };
  },
  headline: (ground) => {
    const g = ground as unknown as G;
    const read = g.best.readings.find((r) => r.way === 0 && Math.abs(r.signal / g.best.signal - 1) < 0.02);
    if (read)
      return `Measured at ${hz(read.signal)}: the image is ${read.rejection.toFixed(0)} dB down, where these circuits give ${leaves(g.best, read.signal, 0).toFixed(0)} dB.`;
    return `Tuned to ${hz(g.best.signal)} the set hears ${g.about("imageAt")} too, ${g.about("imageRejection")} down; ${secondAt(g.best) === undefined ? "a strong signal has no second place here." : `a strong signal on ${hz(g.best.signal)} itself comes in again with the dial at ${g.about("heardAt")}.`}`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const x = g.best;
    const out: Finding[] = [];
    const away = x.oscillator === "above" ? "two IF lower" : "two IF higher";
    if (x.secondPlace === "louder there than on its mark")
      out.push({
        id: "image-circuits-on-image",
        severity: "act",
        says: "The generator is louder at its second place than on its own mark: the signal circuits are peaked on the image.",
        do: "Leave the oscillator. Peak the signal circuits on the mark itself, from the other end of their travel, with a weak signal and the tuning rocked; then try once more.",
        restsOn: ["imageRejection"],
        hazards: inside,
      });
    else if (x.secondPlace !== "not tried" && x.secondPlace !== away)
      out.push({
        id: "image-wrong-side",
        severity: "act",
        says: `The second place lies ${x.secondPlace}: the oscillator runs ${x.oscillator === "above" ? "below" : "above"} the signal here, on the wrong side.`,
        do: `Of the two settings of the oscillator trimmer that bring the signal in take the one with ${x.oscillator === "above" ? "less" : "more"} capacitance; then peak the signal circuits again and try once more. No other adjustment converges before that.`,
        restsOn: ["heardAt"],
        hazards: inside,
      });
    for (const [i, r] of x.readings.entries()) {
      const short = g.verdict((y) => r.rejection < leaves(y, r.signal, r.way) - 6);
      const over = g.verdict((y) => r.rejection > leaves(y, r.signal, r.way) + 6);
      const name = `${r.way === 0 ? "Image" : r.way === 1 ? "IF" : "Half-IF"} rejection at ${hz(r.signal)} is ${r.rejection.toFixed(0)} dB; the circuits give ${leaves(x, r.signal, r.way).toFixed(0)} dB`;
      if (r.rejection < 0)
        out.push({
          id: `image-reading-${i + 1}-negative`,
          severity: "act",
          says: `${name}. The set is better on the wrong frequency than on its own: the signal circuits are peaked there.`,
          do: "Leave the oscillator. Peak the signal circuits on the signal itself, from the other end of their travel, and measure again.",
          restsOn: ["imageRejection"],
          hazards: inside,
        });
      else if (short !== "no")
        out.push({
          id: `image-reading-${i + 1}-short-${short}`,
          severity: "check",
          says: `${name}: ${short === "yes" ? "more than 6 dB short" : "perhaps short"}.`,
          do: "Peak the signal circuits at this place with a weak signal and rock the tuning; a circuit without a peak has lost Q (a leak, shorted turns, a corroded band switch). Then look for a way round them: an unshielded lead, an open chassis bottom.",
          restsOn: ["imageRejection"],
          hazards: inside,
        });
      else
        out.push({
          id: `image-reading-${i + 1}-as-built`,
          severity: "note",
          says: `${name}: ${over === "yes" ? "better than these circuits can do: look at the readings once more, and whether the oscillator is on its side, since then the image lies on the other" : "as its circuits give, within 6 dB"}.`,
          restsOn: ["imageRejection"],
          hazards: ["none"],
        });
    }
    if (x.secondPlace === "not tried")
      out.push({
        id: "image-try-the-side",
        severity: "check",
        says: "Which side the oscillator is on has not been tried on this band. Its own mark is the louder place either way: the weaker one tells.",
        do: `With a strong generator on a mark, look for its second, weaker place ${hz(2 * x.intermediate)} to both sides: it must lie ${x.oscillator === "above" ? "lower" : "higher"} on the dial.${(secondAt(x) ?? 0) > 0 ? "" : " On so low a mark there is none: use a higher one."}`,
        restsOn: ["heardAt"],
        hazards: inside,
      });
    return out as never;
  },
  tables: (best) => {
    const x = best as unknown as Inputs;
    return [
      {
        id: "ways",
        title: "Rejection over the band, as these circuits give it",
        columns: [
          { name: "tuned to", dimension: "frequency" },
          { name: "image at", dimension: "frequency", u: 500 },
          { name: "image", dimension: "decibel", u: 0.5 },
          { name: "IF", dimension: "decibel", u: 0.5 },
          { name: "half IF at", dimension: "frequency", u: 500 },
          { name: "its circuits alone", dimension: "decibel", u: 0.5 },
        ],
        rows: [0.4, 0.6, 0.8, 1].map((k) => {
          const f = Number((k * x.signal).toPrecision(3));
          return [f, atWay(x, f, 0), leaves(x, f, 0), leaves(x, f, 1), atWay(x, f, 2), alone(x, f, 2)];
        }),
      },
    ];
  },
  figures: [
    {
      id: "rejection",
      title: "What the signal circuits reject, over the band",
      xLabel: "tuned to",
      yLabel: "rejection",
      traces: [
        { label: "image", curve: "image", stroke: "accent", band: true },
        { label: "IF", curve: "ownIf", stroke: "ink", band: true },
      ],
      yFrom: 0,
    },
  ],
  theory,
});
