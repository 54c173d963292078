import { normalStream, uniformStream } from "../../numerics/random";

/** Rate of everything that is rehearsed, Hz: 12 kHz to either side of the frequency that the set is tuned to. */
export const rehearsalRateHz = 24_000;
const tau = 2 * Math.PI;

/** What comes in beside the wanted station: so far off, so strong against it. */
export interface Beside {
  readonly offHz: number;
  /** against the wanted carrier, dB */
  readonly levelDb: number;
}
export const sceneKinds = ["am", "ssb", "cw"] as const;
export type SceneKind = (typeof sceneKinds)[number];
/** What the set is tuned to and what else is on the air. Each level is the person's to set. */
export interface Scene {
  readonly kind: SceneKind;
  readonly seconds: number;
  /** neighbours of the same kind */
  readonly neighbours: readonly Beside[];
  /** plain carriers, each a whistle on AM */
  readonly carriers: readonly Beside[];
  /** noise in 6 kHz, dB under the wanted carrier (its peak, for SSB and CW) */
  readonly noiseDb: number;
  /** crashes a second, and how strong, dB over the wanted carrier */
  readonly crashes: { readonly perSecond: number; readonly levelDb: number };
  /** depth of selective fading, dB; 0 for none */
  readonly fadingDb: number;
  /** words a minute of CW */
  readonly speed: number;
  /** what the wanted AM station sends, where the person has it: samples at the rehearsal's rate, full scale 1 */
  readonly own?: Float64Array | undefined;
}

const ratio = (db: number): number => 10 ** (db / 20);

/** One formant: a resonance that rings at each pulse of the voice. */
class Ring {
  private a = 0;
  private b = 0;
  next(x: number, hz: number, widthHz: number): number {
    const r = Math.exp((-Math.PI * widthHz) / rehearsalRateHz);
    const y = (1 - r) * x + 2 * r * Math.cos((tau * hz) / rehearsalRateHz) * this.a - r * r * this.b;
    this.b = this.a;
    this.a = y;
    return y;
  }
}
/** Two lower formants of five vowels, Hz. Source: common practice, no source (rounded from memory of vowel charts). */
const vowels = [
  [300, 2300],
  [500, 1900],
  [750, 1200],
  [500, 900],
  [320, 800],
] as const;
const unit = (x: Float64Array): Float64Array => {
  const top = x.reduce((m, v) => Math.max(m, Math.abs(v)), 1e-12);
  return x.map((v) => v / top);
};

/**
 * Something with the pitch, the formants and the rhythm of a voice; it says nothing.
 *
 * @param count samples
 * @param seed of its syllables
 * @returns full scale 1
 * @source invented: pulses of the voice and breath through resonances, four syllables a second
 */
export function voice(count: number, seed: number): Float64Array {
  const syllables = uniformStream(seed, "syllables", 4 * Math.ceil(count / rehearsalRateHz) * 4 + 8);
  const breath = normalStream(seed, "breath", count);
  const rings = [new Ring(), new Ring(), new Ring()];
  const out = new Float64Array(count);
  let phase = 0;
  for (let i = 0; i < count; i++) {
    const t = i / rehearsalRateHz;
    const s = Math.floor(t * 4);
    const within = t * 4 - s;
    const [kind, pitch, gap, which] = [0, 1, 2, 3].map((k) => syllables[(4 * s + k) % syllables.length]);
    const hz = 110 + 40 * pitch - 25 * within;
    phase += hz / rehearsalRateHz;
    const pulse = phase >= 1 ? 40 : 0;
    if (phase >= 1) phase -= 1;
    const loud = gap < 0.15 ? 0 : Math.sin(Math.PI * Math.min(1, within * 1.1)) ** 0.6;
    const [f1, f2] = vowels[Math.floor(which * vowels.length)];
    const hiss = kind < 0.25 ? 0.8 * breath[i] * (within < 0.3 ? 1 : 0) : 0.02 * breath[i];
    const x = loud * pulse + hiss * loud;
    out[i] = rings[0].next(x, f1, 80) + 0.6 * rings[1].next(x, f2, 110) + 0.25 * rings[2].next(x, 2900, 200) + 0.15 * hiss * loud;
  }
  return unit(out);
}

/**
 * Chords with a tune over them.
 *
 * @param count samples
 * @param seed of its tune
 * @returns full scale 1
 * @source invented
 */
export function music(count: number, seed: number): Float64Array {
  const steps = [0, 2, 4, 5, 7, 9, 11, 12];
  const tune = uniformStream(seed, "tune", Math.ceil((3 * count) / rehearsalRateHz) + 3);
  const chords = [0, 9, 5, 7];
  return unit(
    Float64Array.from({ length: count }, (_, i) => {
      const t = i / rehearsalRateHz;
      const beat = Math.floor(t * 3);
      const root = 196 * 2 ** (chords[Math.floor(beat / 6) % 4] / 12);
      const lead = 392 * 2 ** (steps[Math.floor(tune[beat] * steps.length)] / 12);
      const decay = Math.exp(-(t * 3 - beat) * 1.6);
      let sum = 0;
      for (const third of [1, 5 / 4, 3 / 2]) sum += 0.3 * Math.sin(tau * root * third * t);
      for (let h = 1; h <= 6; h++) sum += (decay / h) * Math.sin(tau * h * lead * t);
      return sum;
    }),
  );
}

const morse: Readonly<Record<string, string>> = { T: "-", E: ".", S: "...", R: ".-.", A: ".-", D: "-..", I: "..", O: "---" };
/**
 * Keying of a text with soft edges of 5 ms; a dot lasts 1.2 s over the words a minute.
 *
 * @param count samples
 * @param wordsPerMinute speed
 * @param text letters that have a sign here
 * @returns 0 to 1
 * @source 50 dots to the word PARIS; dots, dashes and gaps of ITU-R M.1677 (read where others state them)
 */
