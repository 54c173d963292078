import { uniformStream } from "../../numerics/random";
import { type Conversion, oscillatorHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import type { Issue } from "../../units/issue";
import type { DialAssumed } from "./frame";

/**
 * What is wrong with the points themselves, each by its place in the list.
 *
 * @source definition
 */
export function pointIssues(points: readonly DialPoint[], scale: readonly [number, number] | undefined): Issue[] {
  const out: Issue[] = [];
  const atReading = new Map<number, number>();
  for (const [i, p] of points.entries()) {
    const path = `points row ${i + 1}`;
    if (scale && (p.reading < scale[0] || p.reading > scale[1]))
      out.push({ path, code: "off-the-scale", read: String(p.reading), expected: `a reading from ${scale[0]} to ${scale[1]}` });
    if (!(p.frequencyHz > 0)) out.push({ path, code: "not-positive", read: String(p.frequencyHz), expected: "a frequency above 0" });
    const other = atReading.get(p.reading);
    if (other !== undefined && points[other].approach === p.approach && points[other].frequencyHz !== p.frequencyHz)
      out.push({
        path,
        code: "two-at-one",
        read: `${p.reading} again, as row ${other + 1}`,
        expected: "one frequency at one reading: take one of the two back",
      });
    atReading.set(p.reading, i);
  }
  return out;
}

/**
 * Markers that stand at two readings from one side: nothing refuses them, yet where points fit no law they are the first to look at.
 *
 * @source definition
 */
export function writtenTwice(points: readonly DialPoint[]): string[] {
  const readings = points.map((p) => p.reading);
  const apart = 0.02 * (Math.max(...readings) - Math.min(...readings));
  return points.flatMap((p, i) => {
    const j = points.findIndex((q) => q.frequencyHz === p.frequencyHz && q.approach === p.approach);
    return j < i && Math.abs(points[j].reading - p.reading) > apart
      ? [
          `Look first at rows ${j + 1} and ${i + 1}: both are ${(p.frequencyHz / 1e6).toFixed(3)} MHz, at ${points[j].reading} and ${p.reading}`,
        ]
      : [];
  });
}
/**
 * Points that a cubic through random few of them fits, but for a quarter.
 *
 * @source trimmed least squares over random subsets, Rousseeuw 1984, from memory
 */
export function straightOnes(points: readonly DialPoint[], among: readonly number[], c: Conversion, assumed: DialAssumed): number[] {
  const n = among.length;
  const readings = among.map((i) => points[i].reading);
  const [low, high] = [Math.min(...readings), Math.max(...readings)];
  const place = (r: number): number => (2 * r - low - high) / (high - low || 1);
  // a straight-line-frequency capacitor is a cubic in f, one of straight-line capacitance in 1/f^2: each has its turn
  const links = [(f: number) => f ** -2, Math.log, (f: number) => f].map((link) => {
    const y = among.map((i) => link(oscillatorHz(points[i].frequencyHz, c)));
    const [y0, y1] = [Math.min(...y), Math.max(...y)];
    return y.map((v) => (2 * v - y0 - y1) / (y1 - y0 || 1));
  });
  const x = readings.map(place);
  const most = Math.ceil(0.75 * n);
  const chance = uniformStream(1, "trimmed subsets", 400 * 4);
  let best = Number.POSITIVE_INFINITY;
  let residuals: number[] = [];
  for (let k = 0; k < 400; k++) {
    const chosen = new Set<number>();
    for (let j = 0; j < 4; j++) chosen.add(Math.min(n - 1, Math.floor(chance[4 * k + j] * n)));
    if (chosen.size < 4 || new Set([...chosen].map((i) => x[i])).size < 4) continue;
    const through = [...chosen];
    for (const z of links) {
      const off = x.map((v, i) => z[i] - lagrange(through, x, z, v));
      const trimmed = off
        .map((v) => v * v)
        .sort((a, b) => a - b)
        .slice(0, most)
        .reduce((s, v) => s + v, 0);
      if (trimmed < best) {
        best = trimmed;
        residuals = off;
      }
    }
  }
  if (residuals.length === 0) return [...among];
  // z runs over 2 along the scale: what a division is worth, and what a cubic may miss by
  const division = 2 / (high - low || 1);
  const limit = Math.max(12 * Math.sqrt(best / most), 8 * assumed.readingNoise * division);
  return among.filter((_, i) => Math.abs(residuals[i]) <= limit);
}
function lagrange(through: readonly number[], x: readonly number[], z: readonly number[], v: number): number {
  let sum = 0;
  for (const i of through) {
    let term = z[i];
    for (const j of through) if (j !== i) term *= (v - x[j]) / (x[i] - x[j]);
    sum += term;
  }
  return sum;
}
