import { bad, good, InputError, type Read } from "../../units/issue";
import { type Block, joined, type OpenedFile, type Sound } from "./sound";
import { openEnded, type WavHead, wavHead } from "./wav-head";
import { decodeInto, notALevel } from "./wav-samples";

/** Frames of a block at most. */
const mostFrames = 32_768;

/**
 * Opens a WAVE file that comes in pieces: its head is read, its samples wait.
 *
 * @source wavHead
 */
export async function openWav(pieces: AsyncIterator<Uint8Array>, file: OpenedFile): Promise<Read<Sound>> {
  let { first } = file;
  let allBytes = file.bytesCount ?? Number.POSITIVE_INFINITY;
  for (;;) {
    const head = wavHead(first, file.name, allBytes);
    if (!head.ok) return head;
    if (!("needs" in head.value)) return opened(head.value, first, pieces, file);
    while (first.length < head.value.needs) {
      const { done, value } = await pieces.next();
      // the file ends within its head
      if (done) {
        if (allBytes === first.length) return bad(file.name, "no-data", "", "a data chunk");
        allBytes = first.length;
        break;
      }
      first = joined(first, value);
    }
  }
}
function opened(h: WavHead, first: Uint8Array, pieces: AsyncIterator<Uint8Array>, file: OpenedFile): Read<Sound> {
  const block = h.width * h.channelsCount;
  const known = h.bytesCount ?? (file.bytesCount === undefined ? undefined : file.bytesCount - h.from);
  const samplesCount = known === undefined ? undefined : Math.floor(known / block);
  if (samplesCount !== undefined && samplesCount < 2)
    return bad(file.name, "no-samples", samplesCount === 1 ? "1 sample" : `${known} bytes`, "at least two samples");
  return good({
    sampleRateHz: h.sampleRateHz,
    channelsCount: h.channelsCount,
    heldAs: `${8 * h.width}-bit ${h.isFloat ? "float" : "PCM"}`,
    step: h.isFloat ? 0 : 2 ** (1 - 8 * h.width),
    samplesCount,
    begun: h.begun,
    warnings: h.bytesCount === undefined && file.bytesCount !== undefined ? [openEnded] : [],
    blocks: () => blocksOf(h, first.subarray(h.from), pieces, file.name),
  });
}

async function* blocksOf(h: WavHead, rest: Uint8Array, pieces: AsyncIterator<Uint8Array>, name: string): AsyncGenerator<Block> {
  const frameBytes = h.width * h.channelsCount;
  const columns = Array.from({ length: h.channelsCount }, () => new Float64Array(mostFrames));
  let left = h.bytesCount ?? Number.POSITIVE_INFINITY;
  let done = 0;
  for (let bytes = rest; ; ) {
    const use = bytes.length > left ? bytes.subarray(0, left) : bytes;
    const frames = Math.floor(use.length / frameBytes);
    for (let at = 0; at < frames; at += mostFrames) {
      const count = Math.min(mostFrames, frames - at);
      decodeInto(h, use.subarray(at * frameBytes, (at + count) * frameBytes), columns);
      const block = count === mostFrames ? columns : columns.map((c) => c.subarray(0, count));
      const wrong = h.isFloat ? notALevel(block, count) : undefined;
      if (wrong)
        throw new InputError(
          bad(`${name} sample ${done + wrong.at + 1}`, "not-a-level", String(wrong.value), "samples about a full scale of 1").issues,
        );
      yield block;
      done += count;
    }
    left -= frames * frameBytes;
    if (left < frameBytes) return;
    const next = await pieces.next();
    if (next.done) return;
    bytes = joined(use.subarray(frames * frameBytes), next.value);
  }
}
