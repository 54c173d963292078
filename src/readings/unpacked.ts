import { bad, good, type Read } from "../units/issue";
import { isFlac } from "./sound/flac-head";
import { openSound } from "./sound/open-sound";
import type { Block, Sound } from "./sound/sound";
import { type Recording, readWav } from "./wav";

/** As much as a file that isn't packed may hold, bytes; and what is given to the decoder at once. */
const most = 256 * 1024 * 1024;
const pieceBytes = 65_536;

async function* piecesOf(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += pieceBytes) yield bytes.subarray(at, at + pieceBytes);
}
/** Samples of one channel, each in as many bytes as it was made of. */
class Held {
  private readonly parts: (Int16Array | Int32Array)[] = [];
  private readonly starts: number[] = [];
  count = 0;
  constructor(private readonly step: number) {}
  push(x: Float64Array): void {
    const whole = (v: number): number => Math.round(v / this.step);
    this.starts.push(this.count);
    this.parts.push(this.step >= 2 ** -15 ? Int16Array.from(x, whole) : Int32Array.from(x, whole));
    this.count += x.length;
  }
  stretch(from: number, wanted: number): Float64Array {
    const out = new Float64Array(Math.max(0, Math.min(wanted, this.count - from)));
    let part = this.starts.findLastIndex((s) => s <= from);
    for (let at = 0; at < out.length; part++) {
      const own = this.parts[part].subarray(from + at - this.starts[part], from - this.starts[part] + out.length);
      for (let i = 0; i < own.length; i++) out[at + i] = own[i] * this.step;
      at += own.length;
    }
    return out;
  }
}
const tooLong = (name: string) =>
  bad(name, "too-long", `more than ${most / 1048576} MB of samples`, `at most ${most / 1048576} MB, unpacked`);

async function unpacked(sound: Sound, name: string): Promise<Read<Recording>> {
  const { sampleRateHz, channelsCount, step } = sound;
  const channels = Array.from({ length: channelsCount }, () => new Held(step));
  const each = channelsCount * (step >= 2 ** -15 ? 2 : 4);
  if ((sound.samplesCount ?? 0) * each > most) return tooLong(name);
  const take = (block: Block): void => {
    for (const [c, x] of block.entries()) channels[c].push(x);
  };
  for await (const block of sound.blocks()) {
    take(block);
    if (channels[0].count * each > most) return tooLong(name);
  }
  const samplesCount = channels[0].count;
  if (samplesCount < 2) return bad(name, "no-samples", samplesCount === 1 ? "1 sample" : "0 samples", "at least two samples");
  const samples: Recording["samples"] = (channel, from, count) => channels[channel].stretch(from, count);
  return good({ sampleRateHz, channelsCount, samplesCount, samples, warnings: sound.warnings });
}

/**
 * Reads a recording that is in memory whole: WAV as it stands, FLAC unpacked piece by piece.
 *
 * @param bytes the file
 * @param name its name, for the errors
 * @returns the recording, or the located issue
 * @throws {InputError} where a packed file is damaged further on
 * @source readWav; openFlac
 */
export async function readRecording(bytes: Uint8Array, name: string): Promise<Read<Recording>> {
  if (!isFlac(bytes)) return readWav(bytes, name);
  const sound = await openSound(piecesOf(bytes), name, bytes.length);
  return sound.ok ? unpacked(sound.value, name) : sound;
}
