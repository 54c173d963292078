import { StripResponse } from "../../physics/if-strip";
import { type Leaf, type MutableStrip, stripSlot } from "../../set/strip";

/** Points of the sweep that the model can speak of. */
export interface Used {
  readonly hz: Float64Array;
  readonly db: Float64Array;
  readonly weights: Float64Array;
  readonly topDb: number;
}
/**
 * Every so-manieth point, weighed as if it were the others too: enough to search by.
 *
 * @param used points, weights in 1/dB
 * @param about how many to keep, at least
 * @returns the same points where there are few
 * @source definition: the sum of squared weights stays; checked in misses.test.ts
 */
export function thinned(used: Used, about: number): Used {
  const stride = Math.floor(used.hz.length / about);
  if (stride < 2) return used;
  const every = (v: Float64Array): Float64Array => v.filter((_, i) => i % stride === 0);
  const hz = every(used.hz);
  const grown = Math.sqrt(used.hz.length / hz.length);
  return { hz, db: every(used.db), weights: every(used.weights).map((w) => w * grown), topDb: used.topDb };
}

/** A part of the strip whose response multiplies with the others', and what it was loaded with last. */
interface Section {
  readonly response: StripResponse;
  readonly strip: MutableStrip;
  readonly leaves: readonly number[];
  readonly loaded: Float64Array;
  readonly db: Float64Array;
}
/**
 * Residuals of a strip against a sweep, over their noise, and those of its leaves against what is known beforehand. Cans multiply, so a leaf that moves
 * costs its own can's response and no other's.
 *
 * @param model the strip that values are set in
 * @param leaves its uncertain leaves
 * @param used points
 * @param leafValue value of a leaf that lies z prior spreads off, SI
 * @returns residuals of z: each leaf in units of its prior spread, then the level in tens of dB; points first, then leaves
 * @source |H|^2 of tubes without feedback is the product of the cans'; against the whole strip in misses.test.ts
 */
export function missesOf(
  model: MutableStrip,
  leaves: readonly Leaf[],
  used: Used,
  leafValue: (i: number, z: number) => number,
): (z: Float64Array, out: Float64Array) => void {
  const { hz, db, weights, topDb } = used;
  const n = leaves.length;
  const slots = leaves.map((l) => stripSlot(model, l.path));
  const sections = model.cans.map((can, k): Section => {
    // the filter goes with the first can
    const strip: MutableStrip = { ...model, cans: [can], filter: k === 0 ? model.filter : null };
    const own = leaves.flatMap((l, i) => {
      const which = /^strip\.(can(\d+)|filter)\./.exec(l.path);
      return !which || (which[2] ? Number(which[2]) - 1 : 0) === k ? [i] : [];
    });
    return {
      response: new StripResponse(),
      strip,
      leaves: own,
      loaded: new Float64Array(own.length).fill(Number.NaN),
      db: new Float64Array(hz.length),
    };
  });
  const bring = (s: Section, z: Float64Array): void => {
    if (s.leaves.every((i, j) => s.loaded[j] === z[i])) return;
    for (const [j, i] of s.leaves.entries()) s.loaded[j] = z[i];
    s.strip.intermediateFrequency = model.intermediateFrequency;
    s.response.load(s.strip);
    for (let p = 0; p < hz.length; p++) s.db[p] = 10 * Math.log10(s.response.at(hz[p]));
  };
  return (z, out) => {
    for (let i = 0; i < n; i++) slots[i].holder[slots[i].key] = leafValue(i, z[i]);
    out.fill(0, 0, hz.length);
    for (const s of sections) {
      bring(s, z);
      for (let p = 0; p < hz.length; p++) out[p] += s.db[p];
    }
    let peak = Number.NEGATIVE_INFINITY;
    for (let p = 0; p < hz.length; p++) if (out[p] > peak) peak = out[p];
    const level = z[n] * 10 + topDb - peak;
    for (let p = 0; p < hz.length; p++) out[p] = (out[p] + level - db[p]) * weights[p];
    for (let i = 0; i < n; i++) out[hz.length + i] = z[i];
  };
}
