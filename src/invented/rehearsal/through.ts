import { minimumPhase, throughBins } from "../../numerics/minimum-phase";
import { type Baseband, rehearsalRateHz, type SceneKind } from "./scene";

/** What a strip passes, as an answer draws it. */
export interface DrawnResponse {
  readonly frequencyHz: readonly number[];
  readonly levelDb: readonly number[];
}
const bins = 8192;
/** Lower than this no drawn response is believed. */
const lowestDb = -110;

/** Level of a drawn response at a frequency, dB: straight between its points, level beyond its ends. */
function levelAt({ frequencyHz: f, levelDb }: DrawnResponse, hz: number): number {
  if (hz <= f[0]) return levelDb[0];
  const last = f.length - 1;
  if (hz >= f[last]) return levelDb[last];
  const high = f.findIndex((x) => x > hz);
  const low = high - 1;
  return levelDb[low] + ((levelDb[high] - levelDb[low]) * (hz - f[low])) / (f[high] - f[low]);
}

/**
 * Middle of what is passed at -6 dB: where the set is tuned to.
 *
 * @param r as drawn
 * @returns Hz
 * @source definition
 */
export function middleOf(r: DrawnResponse): number {
  const top = Math.max(...r.levelDb);
  const within = r.frequencyHz.filter((_, i) => r.levelDb[i] >= top - 6);
  return (within[0] + within[within.length - 1]) / 2;
}

/**
 * A response as complex bins around the frequency that the set is tuned to, its peak at 1.
 *
 * @param r as drawn
 * @param tunedHz frequency in the strip that the carrier stands at
 * @returns bins over the rehearsal's rate, with the phase of a circuit without zeros on the right
 * @source see `minimumPhase`
 */
export function strip(r: DrawnResponse, tunedHz: number): Float64Array {
  const top = Math.max(...r.levelDb);
  return minimumPhase(
    Float64Array.from({ length: bins }, (_, k) => {
      const off = (k < bins / 2 ? k : k - bins) * (rehearsalRateHz / bins);
      return 10 ** (Math.max(lowestDb, levelAt(r, tunedHz + off) - top) / 20);
    }),
  );
}

export interface Detector {
  readonly kind: SceneKind;
  /** pitch that a carrier is heard at, Hz: CW; SSB is heard at its own pitch */
  readonly pitchHz: number;
  /** how fast AVC turns down and up again, s; none for manual gain */
  readonly avc: { readonly attackS: number; readonly decayS: number } | undefined;
  /** what the audio amplifier passes at -3 dB, Hz */
  readonly audio: { readonly lowHz: number; readonly highHz: number } | undefined;
}
const onePole = (hz: number): number => 1 - Math.exp((-2 * Math.PI * hz) / rehearsalRateHz);

/** AVC: the gain that brings the level to 1, in its own time. */
function level(z: Baseband, avc: NonNullable<Detector["avc"]>): Float64Array {
  const [up, down] = [avc.attackS, avc.decayS].map((s) => 1 - Math.exp(-1 / (s * rehearsalRateHz)));
  // it has been listening for a while already: no burst as the sound begins
  let mean = Math.sqrt(z.reduce((s, v) => s + v * v, 0) / (z.length / 2)) || 1e-6;
  return Float64Array.from({ length: z.length / 2 }, (_, i) => {
    const size = Math.hypot(z[2 * i], z[2 * i + 1]);
    mean += (size > mean ? up : down) * (size - mean);
    return 1 / Math.max(1e-6, mean);
  });
}

/**
 * What is heard of what arrives: strip, AVC, detector, audio amplifier.
 *
 * @param z what arrives
 * @param passes the strip
 * @param d detector with what follows it
 * @returns samples of sound
 * @source envelope detector for AM, product detector for SSB and CW; one pole each for the ends of the audio
 */
export function heard(z: Baseband, passes: Float64Array, d: Detector): Float64Array {
  const y = throughBins(z, passes);
  const gain = d.avc ? level(y, d.avc) : undefined;
  const out = new Float64Array(y.length / 2);
  for (let i = 0; i < out.length; i++) {
    const g = gain ? gain[i] : 1;
    const [re, im] = [y[2 * i], y[2 * i + 1]];
    if (d.kind === "am") out[i] = g * Math.hypot(re, im);
    else {
      const angle = d.kind === "cw" ? (2 * Math.PI * d.pitchHz * i) / rehearsalRateHz : 0;
      out[i] = g * (re * Math.cos(angle) - im * Math.sin(angle));
    }
  }
  return d.audio ? amplified(out, d.audio) : out;
}
function amplified(x: Float64Array, { lowHz, highHz }: NonNullable<Detector["audio"]>): Float64Array {
  const [low, high] = [onePole(lowHz), onePole(highHz)];
  let slow = x[0] ?? 0;
  let smooth = 0;
  return x.map((v) => {
    slow += low * (v - slow);
    smooth += high * (v - slow - smooth);
    return smooth;
  });
}
