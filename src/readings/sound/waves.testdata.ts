import { normalStream } from "../../numerics/random";
import { orThrow } from "../../units/issue";
import { listen } from "./listen";
import type { Listener } from "./listener";
import { openSound } from "./open-sound";
import type { Pieces } from "./sound";

/** Sounds that tests make. */
export const tau = 2 * Math.PI;
const letters = (s: string) => new TextEncoder().encode(s);
/** A chunk of a RIFF file, padded to an even length where it is asked for. */
export function chunk(id: string, body: Uint8Array, size = body.length, padded = true): Uint8Array {
  const out = new Uint8Array(8 + body.length + (padded ? body.length % 2 : 0));
  out.set(letters(id));
  new DataView(out.buffer).setUint32(4, size, true);
  out.set(body, 8);
  return out;
}
export const together = (...parts: readonly Uint8Array[]): Uint8Array => {
  const out = new Uint8Array(parts.reduce((s, p) => s + p.length, 0));
  let at = 0;
  for (const p of parts) {
    out.set(p, at);
    at += p.length;
  }
  return out;
};
export interface MadeAs {
  readonly code: number;
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
}
export const pcm16: MadeAs = { code: 1, channels: 1, rate: 8000, bits: 16 };
export function formatChunk(f: MadeAs, extensible = false): Uint8Array {
  const body = new Uint8Array(extensible ? 40 : 16);
  const view = new DataView(body.buffer);
  view.setUint16(0, extensible ? 0xfffe : f.code, true);
  view.setUint16(2, f.channels, true);
  view.setUint32(4, f.rate, true);
  view.setUint32(8, (f.rate * f.channels * f.bits) / 8, true);
  view.setUint16(12, (f.channels * f.bits) / 8, true);
  view.setUint16(14, f.bits, true);
  if (extensible) view.setUint16(24, f.code, true);
  return chunk("fmt ", body);
}
export const riff = (chunks: readonly Uint8Array[], id = "RIFF"): Uint8Array => {
  const body = together(letters("WAVE"), ...chunks);
  return chunk(id, body);
};
/** Samples of one channel as a file holds them. */
export function held(x: readonly number[], { code, bits }: Pick<MadeAs, "code" | "bits">): Uint8Array {
  const width = bits / 8;
  const out = new Uint8Array(x.length * width);
  const view = new DataView(out.buffer);
  for (const [i, v] of x.entries()) {
    const at = i * width;
    if (code === 3) bits === 32 ? view.setFloat32(at, v, true) : view.setFloat64(at, v, true);
    else {
      const n = Math.round(v * 2 ** (bits - 1));
      if (width === 1) view.setUint8(at, n + 128);
      else for (let b = 0; b < width; b++) view.setUint8(at + b, (n >> (8 * b)) & 255);
    }
  }
  return out;
}
export const wav16 = (x: Float64Array, rate = 8000): Uint8Array =>
  riff([formatChunk({ ...pcm16, rate }), chunk("data", new Uint8Array(Int16Array.from(x, (v) => Math.round(32767 * v)).buffer))]);

/** Bytes in pieces of so many. */
export async function* pieces(bytes: Uint8Array, each: number): Pieces {
  for (let at = 0; at < bytes.length; at += each) yield bytes.slice(at, at + each);
}
/** Everything that a file holds, read in pieces. */
export async function allOf(bytes: Uint8Array, each = 1000, known = true) {
  const sound = orThrow(await openSound(pieces(bytes, each), "x", known ? bytes.length : undefined));
  const channels = Array.from({ length: sound.channelsCount }, (): number[] => []);
  for await (const block of sound.blocks()) for (const [c, x] of block.entries()) channels[c].push(...x);
  return { ...sound, channels };
}
/** A sound of a sum and of noise, so many seconds. */
export function made(rate: number, seconds: number, of: (t: number) => number, noise = 0, seed = 1): Float64Array {
  const n = Math.round(rate * seconds);
  const z = noise > 0 ? normalStream(seed, "sound", n) : undefined;
  // filled in place: to make it from a list of no elements takes three times as long
  const x = new Float64Array(n);
  for (let i = 0; i < n; i++) x[i] = of(i / rate) + (z ? noise * z[i] : 0);
  return x;
}
/** Plays samples to a listener in stretches of uneven length, as a live input does. */
export function play<L extends Pick<Listener, "push">>(listener: L, x: Float64Array): L {
  for (let at = 0, n = 128; at < x.length; at += n, n = (n * 7) % 5003 || 128) listener.push(x.subarray(at, Math.min(x.length, at + n)));
  return listener;
}
/** How a file is heard as a whole. */
export async function heardIn(bytes: Uint8Array, channel?: number) {
  const sound = orThrow(await openSound(pieces(bytes, 4096), "x", bytes.length));
  return listen(sound, "x", [], { channel });
}