export function keying(count: number, wordsPerMinute: number, text = "TEST DE RADIO "): Float64Array {
  const dot = (1.2 / wordsPerMinute) * rehearsalRateHz;
  const units: number[] = [];
  for (const letter of text) {
    if (letter === " ") units.push(0, 0, 0, 0);
    else for (const sign of morse[letter] ?? "") units.push(...(sign === "-" ? [1, 1, 1] : [1]), 0);
    units.push(0, 0);
  }
  const edge = 0.005 * rehearsalRateHz;
  let level = 0;
  return Float64Array.from({ length: count }, (_, i) => {
    const on = units[Math.floor(i / dot) % units.length];
    level += Math.max(-1 / edge, Math.min(1 / edge, on - level));
    return 0.5 - 0.5 * Math.cos(Math.PI * level);
  });
}

/** Complex samples, real and imaginary parts by turns. */
export type Baseband = Float64Array;
/** A station of a kind, its carrier (or its peak) at 1. */
function station(scene: Scene, seed: number, neighbour: boolean): Baseband {
  const count = Math.round(scene.seconds * rehearsalRateHz);
  const out = new Float64Array(2 * count);
  if (scene.kind === "cw") {
    const key = keying(count, neighbour ? scene.speed * 1.3 : scene.speed, neighbour ? "EAST TO SEA " : undefined);
    for (let i = 0; i < count; i++) out[2 * i] = key[i];
    return out;
  }
  const said = neighbour
    ? music(count, seed)
    : scene.own
      ? Float64Array.from({ length: count }, (_, i) => scene.own?.[i % scene.own.length] ?? 0)
      : voice(count, seed);
  if (scene.kind === "am") {
    for (let i = 0; i < count; i++) out[2 * i] = 1 + 0.8 * said[i];
    return out;
  }
  return upperSideband(said);
}
/**
 * A sound as upper sideband alone: its negative frequencies taken away by phasing, over 511 taps.
 *
 * @param x samples
 * @returns complex samples, half the taps later
 * @source Hilbert transformer with a Hamming window, textbook
 */
export function upperSideband(x: Float64Array): Baseband {
  const half = 255;
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const k = i - half;
    return k % 2 === 0 ? 0 : (2 / (Math.PI * k)) * (0.54 + 0.46 * Math.cos((Math.PI * k) / half));
  });
  const out = new Float64Array(2 * x.length);
  for (let i = 0; i < x.length; i++) {
    let turned = 0;
    for (let j = 0; j < taps.length; j++) turned += taps[j] * (x[i - j] ?? 0);
    out[2 * i] = x[i - half] ?? 0;
    out[2 * i + 1] = turned;
  }
  return out;
}

function add(to: Baseband, z: Baseband, offHz: number, levelDb: number): void {
  const gain = ratio(levelDb);
  for (let i = 0; i < to.length; i += 2) {
    const angle = (tau * offHz * (i / 2)) / rehearsalRateHz;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    to[i] += gain * (z[i] * c - z[i + 1] * s);
    to[i + 1] += gain * (z[i] * s + z[i + 1] * c);
  }
}
/** The wanted station by two ways, the second later and turning: each frequency fades at another time. */
function fade(z: Baseband, depthDb: number): Baseband {
  const second = 1 - ratio(-depthDb);
  const late = Math.round(0.0012 * rehearsalRateHz);
  const out = z.slice();
  for (let i = 2 * late; i < z.length; i += 2) {
    const angle = (tau * 0.23 * (i / 2)) / rehearsalRateHz;
    const [c, s] = [second * Math.cos(angle), second * Math.sin(angle)];
    const [re, im] = [z[i - 2 * late], z[i - 2 * late + 1]];
    out[i] += re * c - im * s;
    out[i + 1] += re * s + im * c;
  }
  return out;
}

/**
 * What arrives at the mixer's plate, around the frequency that the set is tuned to.
 *
 * @param scene stations, carriers, noise, crashes, fading
 * @param seed of all that is random in it
 * @returns complex samples, the wanted carrier at 1
 * @source invented
 */
export function baseband(scene: Scene, seed = 1): Baseband {
  const wanted = station(scene, seed, false);
  const out = scene.fadingDb > 0 ? fade(wanted, scene.fadingDb) : wanted;
  for (const [i, n] of scene.neighbours.entries()) add(out, station(scene, seed + 11 + i, true), n.offHz, n.levelDb);
  for (const c of scene.carriers)
    add(
      out,
      Float64Array.from({ length: out.length }, (_, i) => (i % 2 === 0 ? 1 : 0)),
      c.offHz,
      c.levelDb,
    );
  // white over the whole rate: so much of it falls into 6 kHz
  const sigma = ratio(-scene.noiseDb) * Math.sqrt(rehearsalRateHz / 6000 / 2);
  const noise = normalStream(seed, "noise of the band", out.length);
  const at = uniformStream(seed, "crashes", out.length / 2);
  const size = normalStream(seed, "size of crashes", out.length / 2);
  let crash = 0;
  for (let i = 0; i < out.length; i += 2) {
    if (at[i / 2] < scene.crashes.perSecond / rehearsalRateHz) crash = ratio(scene.crashes.levelDb) * (1 + Math.abs(size[i / 2]));
    crash *= 0.997;
    out[i] += (sigma + crash) * noise[i];
    out[i + 1] += (sigma + crash) * noise[i + 1];
  }
  return out;
}
