import { bad, good, type Read } from "../units/issue";

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
interface Format {
  readonly code: number;
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
}
const most = 256 * 1024 * 1024;
const mostSamples = 100_000_000;
/** Below it not even the mains and its second harmonic can be told. */
const leastRateHz = 250;
const mostRateHz = 20_000_000;
/** Float samples have no end of their own; beyond this no file holds a sound, and squares would overflow. */
const loudest = 1e6;
const floatTag = 3;
const extensibleTag = 0xfffe;

/**
 * Reads a RIFF WAVE file: PCM of 8, 16, 24 and 32 bits, float of 32 and 64, extensible or not; unknown chunks skipped, odd ones padded or
 * not; a data size of 0 or FFFFFFFF (the recorder died) means up to the end of the file.
 *
 * @param bytes the file
 * @param name its name, for the error
 * @returns the recording, every sample of it finite, or the located issue
 * @source Multimedia Programming Interface and Data Specifications 1.0 (IBM/Microsoft, 1991), pp. 56-65; WAVE_FORMAT_EXTENSIBLE, Microsoft documentation
 */
export function readWav(bytes: Uint8Array, name: string): Read<Recording> {
  if (bytes.length > most) return bad(name, "too-large", `${Math.round(bytes.length / 1048576)} MB`, `at most ${most / 1048576} MB`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tag = (at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || tag(0) !== "RIFF" || tag(8) !== "WAVE")
    return bad(`${name} byte 0`, "not-wave", bytes.length < 4 ? "" : tag(0), "a RIFF WAVE file");
  let format: Format | undefined;
  const warnings: string[] = [];
  for (let at = 12; at + 8 <= bytes.length; ) {
    const id = tag(at);
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (id === "fmt ") {
      if (size < 16 || body + 16 > bytes.length)
        return bad(`${name} byte ${at}`, "bad-fmt", `${size} bytes`, "a fmt chunk of at least 16 bytes");
      let code = view.getUint16(body, true);
      if (code === extensibleTag && size >= 40 && body + 26 <= bytes.length) code = view.getUint16(body + 24, true);
      format = {
        code,
        channels: view.getUint16(body + 2, true),
        rate: view.getUint32(body + 4, true),
        bits: view.getUint16(body + 14, true),
      };
    }
    if (id === "data") {
      if (!format) return bad(`${name} byte ${at}`, "no-fmt", "data", "a fmt chunk before the data");
      const open = size === 0 || size === 0xffffffff || body + size > bytes.length;
      if (open) warnings.push("the file does not say how long it is, or is cut short: read to its end");
      return recordingOf(new DataView(bytes.buffer, bytes.byteOffset + body, open ? bytes.length - body : size), format, name, warnings);
    }
    const next = body + size;
    at = next + (size % 2 === 1 && !(next + 4 <= bytes.length && tag(next) === "data") ? 1 : 0);
  }
  return bad(name, "no-data", "", "a data chunk");
}

/** The recording behind a header, judged by the header before a sample is decoded. */
function recordingOf(data: DataView, f: Format, name: string, warnings: string[]): Read<Recording> {
  const width = f.bits / 8;
  const isFloat = f.code === floatTag && (width === 4 || width === 8);
  if (!isFloat && !(f.code === 1 && [1, 2, 3, 4].includes(width)))
    return bad(name, "unknown-format", `format ${f.code}, ${f.bits} bits`, "PCM of 8, 16, 24 or 32 bits, or float of 32 or 64");
  if (f.channels < 1 || f.channels > 64) return bad(name, "bad-fmt", `${f.channels} channels`, "1 to 64 channels");
  if (f.rate < leastRateHz || f.rate > mostRateHz)
    return bad(name, "bad-rate", `${f.rate} Hz`, `a sample rate from ${leastRateHz} Hz to ${mostRateHz / 1e6} MHz`);
  const block = width * f.channels;
  const count = Math.floor(data.byteLength / block);
  if (count < 2) return bad(name, "no-samples", count === 1 ? "1 sample" : `${data.byteLength} bytes`, "at least two samples");
  if (count > mostSamples) return bad(name, "too-long", `${count} samples`, `at most ${mostSamples} samples`);
  const at = isFloat
    ? width === 4
      ? (i: number) => data.getFloat32(i, true)
      : (i: number) => data.getFloat64(i, true)
    : (i: number) => pcm(data, i, width);
  if (isFloat)
    for (let i = 0; i < count * f.channels; i++) {
      const v = at(i * width);
      if (!(Math.abs(v) <= loudest))
        return bad(`${name} sample ${Math.floor(i / f.channels) + 1}`, "not-a-level", String(v), "samples about a full scale of 1");
    }
  const samples = (channel: number, from: number, wanted: number): Float64Array => {
    const out = new Float64Array(Math.max(0, Math.min(wanted, count - from)));
    for (let i = 0; i < out.length; i++) out[i] = at((from + i) * block + channel * width);
    return out;
  };
  return good({ sampleRateHz: f.rate, channelsCount: f.channels, samplesCount: count, samples, warnings });
}

function pcm(view: DataView, at: number, width: number): number {
  if (width === 1) return (view.getUint8(at) - 128) / 128;
  if (width === 2) return view.getInt16(at, true) / 32768;
  if (width === 3) return ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 8388608;
  return view.getInt32(at, true) / 2147483648;
}
