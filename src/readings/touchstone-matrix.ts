import { bad, good, type Read } from "../units/issue";
import type { Network } from "./network";
import { plainNumber, regrid } from "./text";
import type { Scanned, Token } from "./touchstone-lines";

/** How the numbers of a point lie in the file. */
export interface Layout {
  readonly ports: number;
  readonly version: 1 | 2;
  readonly referenceOhm: readonly number[];
  /** numbers a point, its frequency among them */
  readonly per: number;
  /** row and column of the k-th pair of numbers */
  readonly cell: (k: number) => readonly [row: number, column: number];
  /** what a number of that place is multiplied by */
  readonly scale: (row: number, column: number) => number;
  /** whether half of a symmetric matrix stands for all of it */
  readonly mirror: boolean;
  /** what noise resistances are multiplied by, ohm */
  readonly noiseOhm: number;
}
interface Matrices {
  readonly frequencyHz: Float64Array;
  readonly re: readonly Float64Array[];
  readonly im: readonly Float64Array[];
  readonly repeats: number;
}

/** Real and imaginary part of one pair of numbers, as the format of the file has them. */
function part(format: Network["format"], a: number, b: number, times: number): readonly [re: number, im: number] {
  if (format === "RI") return [times * a, times * b];
  const size = format === "DB" ? 10 ** (a / 20) : a;
  return [times * (size * Math.cos((b * Math.PI) / 180)), times * (size * Math.sin((b * Math.PI) / 180))];
}
/** One point's matrix, written into the columns. */
function fillPoint(s: Scanned, layout: Layout, data: readonly Token[], p: number, m: Matrices): Read<true> {
  const { per, ports } = layout;
  for (let k = 0; 2 * k + 2 < per; k++) {
    const [row, column] = layout.cell(k);
    const first = data[p * per + 1 + 2 * k];
    const [x, y] = part(
      s.options.format,
      plainNumber(first.text)!,
      plainNumber(data[p * per + 2 + 2 * k].text)!,
      layout.scale(row, column),
    );
    if (!Number.isFinite(x) || !Number.isFinite(y))
      return bad(`${s.name} line ${first.line}`, "out-of-range", first.text, "a level within the range of numbers");
    m.re[row * ports + column][p] = x;
    m.im[row * ports + column][p] = y;
    if (layout.mirror) {
      m.re[column * ports + row][p] = x;
      m.im[column * ports + row][p] = y;
    }
  }
  return good(true);
}
function matricesOf(s: Scanned, layout: Layout, data: readonly Token[]): Read<Matrices> {
  const { per, ports } = layout;
  const points = data.length / per;
  const frequencyHz = new Float64Array(points);
  const columns = (): Float64Array[] => Array.from({ length: ports * ports }, () => new Float64Array(points));
  const m = { frequencyHz, re: columns(), im: columns(), repeats: 0 };
  for (let p = 0; p < points; p++) {
    const at = data[p * per];
    const where = `${s.name} line ${at.line}`;
    frequencyHz[p] = plainNumber(at.text)! * s.options.unitHz;
    if (!Number.isFinite(frequencyHz[p])) return bad(where, "out-of-range", at.text, "a frequency that a number can hold");
    if (p > 0 && frequencyHz[p] < frequencyHz[p - 1])
      return bad(where, "unsorted", at.text, `a frequency above ${data[(p - 1) * per].text}: frequencies must ascend`);
    if (p > 0 && frequencyHz[p] === frequencyHz[p - 1]) m.repeats++;
    const filled = fillPoint(s, layout, data, p, m);
    if (!filled.ok) return filled;
  }
  return good(m);
}
/** Frequencies that repeat, put back on the grid that they were rounded from. */
function spreadOut(
  s: Scanned,
  per: number,
  data: readonly Token[],
  { frequencyHz, repeats }: Matrices,
): Read<Pick<Network, "frequencyHz" | "resolutionHz">> {
  if (repeats === 0) return good({ frequencyHz, resolutionHz: 0 });
  const grid = frequencyHz.length > 8 ? regrid(frequencyHz) : undefined;
  if (!grid) {
    const at = data[per * frequencyHz.findIndex((f, i) => i > 0 && f === frequencyHz[i - 1])];
    return bad(`${s.name} line ${at.line}`, "duplicate-frequency", at.text, "each frequency once");
  }
  s.warnings.push(
    `${repeats} frequencies repeat because they were printed with too few digits; put back on the even grid of ${(grid.hz[1] - grid.hz[0]).toPrecision(6)} Hz that they round from`,
  );
  return good({ frequencyHz: grid.hz, resolutionHz: grid.resolutionHz });
}
function noiseOf(s: Scanned, tokens: readonly Token[], noiseOhm: number): Read<Network["noise"]> {
  const noise = Array.from({ length: tokens.length / 5 }, (_, i) => {
    const [f, nf, m, d, r] = tokens.slice(5 * i, 5 * i + 5).map((t) => plainNumber(t.text)!);
    return { frequencyHz: f * s.options.unitHz, minimumDb: nf, sourceMagnitude: m, sourceDeg: d, resistanceOhm: r * noiseOhm };
  });
  const odd = noise.findIndex((v) => !Number.isFinite(v.frequencyHz) || !Number.isFinite(v.resistanceOhm));
  return odd >= 0
    ? bad(`${s.name} line ${tokens[5 * odd].line}`, "out-of-range", tokens[5 * odd].text, "noise data that a number can hold")
    : good(noise);
}

/**
 * The network that rows of numbers state.
 *
 * @param s the file taken apart; what is odd and harmless is added to its warnings
 * @param layout how the numbers of a point lie
 * @param data numbers of the network, whole points
 * @param noiseTokens numbers of the noise data, five a point
 * @returns matrices by frequency, SI; or the located issue
 * @source Touchstone File Format Specification 2.1 (IBIS Open Forum, January 2024)
 */
export function networkOf(s: Scanned, layout: Layout, data: readonly Token[], noiseTokens: readonly Token[]): Read<Network> {
  const matrices = matricesOf(s, layout, data);
  if (!matrices.ok) return matrices;
  const axis = spreadOut(s, layout.per, data, matrices.value);
  if (!axis.ok) return axis;
  const noise = noiseOf(s, noiseTokens, layout.noiseOhm);
  if (!noise.ok) return noise;
  const { ports, version, referenceOhm } = layout;
  const { parameter, format } = s.options;
  const { re, im } = matrices.value;
  return good({ ports, parameter, format, referenceOhm, ...axis.value, re, im, noise: noise.value, version, warnings: s.warnings });
}
