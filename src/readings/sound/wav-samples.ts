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
  const numbers = numbersIn(even, h, frames * step);
  if (numbers) {
    const by = h.isFloat ? 1 : 2 ** (1 - 8 * width);
    for (const [c, out] of into.entries()) for (let i = 0, k = first + c; i < frames; i++, k += step) out[i] = numbers[k] * by;
    return;
  }
  for (const [c, out] of into.entries())
    if (width === 1) for (let i = 0, k = first + c; i < frames; i++, k += step) out[i] = (bytes[k] - 128) / 128;
    else
      for (let i = 0, k = 3 * (first + c); i < frames; i++, k += 3 * step)
        out[i] = (bytes[k] | (bytes[k + 1] << 8) | ((bytes[k + 2] << 24) >> 8)) / 8388608;
}
/** Samples as this machine holds numbers; none where it has no such numbers. */
function numbersIn({ buffer, byteOffset }: Uint8Array, { isFloat, width }: Pick<WavHead, "isFloat" | "width">, count: number) {
  if (isFloat) return width === 4 ? new Float32Array(buffer, byteOffset, count) : new Float64Array(buffer, byteOffset, count);
  if (width === 2) return new Int16Array(buffer, byteOffset, count);
  return width === 4 ? new Int32Array(buffer, byteOffset, count) : undefined;
}

/**
 * The first sample that is no level, by its place in the block; undefined where all are.
 *
 * @source house rule
 */
export function notALevel(block: Block, count: number): { readonly at: number; readonly value: number } | undefined {
  for (const column of block)
    for (let at = 0; at < Math.min(count, column.length); at++) if (!(Math.abs(column[at]) <= loudest)) return { at, value: column[at] };
  return undefined;
}
