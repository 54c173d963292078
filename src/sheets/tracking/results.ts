import { noneOf } from "../../ask/declare";
import type { NoValue, Result } from "../../ask/results";
import { trackingErrorHz } from "../../physics/tracking";
import { absorbed, adjustment, perTurn } from "./adjust";
import { blame, blameSignal, drawnOff } from "./blame";
import { acrossF, allRight, bandOf, type Off, oscillatorHz, sideOf, type Tracked } from "./circuit";
import { type TrackingInputs, trialOf } from "./inputs";

/** Readings of a share or a frequency are known to this at best. */
const shareKnown = { dimension: "fraction", known: 1e-3 } as const;
const hzKnown = { dimension: "frequency", known: 10 } as const;
export const trackingResults = {
  worst: { ...hzKnown, meaning: "worst error of the oscillator against the signal circuit over the band, all parts right" },
  worstLoss: { dimension: "decibel", meaning: "loss in the signal circuit by the worst tracking error, at the worst place", known: 0.1 },
  coil: { dimension: "inductance", meaning: "oscillator coil" },
  trimmer: { dimension: "capacitance", meaning: "oscillator trimmer, strays included" },
  padder: { dimension: "capacitance", meaning: "oscillator padder" },
  signalCoil: { dimension: "inductance", meaning: "signal coil on the same gang" },
  coilOff: { ...shareKnown, meaning: "oscillator coil over what it should be, less one" },
  trimmerOff: { ...shareKnown, meaning: "oscillator trimmer over what it should be, less one, the gang's own capacitance uncertain" },
  padderOff: { ...shareKnown, meaning: "oscillator padder over what it should be, less one" },
  acrossOff: { dimension: "capacitance", known: 0.1e-12, meaning: "too much across the gang in all: trimmer, strays and the gang's own" },
  left: { dimension: "frequency", known: 300, meaning: "worst reading error that coil, trimmer and padder leave unexplained" },
  signalCoilOff: { ...shareKnown, meaning: "signal coil over what it should be, less one" },
  signalTrimmerOff: {
    ...shareKnown,
    meaning: "signal trimmer, with what its section of the gang has too much, over what it should be, less one",
  },
  slugBy: { ...shareKnown, meaning: "next adjustment of the slug: change of the coil's inductance" },
  trimmerBy: { dimension: "capacitance", known: 0.1e-12, meaning: "next adjustment of the trimmer, together with the slug's" },
  afterwards: { dimension: "frequency", known: 100, meaning: "worst dial error on the band after the next adjustment" },
  slugTurns: { dimension: "ratio", known: 0.01, meaning: "turns of the slug for the next adjustment, clockwise positive" },
  trimmerTurns: { dimension: "ratio", known: 0.01, meaning: "turns of the trimmer for the next adjustment, clockwise positive" },
  dialShift: { ...hzKnown, meaning: "by how much the moved IF alone shifts what every mark receives" },
  shiftSlug: { ...shareKnown, meaning: "change of the coil that makes up for the moved IF" },
  shiftTrimmer: {
    dimension: "capacitance",
    known: 0.1e-12,
    meaning: "change of the trimmer that makes up for the moved IF, together with the coil's",
  },
  shiftLeft: { ...hzKnown, meaning: "worst error on the band with the moved IF made up for" },
} as const satisfies Record<string, Result>;
export type TrackingNames = keyof typeof trackingResults;
type Values<N extends TrackingNames> = Record<N, number | NoValue>;

const noReadings = "no dial error was read";
const noParts = "no positive parts make this curve on this gang";
export const unexplainedWhy = "no setting of the parts meets these readings within their noise";
const noPadder: NoValue = { none: "there is none" };

type Curves = Readonly<Record<"error" | "loss" | "coilMore" | "trimmerMore" | "padderMore" | "straysMore", Float64Array>>;
/** The design's own error and its cost, and what each part that is too large does; curves are filled. */
function designOf(x: TrackingInputs, t: Tracked, axis: Float64Array, into: Curves): Values<"worst" | "worstLoss"> {
  const band = bandOf(x);
  let [worst, worstLoss] = [0, 0];
  for (let i = 0; i < axis.length; i++) {
    const e = trackingErrorHz(band, t.law, axis[i]);
    const loss = 10 * Math.log10(1 + ((2 * x.signalQ * e) / axis[i]) ** 2);
    into.error[i] = e;
    into.loss[i] = loss;
    worst = Math.max(worst, Math.abs(e));
    worstLoss = Math.max(worstLoss, loss);
    into.coilMore[i] = receivedLessDial(x, t, axis[i], { ...allRight, coil: 0.01 });
    into.trimmerMore[i] = receivedLessDial(x, t, axis[i], { ...allRight, trimmer: 0.05 });
    into.padderMore[i] = receivedLessDial(x, t, axis[i], { ...allRight, padder: 0.02 });
    into.straysMore[i] = receivedLessDial(x, t, axis[i], { ...allRight, gangF: [1e-12, 0, 0] });
  }
  return { worst, worstLoss };
}
/** What is received where the dial says f, less f, Hz; NaN without parts. */
export const receivedLessDial = (x: TrackingInputs, t: Tracked, f: number, off: Off): number =>
  t.parts ? oscillatorHz(t, t.parts, f, off) - sideOf(x) * x.intermediate - f : Number.NaN;

