import { bad, good, type Read } from "../units/issue";
import { largestTextBytes, longestLine, mostLines } from "./sweep";

/**
 * Bytes of a text file as lines, whatever its line ends and encoding (UTF-8 with or without mark, UTF-16 with mark, Latin-1 where UTF-8 fails).
 *
 * @param bytes the file
 * @param name its name, for the error
 * @returns lines without their ends
 * @source Unicode byte order marks
 */
export function linesOf(bytes: Uint8Array, name: string): Read<string[]> {
  if (bytes.length === 0) return bad(name, "empty", "", "a file with numbers in it");
  if (bytes.length > largestTextBytes)
    return bad(name, "too-large", `${Math.round(bytes.length / 1048576)} MB`, `a file of at most ${largestTextBytes / 1048576} MB`);
  if (lineEnds(bytes) > mostLines) return bad(name, "too-many-lines", `more than ${mostLines} lines`, `at most ${mostLines} lines`);
  const text = decode(bytes);
  const head = text.slice(0, 4096);
  let odd = 0;
  for (let i = 0; i < head.length; i++) {
    const c = head.charCodeAt(i);
    if (c === 0 || (c < 32 && c !== 9 && c !== 10 && c !== 13 && c !== 12 && c !== 26)) odd++;
  }
  if (odd > 0) return bad(name, "binary", head.slice(0, 20), "a text file");
  const lines = text.replaceAll(String.fromCharCode(26), "").split(/\r\n|\n|\r/);
  const long = lines.findIndex((l) => l.length > longestLine);
  if (long >= 0) return bad(`${name} line ${long + 1}`, "long-line", lines[long], `lines of at most ${longestLine} characters`);
  if (lines.every((l) => l.trim() === "")) return bad(name, "empty", "", "a file with numbers in it");
  return good(lines);
}

/** Line ends as bytes hold them, counted before anything is made of them. */
function lineEnds(bytes: Uint8Array): number {
  let count = 0;
  for (const b of bytes) if (b === 10 || b === 13) count++;
  return count;
}

function decode(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le").decode(bytes.subarray(2));
  if (bytes[0] === 0xfe && bytes[1] === 0xff) {
    const swapped = bytes.slice(2, bytes.length - (bytes.length % 2));
    for (let i = 0; i + 1 < swapped.length; i += 2) [swapped[i], swapped[i + 1]] = [swapped[i + 1], swapped[i]];
    return new TextDecoder("utf-16le").decode(swapped);
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}

const numberPattern = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eEdD][+-]?\d+)?$/;

/**
 * A finite number written plainly, or undefined.
 *
 * @param token such as `-1.5e3`, or with a D for the exponent as Fortran writes it
 * @source house format
 */
export function plainNumber(token: string): number | undefined {
  if (!numberPattern.test(token)) return undefined;
  const n = Number(token.replace(/[dD]/, "e"));
  return Number.isFinite(n) ? n : undefined;
}

/**
 * Frequencies that repeat because they were printed with too few digits: put back on the even grid that they round from, where there is one.
 *
 * @param printed frequencies as printed, ascending or equal
 * @returns the even grid and the half-width of the rounding; undefined where the printed values do not round from an even grid
 * @source arithmetic; the trap is described with a published sweep
 */
export function regrid(printed: Float64Array): { readonly hz: Float64Array; readonly resolutionHz: number } | undefined {
  const n = printed.length;
  const step = (printed[n - 1] - printed[0]) / (n - 1);
  if (!(step > 0)) return undefined;
  let resolution = 0;
  for (let i = 1; i < n; i++) {
    const d = printed[i] - printed[i - 1];
    if (d > resolution) resolution = d;
  }
  const hz = Float64Array.from({ length: n }, (_, i) => printed[0] + i * step);
  for (let i = 0; i < n; i++) if (Math.abs(hz[i] - printed[i]) > 1.01 * resolution) return undefined;
  return { hz, resolutionHz: resolution / 2 };
}
