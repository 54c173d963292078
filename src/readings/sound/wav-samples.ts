import type { Block } from "./sound";
import type { WavHead } from "./wav-head";

/** Float samples have no end of their own; beyond this no file holds a sound, and squares would overflow. */
const loudest = 1e6;

/**
 * Decodes samples of a WAVE file.
 *
 * @param h how they are held
 * @param bytes whole frames
 * @param into one column a channel, or fewer: full scale 1
 * @param first channel that the first column takes
 * @source as wavHead; 8 bits are without a sign, about 128
 */
export function decodeInto(h: Pick<WavHead, "isFloat" | "width" | "channelsCount">, bytes: Uint8Array, into: Block, first = 0): void {
  const { width, channelsCount: step } = h;
  const frames = Math.floor(bytes.length / (width * step));
  // numbers of two bytes and more want to begin at a multiple of their width
  const even = bytes.byteOffset % width === 0 ? bytes : bytes.slice();
  const [buffer, at] = [even.buffer, even.byteOffset];
  const scaled = (from: Int16Array | Int32Array | Float32Array | Float64Array, by: number): void =>
    into.forEach((out, c) => {
      for (let i = 0, k = first + c; i < frames; i++, k += step) out[i] = from[k] * by;
    });
  if (h.isFloat) return scaled(width === 4 ? new Float32Array(buffer, at, frames * step) : new Float64Array(buffer, at, frames * step), 1);
  if (width === 2) return scaled(new Int16Array(buffer, at, frames * step), 1 / 32768);
  if (width === 4) return scaled(new Int32Array(buffer, at, frames * step), 1 / 2147483648);
  into.forEach((out, c) => {
    if (width === 1) for (let i = 0, k = first + c; i < frames; i++, k += step) out[i] = (bytes[k] - 128) / 128;
    else
      for (let i = 0, k = 3 * (first + c); i < frames; i++, k += 3 * step)
        out[i] = ((bytes[k] | (bytes[k + 1] << 8) | ((bytes[k + 2] << 24) >> 8)) as number) / 8388608;
  });
}

/** The first sample that is no level, by its place in the block; undefined where all are. */
export function notALevel(block: Block, count: number): { readonly at: number; readonly value: number } | undefined {
  for (const column of block)
    for (let at = 0; at < Math.min(count, column.length); at++) if (!(Math.abs(column[at]) <= loudest)) return { at, value: column[at] };
  return undefined;
}
