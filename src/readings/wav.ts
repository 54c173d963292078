import { bad, good, type Read } from "../units/issue";
import { openEnded, type WavHead, wavHead } from "./sound/wav-head";
import { decodeInto, notALevel } from "./sound/wav-samples";

/** A recording as its file holds it. Samples are decoded only as they are asked for: a long one is never in memory as numbers. */
export interface Recording {
  readonly sampleRateHz: number;
  readonly channelsCount: number;
  /** samples of each channel */
  readonly samplesCount: number;
  /** a stretch of one channel, full scale 1; cut short at the end of the recording */
  readonly samples: (channel: number, from: number, count: number) => Float64Array;
  readonly warnings: readonly string[];
}
const most = 256 * 1024 * 1024;
const mostSamples = 100_000_000;
const stretch = 65_536;

/**
 * Reads a RIFF WAVE file that is in memory whole: PCM of 8, 16, 24 and 32 bits, float of 32 and 64, extensible or not.
 *
 * @param bytes the file
 * @param name its name, for the error
 * @returns the recording, every sample of it finite, or the located issue
 * @source wavHead; longer files are read block by block (openSound)
 */
export function readWav(bytes: Uint8Array, name: string): Read<Recording> {
  if (bytes.length > most) return bad(name, "too-large", `${Math.round(bytes.length / 1048576)} MB`, `at most ${most / 1048576} MB`);
  const head = wavHead(bytes, name);
  if (!head.ok) return head;
  return "needs" in head.value ? bad(name, "no-data", "", "a data chunk") : recordingOf(bytes, head.value, name);
}

/** The recording behind a head; of float samples each is looked at, since a file may hold what is no level. */
function recordingOf(bytes: Uint8Array, h: WavHead, name: string): Read<Recording> {
  const block = h.width * h.channelsCount;
  const dataBytes = h.bytesCount ?? bytes.length - h.from;
  const count = Math.floor(dataBytes / block);
  if (count < 2) return bad(name, "no-samples", count === 1 ? "1 sample" : `${dataBytes} bytes`, "at least two samples");
  if (count > mostSamples) return bad(name, "too-long", `${count} samples`, `at most ${mostSamples} samples`);
  const samples = (channel: number, from: number, wanted: number): Float64Array => {
    const out = new Float64Array(Math.max(0, Math.min(wanted, count - from)));
    const at = h.from + from * block;
    decodeInto(h, bytes.subarray(at, at + out.length * block), [out], channel);
    return out;
  };
  if (h.isFloat)
    for (let channel = 0; channel < h.channelsCount; channel++)
      for (let from = 0; from < count; from += stretch) {
        const wrong = notALevel([samples(channel, from, stretch)], stretch);
        if (wrong)
          return bad(`${name} sample ${from + wrong.at + 1}`, "not-a-level", String(wrong.value), "samples about a full scale of 1");
      }
  const warnings = h.bytesCount === undefined ? [openEnded] : [];
  return good({ sampleRateHz: h.sampleRateHz, channelsCount: h.channelsCount, samplesCount: count, samples, warnings });
}
