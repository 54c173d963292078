import { type Halved, halved } from "../../numerics/halving";
import { bad, good, type Read } from "../../units/issue";
import type { Block, Sound } from "./sound";

/** How a band was recorded: I and Q on two channels (left and right, or the other way round), or one channel at an intermediate frequency. */
export const recordedAs = ["iq", "qi", "if"] as const;
export interface BandHow {
  readonly as: (typeof recordedAs)[number];
  /** where in the recording the wanted station stands, Hz; of I and Q below 0 as well */
  readonly centreHz: number;
  readonly fromS: number;
  readonly secondsCount: number;
}
const tau = 2 * Math.PI;
/** Kept to either side of the centre, and gone beyond the second, as shares of the rate that comes out. */
const passShare = 11 / 24;
const stopShare = 0.5;
/** Points of the kernel to one sample that comes in. */
const fine = 256;
/** Shorter than this there is nothing to listen to, s. */
const shortestS = 1;
/** Quieter than this there is nothing, re full scale. */
const silence = 3e-5;

/** Sinc with Kaiser's window, half of it, in steps of a `fine`-th of a sample. */
function kernel(cut: number, halfTaps: number): Float64Array {
  const window = (x: number): number => {
    let [sum, term] = [1, 1];
    for (let k = 1; k < 40; k++) {
      term *= (x / (2 * k)) ** 2;
      sum += term;
    }
    return sum;
  };
  const beta = 7.857;
  return Float64Array.from({ length: halfTaps * fine + 2 }, (_, i) => {
    const t = i / fine;
    const part = Math.min(1, t / halfTaps);
    const sinc = t === 0 ? 2 * cut : Math.sin(tau * cut * t) / (Math.PI * t);
    return (sinc * window(beta * Math.sqrt(1 - part * part))) / window(beta);
  });
}
/** One part of a complex sound at another rate. */
function resampled(x: Float64Array, rateHz: number, toHz: number): Float64Array {
  // what comes slower than it goes out has nothing beyond its own half
  const [pass, stop] = rateHz > toHz ? [passShare * toHz, stopShare * toHz] : [0.44 * rateHz, 0.5 * rateHz];
  const halfTaps = Math.ceil((80 - 7.95) / (14.36 * ((stop - pass) / rateHz)) / 2);
  const taps = kernel((pass + stop) / 2 / rateHz, halfTaps);
  const step = rateHz / toHz;
  return Float64Array.from({ length: Math.floor(x.length / step) }, (_, n) => {
    const at = n * step;
    const first = Math.max(0, Math.ceil(at - halfTaps));
    const last = Math.min(x.length - 1, Math.floor(at + halfTaps));
    let sum = 0;
    for (let k = first; k <= last; k++) {
      const place = Math.abs(at - k) * fine;
      const low = Math.floor(place);
      sum += x[k] * (taps[low] + (place - low) * (taps[low + 1] - taps[low]));
    }
    return sum;
  });
}

/** Brings a band down to zero, piece by piece, at the lowest rate that halving gives. */
class Down {
  private readonly re: Halved;
  private readonly im: Halved;
  private readonly parts: (readonly [re: Float64Array, im: Float64Array])[] = [];
  private count = 0;
  constructor(
    private readonly rateHz: number,
    private readonly how: BandHow,
    toHz: number,
  ) {
    [this.re, this.im] = [0, 1].map(() => halved(rateHz, Math.min(stopShare * toHz, 0.24 * rateHz), 2 * toHz)) as [Halved, Halved];
  }
  get rate(): number {
    return this.re.rateHz;
  }
  /** false once there is enough */
  push(block: Block): boolean {
    const { as, centreHz, fromS, secondsCount } = this.how;
    const [i, q] = as === "if" ? [block[0], undefined] : as === "iq" ? [block[0], block[1]] : [block[1], block[0]];
    const from = Math.max(0, Math.round(fromS * this.rateHz) - this.count);
    const to = Math.min(i.length, Math.round((fromS + secondsCount) * this.rateHz) - this.count);
    if (to > from) {
      const [re, im] = [new Float64Array(to - from), new Float64Array(to - from)];
      for (let k = from; k < to; k++) {
        const angle = (-tau * centreHz * (this.count + k)) / this.rateHz;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const [x, y] = [i[k], q?.[k] ?? 0];
        re[k - from] = x * c - y * s;
        im[k - from] = x * s + y * c;
      }
      this.parts.push([this.re.push(re).slice(), this.im.push(im).slice()]);
    }
    this.count += i.length;
    return to === i.length;
  }
  of(part: 0 | 1): Float64Array {
    const out = new Float64Array(this.parts.reduce((n, p) => n + p[part].length, 0));
    let at = 0;
    for (const p of this.parts) {
      out.set(p[part], at);
      at += p[part].length;
    }
    return out;
  }
}

/**
 * A band as it was recorded, around the frequency that a set would be tuned to.
 *
 * @param sound opened
 * @param name its name, for the errors
 * @param how it was recorded, and which stretch of it is wanted
 * @param toHz rate that comes out
 * @returns complex samples, real and imaginary parts by turns, rms 1; an issue where the band is not in it, or nothing is
 * @source mixing to zero and band-limited interpolation by a windowed sinc, textbook; 80 dB down where it would fold
 */
export async function bandOf(sound: Sound, name: string, how: BandHow, toHz: number): Promise<Read<Float64Array>> {
  const { sampleRateHz: rate, channelsCount } = sound;
  const half = rate / 2;
  const { as, centreHz } = how;
  if (as !== "if" && channelsCount !== 2)
    return bad(
      "--recorded-as",
      "one-channel",
      `${channelsCount} channels`,
      "two channels for I and Q; if for a recording at an intermediate frequency",
    );
  if (!(as === "if" ? centreHz > 0 && centreHz < half : Math.abs(centreHz) < half))
    return bad(
      "--centre",
      "out-of-range",
      `${centreHz} Hz`,
      `${as === "if" ? "above 0" : `from -${half}`} to ${half} Hz, half of its sample rate`,
    );
  const down = new Down(rate, how, toHz);
  for await (const block of sound.blocks()) if (!down.push(block)) break;
  const [re, im] = [0, 1].map((p) => resampled(down.of(p === 0 ? 0 : 1), down.rate, toHz));
  if (re.length < shortestS * toHz)
    return bad(name, "too-short", `${(re.length / toHz).toFixed(1)} s of it from ${how.fromS} s on`, `at least ${shortestS} s`);
  const rms = Math.sqrt(re.reduce((s, v, k) => s + v * v + im[k] * im[k], 0) / re.length);
  if (!(rms > silence))
    return bad(name, "silence", `${centreHz} Hz`, "a station there: is that the frequency in the recording at which it stands?");
  const out = new Float64Array(2 * re.length);
  for (let k = 0; k < re.length; k++) {
    out[2 * k] = re[k] / rms;
    out[2 * k + 1] = im[k] / rms;
  }
  return good(out);
}
