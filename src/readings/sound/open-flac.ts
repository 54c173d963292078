import type { FLACDecodedAudio } from "@wasm-audio-decoders/flac";
import { bad, good, InputError, type Read } from "../../units/issue";
import { flacHead, flacHeadBytes } from "./flac-head";
import { type Block, joined, type OpenedFile, type Sound, type SoundHead } from "./sound";

/**
 * Opens a FLAC file that comes in pieces.
 *
 * @source RFC 9639; decoded by the library @wasm-audio-decoders/flac
 */
export async function openFlac(pieces: AsyncIterator<Uint8Array>, file: OpenedFile): Promise<Read<Sound>> {
  let { first } = file;
  while (first.length < flacHeadBytes) {
    const { done, value } = await pieces.next();
    if (done) break;
    first = joined(first, value);
  }
  const head = flacHead(first, file.name);
  if (!head.ok) return head;
  const warnings = [...head.value.warnings];
  return good({ ...head.value, warnings, blocks: () => blocksOf(first, pieces, { ...head.value, name: file.name, warnings }) });
}

interface Decoding extends SoundHead {
  readonly name: string;
  readonly warnings: string[];
}
async function* blocksOf(first: Uint8Array, pieces: AsyncIterator<Uint8Array>, of: Decoding): AsyncGenerator<Block> {
  // loaded when the first such file is opened
  const { FLACDecoder } = await import("@wasm-audio-decoders/flac");
  const decoder = new FLACDecoder();
  await decoder.ready;
  let done = 0;
  const taken = (d: FLACDecodedAudio): Block | undefined => {
    const [error] = d.errors;
    if (error)
      throw new InputError(bad(`${of.name} sample ${done + 1}`, "not-flac", error.message, "a FLAC file that is not damaged").issues);
    done += d.samplesDecoded;
    // the library takes the highest sample for full scale; full scale is one step above it
    const [high, full] = [1 / of.step - 1, of.step];
    return d.samplesDecoded > 0 ? d.channelData.map((c) => Float64Array.from(c, (v) => Math.round(v * high) * full)) : undefined;
  };
  try {
    for (let bytes = first; ; ) {
      const block = taken(await decoder.decode(bytes));
      if (block) yield block;
      const next = await pieces.next();
      if (next.done) break;
      bytes = next.value;
    }
    const last = taken(await decoder.flush());
    if (last) yield last;
  } finally {
    decoder.free();
  }
  if (of.samplesCount !== undefined && done < of.samplesCount)
    of.warnings.push(`cut short: ${done} of ${of.samplesCount} samples are there`);
}
