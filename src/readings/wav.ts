import { bad, good, type Read } from "../units/issue";

export interface Recording {
  readonly sampleRateHz: number;
  /** one array a channel, full scale 1 */
  readonly channels: readonly Float64Array[];
  readonly warnings: readonly string[];
}
const most = 256 * 1024 * 1024;
const floatTag = 3;
const extensibleTag = 0xfffe;

/**
 * Reads a RIFF WAVE file: PCM of 8, 16, 24 and 32 bits, float of 32 and 64, extensible or not; unknown chunks skipped, odd ones padded or
 * not; a data size of 0 or FFFFFFFF (the recorder died) means up to the end of the file.
 *
 * @param bytes the file
 * @param name its name, for the error
 * @returns samples, full scale 1, or the located issue
 * @source Multimedia Programming Interface and Data Specifications 1.0 (IBM/Microsoft, 1991), pp. 56-65; WAVE_FORMAT_EXTENSIBLE, Microsoft documentation
 */
export function readWav(bytes: Uint8Array, name: string): Read<Recording> {
  if (bytes.length > most) return bad(name, "too-large", `${Math.round(bytes.length / 1048576)} MB`, `at most ${most / 1048576} MB`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tag = (at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || tag(0) !== "RIFF" || tag(8) !== "WAVE")
    return bad(`${name} byte 0`, "not-wave", bytes.length < 4 ? "" : tag(0), "a RIFF WAVE file");
  let format: { code: number; channels: number; rate: number; block: number; bits: number } | undefined;
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
        block: view.getUint16(body + 12, true),
        bits: view.getUint16(body + 14, true),
      };
    }
    if (id === "data") {
      if (!format) return bad(`${name} byte ${at}`, "no-fmt", "data", "a fmt chunk before the data");
      const open = size === 0 || size === 0xffffffff || body + size > bytes.length;
      if (open) warnings.push("the file does not say how long it is, or is cut short: read to its end");
      return samples(view, body, open ? bytes.length - body : size, format, name, warnings);
    }
    const next = body + size;
    at = next + (size % 2 === 1 && !(next + 4 <= bytes.length && tag(next) === "data") ? 1 : 0);
  }
  return bad(name, "no-data", "", "a data chunk");
}

function samples(
  view: DataView,
  from: number,
  length: number,
  f: { code: number; channels: number; rate: number; block: number; bits: number },
  name: string,
  warnings: string[],
): Read<Recording> {
  const width = f.bits / 8;
  const known = (f.code === 1 && [1, 2, 3, 4].includes(width)) || (f.code === floatTag && (width === 4 || width === 8));
  if (!known) return bad(name, "unknown-format", `format ${f.code}, ${f.bits} bits`, "PCM of 8, 16, 24 or 32 bits, or float of 32 or 64");
  if (f.channels < 1 || f.channels > 64 || f.rate < 1)
    return bad(name, "bad-fmt", `${f.channels} channels at ${f.rate} Hz`, "1 to 64 channels and a sample rate");
  const block = width * f.channels;
  const count = Math.floor(length / block);
  if (count === 0) return bad(name, "no-samples", `${length} bytes`, "at least one sample");
  const channels = Array.from({ length: f.channels }, () => new Float64Array(count));
  for (let i = 0; i < count; i++) {
    for (let c = 0; c < f.channels; c++) {
      const at = from + i * block + c * width;
      const v = f.code === floatTag ? (width === 4 ? view.getFloat32(at, true) : view.getFloat64(at, true)) : pcm(view, at, width);
      if (!Number.isFinite(v)) return bad(`${name} sample ${i + 1}`, "not-a-number", String(v), "finite samples");
      channels[c][i] = v;
    }
  }
  return good({ sampleRateHz: f.rate, channels, warnings });
}

function pcm(view: DataView, at: number, width: number): number {
  if (width === 1) return (view.getUint8(at) - 128) / 128;
  if (width === 2) return view.getInt16(at, true) / 32768;
  if (width === 3) return ((view.getInt8(at + 2) << 16) | view.getUint16(at, true)) / 8388608;
  return view.getInt32(at, true) / 2147483648;
}
