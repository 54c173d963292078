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

/** What follows the strip, sample by sample: AVC, detector, the audio's ends. It goes on where it was. */
export class Detecting {
  private readonly up: number;
  private readonly down: number;
  private readonly low: number;
  private readonly high: number;
  private slow: number | undefined;
  private smooth = 0;
  private count = 0;

  /**
   * @param d detector with what follows it
   * @param mean level that AVC has settled to already: no burst as the sound begins
   */
  constructor(
    private readonly d: Detector,
    private mean: number,
  ) {
    const share = (s: number | undefined): number => (s === undefined ? 0 : 1 - Math.exp(-1 / (s * rehearsalRateHz)));
    [this.up, this.down] = [share(d.avc?.attackS), share(d.avc?.decayS)];
    [this.low, this.high] = [onePole(d.audio?.lowHz ?? 0), onePole(d.audio?.highHz ?? 0)];
  }
  next(re: number, im: number): number {
    const { d } = this;
    const size = d.avc || d.kind === "am" ? Math.hypot(re, im) : 0;
    let gain = 1;
    if (d.avc) {
      this.mean += (size > this.mean ? this.up : this.down) * (size - this.mean);
      gain = 1 / Math.max(1e-6, this.mean);
    }
    const angle = d.kind === "cw" ? (2 * Math.PI * d.pitchHz * this.count) / rehearsalRateHz : 0;
    this.count++;
    const v = gain * (d.kind === "am" ? size : re * Math.cos(angle) - im * Math.sin(angle));
    if (!d.audio) return v;
    this.slow ??= v;
    this.slow += this.low * (v - this.slow);
    this.smooth += this.high * (v - this.slow - this.smooth);
    return this.smooth;
  }
}
/** Level that AVC settles to. */
export const restingLevel = (z: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < z.length; i++) sum += z[i] * z[i];
  return Math.sqrt(sum / Math.max(1, z.length / 2)) || 1e-6;
};

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
  const detecting = new Detecting(d, restingLevel(y));
  return Float64Array.from({ length: y.length / 2 }, (_, i) => detecting.next(y[2 * i], y[2 * i + 1]));
}
