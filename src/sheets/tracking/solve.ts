import type { Chance } from "../../ask/contract";
import { noneOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { partsHz } from "../../physics/oscillator-parts";
import { type OscillatorLaw, trackingErrorHz } from "../../physics/tracking";
import { absorbed, adjustment, perTurn } from "./adjust";
import { type Asked, ask, type Names } from "./ask";
import { blame, drawnOff } from "./blame";
import { acrossF, allRight, bandOf, lawOf, type Off, peakAtMark, sameLaw, sideOf, type Tracked, tracked } from "./circuit";
import { blameSignal } from "./signal";

type Values<N extends Names> = Record<N, number | NoValue>;

const allNames = Object.keys(ask.results) as Names[];
const noReadings = "no dial error was read";
const noParts = "no positive parts make this curve on this gang";
const unexplainedWhy = "no setting of the parts meets these readings within their noise";
const noPadder: NoValue = { none: "there is none" };

type Curves = Readonly<Record<"error" | "loss" | "coilMore" | "trimmerMore" | "padderMore" | "straysMore", Float64Array>>;
/** The law and what it says at each point of the curves; it feels neither gang nor Q. */
interface Along {
  readonly law: OscillatorLaw;
  readonly errorHz: Float64Array;
  readonly peakHz: Float64Array;
}
function alongOf(x: Asked, axis: Float64Array): Along | undefined {
  const law = lawOf(x);
  if (!law) return undefined;
  const band = bandOf(x);
  return { law, errorHz: axis.map((f) => trackingErrorHz(band, law, f)), peakHz: axis.map(peakAtMark(x, law)) };
}
/** The design's own error and its cost; curves are filled. */
function designOf(x: Asked, { errorHz }: Along, axis: Float64Array, into: Curves): Values<"worst" | "worstLoss"> {
  into.error.set(errorHz);
  let worst = 0;
  let worstRatio = 0;
  for (let i = 0; i < axis.length; i++) {
    const ratio = 1 + ((2 * x.signalQ * errorHz[i]) / axis[i]) ** 2;
    into.loss[i] = 10 * Math.log10(ratio);
    worst = Math.max(worst, Math.abs(errorHz[i]));
    worstRatio = Math.max(worstRatio, ratio);
  }
  return { worst, worstLoss: 10 * Math.log10(worstRatio) };
}
/** A part that is larger by so much, for the curves and the table of what that does. */
export const larger = {
  coil: { ...allRight, coil: 0.01 },
  trimmer: { ...allRight, trimmer: 0.05 },
  padder: { ...allRight, padder: 0.02 },
  strays: { ...allRight, gangF: [1e-12, 0, 0] },
} as const satisfies Record<string, Off>;
const effects = ["coilMore", "trimmerMore", "padderMore", "straysMore"] as const;
/** What each part that is too large does; curves are filled, with nothing where there are no parts. */
function effectsOf(x: Asked, t: Tracked, { peakHz }: Along, axis: Float64Array, into: Curves): void {
  const { parts } = t;
  if (!parts) {
    for (const curve of effects) into[curve].fill(Number.NaN);
    return;
  }
  const aside = sideOf(x) * x.intermediate;
  const coil = { ...parts, henry: parts.henry * (1 + larger.coil.coil) };
  const trimmer = { ...parts, trimmerF: parts.trimmerF * (1 + larger.trimmer.trimmer) };
  const padder = { ...parts, padderF: parts.padderF * (1 + larger.padder.padder) };
  for (let i = 0; i < axis.length; i++) {
    const gangF = t.gangAtF(peakHz[i]);
    const wanted = axis[i] + aside;
    into.coilMore[i] = partsHz(coil, gangF) - wanted;
    into.trimmerMore[i] = partsHz(trimmer, gangF) - wanted;
    into.padderMore[i] = partsHz(padder, gangF) - wanted;
    into.straysMore[i] = partsHz(parts, gangF + larger.strays.gangF[0]) - wanted;
  }
}

const offNames = ["coilOff", "trimmerOff", "padderOff", "acrossOff"] as const;
const nextNames = ["slugBy", "trimmerBy", "afterwards", "slugTurns", "trimmerTurns"] as const;
/** What is off, and the next adjustment. */
function offAndNext(x: Asked, t: Tracked, xi: ArrayLike<number>): Values<(typeof offNames)[number] | (typeof nextNames)[number] | "left"> {
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
function nextOf(x: Asked, t: Tracked, now: Off): Values<(typeof nextNames)[number]> {
  const a = adjustment(x, t, now);
  if (!a) return noneOf(nextNames, "no setting brings both marks right");
  const turns = (by: number, what: 0 | 1): number | NoValue => {
    const each = perTurn(x, t, now, what);
    return each === undefined || each === 0
      ? { none: `no trial turn of the ${ask.inputs.trials.columns.what.options[what]} is recorded` }
      : by / each;
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
function signalOf(x: Asked, t: Tracked, xi: ArrayLike<number>): Values<"signalCoilOff" | "signalTrimmerOff"> {
  const s = blameSignal(x, t);
  if (!s) return noneOf(["signalCoilOff", "signalTrimmerOff"], "no peak of the signal circuit was read");
  const f = s.factor;
  return { signalCoilOff: s.coil + f[0] * xi[0], signalTrimmerOff: s.trimmer + f[2] * xi[0] + f[3] * xi[1] };
}
/** What an IF that was moved does to the dial, and what takes it up. */
function movedOf(x: Asked, t: Tracked): Values<"dialShift" | "shiftSlug" | "shiftTrimmer" | "shiftLeft"> {
  if (x.ifMoved === 0) return noneOf(["dialShift", "shiftSlug", "shiftTrimmer", "shiftLeft"], "the IF was not moved");
  const a = absorbed(x, t);
  const dialShift = -sideOf(x) * x.ifMoved;
  return a
    ? { dialShift, shiftSlug: a.slugShare, shiftTrimmer: a.trimmerF, shiftLeft: a.leftHz }
    : { dialShift, ...noneOf(["shiftSlug", "shiftTrimmer", "shiftLeft"], "no setting makes up for it") };
}

/** Standard normals that the readings' doubts are drawn with: six amounts of the oscillator, two of the signal circuit. */
const [oscillatorAmounts, signalAmounts] = [6, 2];
/**
 * Everything that is told, of one draw after another.
 *
 * @param best inputs, SI, whose choices and readings hold for every draw
 * @param axis frequencies of the curves, Hz
 * @param chance standard normals of a name, one for each draw, and which curves are wanted
 * @returns of a draw (-1 at the best values): results, SI and dB; fills the curves
 * @source the circuit; least squares about it
 */
export function trackingSolver(best: Asked, axis: Float64Array, { stream, wanted }: Pick<Chance, "stream" | "wanted">) {
  // the search for the best points is the longest part of it, and what is drawn seldom touches it
  const usual = alongOf(best, axis);
  // the inputs are drawn in place
  const asked = { ...best };
  const streams = Array.from({ length: oscillatorAmounts + signalAmounts }, (_, i) => stream(`share ${i}`));
  const xi = new Float64Array(oscillatorAmounts + signalAmounts);
  const [xiOscillator, xiSignal] = [xi.subarray(0, oscillatorAmounts), xi.subarray(oscillatorAmounts)];
  return (x: Asked, into: Curves, draw: number): Values<Names> => {
    const along = sameLaw(x, asked) ? usual : alongOf(x, axis);
    const t = along && tracked(x, along.law);
    if (!along || !t) {
      for (const a of Object.values(into)) a.fill(Number.NaN);
      return noneOf(allNames, "the oscillator can't follow this band with one padder");
    }
    // what the readings leave open moves the parts together
    for (let i = 0; i < xi.length; i++) xi[i] = draw < 0 ? 0 : streams[i][draw];
    if (effects.some((curve) => wanted(curve, draw))) effectsOf(x, t, along, axis, into);
    const or = (v: number | undefined): number | NoValue => v ?? { none: noParts };
    return {
      ...designOf(x, along, axis, into),
      coil: or(t.parts?.henry),
      trimmer: or(t.parts?.trimmerF),
      padder: t.parts?.layout === "no padder" ? noPadder : or(t.parts?.padderF),
      signalCoil: t.signal.henry,
      ...offAndNext(x, t, xiOscillator),
      ...signalOf(x, t, xiSignal),
      ...movedOf(x, t),
    };
  };
}
