import { bad, good, type Read } from "../../units/issue";
import { leastRateHz, mostChannels, mostRateHz } from "./sound";

/** How samples stand in a RIFF WAVE file, and where. */
export interface WavHead {
  readonly sampleRateHz: number;
  readonly channelsCount: number;
  readonly isFloat: boolean;
  /** bytes of one sample */
  readonly width: number;
  /** byte at which the samples begin */
  readonly from: number;
  /** bytes of samples; undefined means up to the end of the file */
  readonly bytesCount: number | undefined;
  readonly begun?: string | undefined;
}
interface Format {
  readonly code: number;
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
}
/** What was met on the way to the samples. */
interface Met {
  format?: Format;
  /** bytes of samples as a 64-bit head has them */
  longBytes?: number;
  begun?: string;
}
const floatTag = 3;
const extensibleTag = 0xfffe;
/** A head that is longer than this holds no sound. */
export const mostHeadBytes = 64 * 1024 * 1024;
const idAt = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
export const isWav = (b: Uint8Array): boolean => b.length >= 12 && ["RIFF", "RF64", "BW64"].includes(idAt(b, 0)) && idAt(b, 8) === "WAVE";

/**
 * Reads the head of a RIFF, RF64 or BW64 WAVE file: chunks in any order before the data, unknown ones skipped, odd ones padded or not; a data size of 0
 * or FFFFFFFF, one beyond the file's end, and one that ran over its 32 bits mean up to the end of the file.
 *
 * @param bytes the file, or the beginning of it
 * @param name its name, for the error
 * @param allBytes how long the file is; undefined where that is not known
 * @returns the head; how many bytes of the beginning it takes to tell, where these are too few; or the located issue
 * @source Multimedia Programming Interface and Data Specifications 1.0 (IBM/Microsoft, 1991), pp. 56-65; WAVE_FORMAT_EXTENSIBLE, Microsoft
 * documentation; RF64 and BW64: EBU Tech 3306 and ITU-R BS.2088, chunk bext: EBU Tech 3285 (all three from memory)
 */
export function wavHead(bytes: Uint8Array, name: string, allBytes = bytes.length): Read<WavHead | { readonly needs: number }> {
  if (bytes.length < 12 && bytes.length < allBytes) return good({ needs: 12 });
  if (!isWav(bytes)) return bad(`${name} byte 0`, "not-wave", bytes.length < 4 ? "" : idAt(bytes, 0), "a RIFF WAVE file");
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const met: Met = {};
  for (let at = 12; at + 8 <= allBytes; ) {
    if (at + 8 > bytes.length) return at + 8 > mostHeadBytes ? noData(name) : good({ needs: at + 8 });
    const id = idAt(bytes, at);
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (id === "data") return met.format ? headOf(met, met.format, { name, body, size, allBytes }) : noFormat(name, at);
    // what comes after a chunk tells whether it was padded
    const whole = Math.min(body + size + 5, allBytes);
    if (whole > mostHeadBytes) return noData(name);
    if (whole > bytes.length) return good({ needs: whole });
    if (id === "fmt ") {
      if (size < 16 || body + 16 > bytes.length)
        return bad(`${name} byte ${at}`, "bad-fmt", `${size} bytes`, "a fmt chunk of at least 16 bytes");
      met.format = formatAt(view, body, size);
    }
    if (id === "ds64" && size >= 16) met.longBytes = Number(view.getBigUint64(body + 8, true));
    if (id === "bext" && size >= 338) met.begun = begunIn(bytes.subarray(body + 320, body + 338));
    const next = body + size;
    at = next + (size % 2 === 1 && !(next + 4 <= bytes.length && idAt(bytes, next) === "data") ? 1 : 0);
  }
  return noData(name);
}
const noData = (name: string) => bad(name, "no-data", "", "a data chunk");
const noFormat = (name: string, at: number) => bad(`${name} byte ${at}`, "no-fmt", "data", "a fmt chunk before the data");

function formatAt(view: DataView, body: number, size: number): Format {
  const code = view.getUint16(body, true);
  return {
    code: code === extensibleTag && size >= 40 && body + 26 <= view.byteLength ? view.getUint16(body + 24, true) : code,
    channels: view.getUint16(body + 2, true),
    rate: view.getUint32(body + 4, true),
    bits: view.getUint16(body + 14, true),
  };
}
/** `2026-11-20 19:04:11` from a broadcast chunk's date and time; undefined where it holds none. */
function begunIn(bytes: Uint8Array): string | undefined {
  const text = String.fromCharCode(...bytes);
  const [, date, time] = /^(\d{4}\D\d\d\D\d\d)(\d\d\D\d\d\D\d\d)$/.exec(text) ?? [];
  return date && time ? `${date.replace(/\D/g, "-")} ${time.replace(/\D/g, ":")}` : undefined;
}

function headOf(
  met: Met,
  f: Format,
  at: { readonly name: string; readonly body: number; readonly size: number; readonly allBytes: number },
): Read<WavHead> {
  const { name, body, allBytes } = at;
  const width = f.bits / 8;
  const isFloat = f.code === floatTag && (width === 4 || width === 8);
  if (!isFloat && !(f.code === 1 && [1, 2, 3, 4].includes(width)))
    return bad(name, "unknown-format", `format ${f.code}, ${f.bits} bits`, "PCM of 8, 16, 24 or 32 bits, or float of 32 or 64");
  if (f.channels < 1 || f.channels > mostChannels) return bad(name, "bad-fmt", `${f.channels} channels`, `1 to ${mostChannels} channels`);
  if (f.rate < leastRateHz || f.rate > mostRateHz)
    return bad(name, "bad-rate", `${f.rate} Hz`, `a sample rate from ${leastRateHz} Hz to ${mostRateHz / 1e6} MHz`);
  const said = at.size === 0xffffffff ? met.longBytes : at.size;
  const rest = allBytes - body;
  // a size of 32 bits that ran over leaves whole multiples of 4 GB behind it
  const ranOver = Number.isFinite(rest) && said !== undefined && rest - said >= 2 ** 32;
  const open = said === undefined || said === 0 || said > rest || ranOver;
  const { begun } = met;
  return good({ sampleRateHz: f.rate, channelsCount: f.channels, isFloat, width, from: body, bytesCount: open ? undefined : said, begun });
}
/** Said where the head does not tell how long the sound is. */
export const openEnded = "the file does not say how long it is, or is cut short: read to its end";
