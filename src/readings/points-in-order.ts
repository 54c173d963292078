import { bad, good, type Read } from "../units/issue";
import type { Sweep } from "./sweep";
import { regrid } from "./text";

/** Points of a sweep as they stand in a file. */
export interface Points extends Pick<Sweep, "complex" | "levelUDb"> {
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
}
interface Ordered {
  readonly points: Points;
  readonly resolutionHz: number;
  readonly warnings: readonly string[];
}

/**
 * Points with their frequencies ascending: turned round where they were swept downwards, put back on their grid where they were printed with too few digits.
 *
 * @param taken points, at least 2
 * @param printed frequencies as the file prints them, for the error
 * @param at where the point of a row stands in the file
 * @returns the points, the half-width that the printed digits leave open in Hz, what was done to them; or the located issue
 * @source house rule
 */
export function inOrder(taken: Points, printed: Float64Array, at: (row: number) => string): Read<Ordered> {
  const odd = taken.frequencyHz.findIndex((v, i) => !Number.isFinite(v) || !Number.isFinite(taken.levelDb[i]));
  if (odd >= 0) return bad(at(odd), "out-of-range", String(printed[odd]), "a frequency and a level within the range of numbers");
  const downwards = taken.frequencyHz[taken.frequencyHz.length - 1] < taken.frequencyHz[0];
  const points = downwards ? turned(taken) : taken;
  const hz = points.frequencyHz;
  const turning = downwards ? ["swept downwards: reversed"] : [];
  for (let i = 1; i < hz.length; i++)
    if (hz[i] < hz[i - 1]) return bad(at(i), "unsorted", String(printed[i]), `frequencies in order: ${printed[i - 1]} comes before it`);
  const repeats = hz.reduce((n, v, i) => (i > 0 && v === hz[i - 1] ? n + 1 : n), 0);
  if (repeats === 0) return good({ points, resolutionHz: 0, warnings: turning });
  const grid = hz.length > 8 ? regrid(hz) : undefined;
  const first = hz.findIndex((v, i) => i > 0 && v === hz[i - 1]);
  if (!grid) return bad(at(first), "duplicate-frequency", String(printed[first]), "each frequency once");
  const rounded = `${repeats} frequencies repeat because they were printed with too few digits; put back on the even grid that they round from`;
  return good({ points: { ...points, frequencyHz: grid.hz }, resolutionHz: grid.resolutionHz, warnings: [...turning, rounded] });
}

const turned = ({ frequencyHz, levelDb, levelUDb, complex }: Points): Points => ({
  frequencyHz: frequencyHz.slice().reverse(),
  levelDb: levelDb.slice().reverse(),
  ...(levelUDb ? { levelUDb: levelUDb.slice().reverse() } : {}),
  ...(complex ? { complex: { re: complex.re.slice().reverse(), im: complex.im.slice().reverse() } } : {}),
});
