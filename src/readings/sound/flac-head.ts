import { bad, good, type Read } from "../../units/issue";
import { leastRateHz, mostRateHz, type SoundHead } from "./sound";

/** The mark, a block's head, and the stream's own description behind it. */
export const flacHeadBytes = 4 + 4 + 34;
/** Whether bytes begin as a FLAC file does. Source: RFC 9639, section 6. */
export const isFlac = (b: Uint8Array): boolean => b.length >= 4 && String.fromCharCode(...b.subarray(0, 4)) === "fLaC";

/**
 * What a FLAC file says of itself.
 *
 * @param bytes its first 42 or more
 * @param name its name, for the error
 * @returns rate, Hz, channels, length where it is said; or an issue
 * @source RFC 9639, sections 8.1 and 8.2
 */
export function flacHead(bytes: Uint8Array, name: string): Read<SoundHead> {
  if (bytes.length < flacHeadBytes || (bytes[4] & 0x7f) !== 0)
    return bad(name, "no-streaminfo", `${bytes.length} bytes`, "a FLAC file that begins with its description");
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const word = view.getBigUint64(8 + 10);
  const sampleRateHz = Number(word >> 44n);
  const bits = Number((word >> 36n) & 31n) + 1;
  const all = Number(word & ((1n << 36n) - 1n));
  if (sampleRateHz < leastRateHz || sampleRateHz > mostRateHz)
    return bad(name, "bad-rate", `${sampleRateHz} Hz`, `a sample rate from ${leastRateHz} Hz to ${mostRateHz / 1e6} MHz`);
  return good({
    sampleRateHz,
    channelsCount: Number((word >> 41n) & 7n) + 1,
    heldAs: `${bits}-bit FLAC`,
    step: 2 ** (1 - bits),
    samplesCount: all > 0 ? all : undefined,
    warnings: all > 0 ? [] : ["the file does not say how long it is: read to its end"],
  });
}