const offNames = ["coilOff", "trimmerOff", "padderOff", "acrossOff"] as const;
const nextNames = ["slugBy", "trimmerBy", "afterwards", "slugTurns", "trimmerTurns"] as const;
/** What is off, and the next adjustment. */
function offAndNext(
  x: TrackingInputs,
  t: Tracked,
  xi: readonly number[],
): Values<(typeof offNames)[number] | (typeof nextNames)[number] | "left"> {
  const found = blame(x, t);
  if (!found || !t.parts) return noneOf([...offNames, ...nextNames, "left"], t.parts ? noReadings : noParts);
  if (!found.explained) return { ...noneOf([...offNames, ...nextNames], unexplainedWhy), left: found.leftHz };
  const now = drawnOff(found, xi);
  return {
    coilOff: now.coil,
    trimmerOff: now.trimmer,
    padderOff: t.parts.layout === "no padder" ? noPadder : now.padder,
    acrossOff: acrossF(x, t, t.parts, now),
    left: found.leftHz,
    ...nextOf(x, t, now),
  };
}
function nextOf(x: TrackingInputs, t: Tracked, now: Off): Values<(typeof nextNames)[number]> {
  const a = adjustment(x, t, now);
  if (!a) return noneOf(nextNames, "no setting brings both marks right");
  const turns = (by: number, what: 0 | 1): number | NoValue => {
    const each = perTurn(x, t, now, what);
    return each === undefined || each === 0 ? { none: `no trial turn of the ${trialOf[what]} is recorded` } : by / each;
  };
  return {
    slugBy: a.slugShare,
    trimmerBy: a.trimmerF,
    afterwards: a.leftHz,
    slugTurns: turns(a.slugShare * (1 + now.coil), 0),
    trimmerTurns: turns(a.trimmerF, 1),
  };
}
/** What is off in the signal circuit. */
function signalOf(x: TrackingInputs, t: Tracked, xi: readonly number[]): Values<"signalCoilOff" | "signalTrimmerOff"> {
  const s = blameSignal(x, t);
  if (!s) return noneOf(["signalCoilOff", "signalTrimmerOff"], "no peak of the signal circuit was read");
  const f = s.factor;
  return { signalCoilOff: s.coil + f[0] * xi[0], signalTrimmerOff: s.trimmer + f[2] * xi[0] + f[3] * xi[1] };
}
/** What an IF that was moved does to the dial, and what takes it up. */
function movedOf(x: TrackingInputs, t: Tracked): Values<"dialShift" | "shiftSlug" | "shiftTrimmer" | "shiftLeft"> {
  if (x.ifMoved === 0) return noneOf(["dialShift", "shiftSlug", "shiftTrimmer", "shiftLeft"], "the IF was not moved");
  const a = absorbed(x, t);
  const dialShift = -sideOf(x) * x.ifMoved;
  return a
    ? { dialShift, shiftSlug: a.slugShare, shiftTrimmer: a.trimmerF, shiftLeft: a.leftHz }
    : { dialShift, ...noneOf(["shiftSlug", "shiftTrimmer", "shiftLeft"], "no setting makes up for it") };
}

/** Standard normals that the readings' doubts are drawn with: six amounts of the oscillator, two of the signal circuit. */
export const streamCount = 8;
/**
 * Everything that the sheet tells, of one draw.
 *
 * @param x inputs, SI
 * @param t the circuit as designed
 * @param axis frequencies of the curves, Hz
 * @param into curves to fill
 * @param xi standard normals, `streamCount` of them; all 0 at the best values
 * @returns results, SI and dB
 * @source the circuit; least squares about it
 */
export function trackingAt(x: TrackingInputs, t: Tracked, axis: Float64Array, into: Curves, xi: readonly number[]): Values<TrackingNames> {
  const or = (v: number | undefined): number | NoValue => v ?? { none: noParts };
  return {
    ...designOf(x, t, axis, into),
    coil: or(t.parts?.henry),
    trimmer: or(t.parts?.trimmerF),
    padder: t.parts?.layout === "no padder" ? noPadder : or(t.parts?.padderF),
    signalCoil: t.signal.henry,
    ...offAndNext(x, t, xi.slice(0, 6)),
    ...signalOf(x, t, xi.slice(6)),
    ...movedOf(x, t),
  };
}
