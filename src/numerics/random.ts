import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { normalQuantile } from "./normal";

/**
 * 32-bit FNV-1a hash of a text, used to give every named input a random stream of its own.
 *
 * @param text any text
 * @returns unsigned 32-bit integer
 * @source FNV-1a as published by Fowler, Noll and Vo, offset basis 2166136261, prime 16777619; from memory, checked in random.test.ts
 */
export function hashOf(text: string): number {
  let h = 2166136261;
  for (let i = 0; i < text.length; i++) {
    h ^= text.charCodeAt(i);
    h = Math.imul(h, 16777619);
  }
  return h >>> 0;
}

/**
 * The first `count` uniform numbers, strictly between 0 and 1, of the stream that belongs to a seed and a name.
 * Streams nest: the first 200 of 2,000 are the 200.
 *
 * @param seedIndex seed of the whole answer
 * @param name path of the input
 * @param count how many
 * @returns length `count`
 * @source xoroshiro128+ of the library pure-rand, 53 bits a number
 */
export function uniformStream(seedIndex: number, name: string, count: number): Float64Array {
  const rng = xoroshiro128plus(hashOf(`${seedIndex}:${name}`));
  const out = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const high = rng.next() >>> 5;
    const low = rng.next() >>> 6;
    out[i] = (high * 67108864 + low + 0.5) / 9007199254740992;
  }
  return out;
}

/**
 * The first `count` standard-normal numbers of a named stream, by inversion of the uniform one, so that streams nest.
 *
 * @param seedIndex seed of the whole answer
 * @param name path of the input
 * @param count how many
 * @returns length `count`
 * @source inverse-transform method, JCGM 101:2008 annex C.2; quantile by AS 241, see normal.ts
 */
export function normalStream(seedIndex: number, name: string, count: number): Float64Array {
  return uniformStream(seedIndex, name, count).map((p) => normalQuantile(p));
}
