/** The ladder over one period, its two nodes behind the first side by side, by supply-ladder-wide.wat where WebAssembly with SIMD is to be had. */
import bytes from "./supply-ladder-wide.wat";
import type { Rungs, Tables } from "./supply-rungs";

/** A ladder as it stands: what a period is run on. SI. */
export interface LadderNow {
  readonly steps: number;
  readonly rungs: Rungs;
  readonly tables: Tables;
  readonly source: { readonly crest: number; readonly ohm: number; readonly perveance: number; readonly drop: number };
  /** root of the diode's drop at each step of its run before, length `steps`; written by none but the runs */
  readonly roots: Float64Array;
}
/** Places of sums over a period: five for each of the three nodes; re and im are the fundamental's, not yet over the steps; then the rectifier's current. */
export const inSums = { each: 5, sum: 0, low: 1, high: 2, re: 3, im: 4, ampere: 15, squares: 16, peak: 17, count: 18 } as const;
export interface WideLadder {
  /**
   * Runs one period.
   *
   * @param now the ladder
   * @param from state at its start: volts of the three nodes, mA of the two branches
   * @param to the same at its end, overwritten
   */
  readonly run: (now: LadderNow, from: Float64Array, to: Float64Array) => void;
  /** Writes the sums over the period that this ladder ran last, see `inSums`; false where another ran since. */
  readonly sums: (now: LadderNow, into: Float64Array) => boolean;
}

/** Most steps that the memory has room for. */
const mostSteps = 1024;
/** Places in the memory, in numbers of eight bytes: see supply-ladder-wide.wat. */
const at = { pairs: 12, start: 34, end: 40, sums: 46, source: 64, cos: 64 + mostSteps, sin: 64 + 2 * mostSteps, roots: 64 + 3 * mostSteps };

/** Writes what stays over the period, and its past, into the memory. As staysOf and pastOf have it; number by number, since it is done thousands of times. */
function write(f: Float64Array, { rungs, source }: LadderNow, from: Float64Array): void {
  const first = rungs[0];
  const second = rungs[1];
  const third = rungs[2];
  const s2 = third.branch / (third.branch + third.shunt);
  const sum1 = second.shunt + s2 * third.shunt;
  const s1 = second.branch / (second.branch + sum1);
  const sum0 = first.shunt + s1 * sum1;
  const s12 = s1 * s2;
  const r1 = s1 / second.branch;
  const t1 = s1 - 1;
  const t2 = s12 - s1;
  const w1 = second.wound ? second.branch : 0;
  const w2 = third.wound ? third.branch : 0;
  const u1 = w1 * (1 + second.coil * second.branch);
  const u2 = w2 * (1 + third.coil * third.branch);
  const series = 1 + sum0 * source.ohm;
  f[0] = source.crest;
  f[1] = source.drop;
  f[2] = source.ohm;
  f[3] = source.perveance;
  f[4] = source.perveance * series;
  f[5] = sum0;
  f[6] = 1 / sum0;
  f[7] = series;
  f[8] = 2 * (first.cap + second.cap * s1 * s1 + third.cap * s12 * s12) - t1 * t1 * u1 - t2 * t2 * u2;
  f[9] = 2 * first.cap;
  f[10] = 2 * first.draw;
  f[11] = 2 * (first.draw + s1 * second.draw + s12 * third.draw);
  f[at.pairs] = r1;
  f[at.pairs + 1] = s2 * r1;
  f[at.pairs + 2] = r1 * s2;
  f[at.pairs + 3] = s2 * s2 * r1 + s2 / third.branch;
  f[at.pairs + 4] = 2 * second.cap * s1 - t1 * u1 + t2 * u2;
  f[at.pairs + 5] = 2 * third.cap * s12 - t2 * u2;
  f[at.pairs + 6] = s1;
  f[at.pairs + 7] = s12;
  f[at.pairs + 8] = t1 * w1 * second.coil;
  f[at.pairs + 9] = t2 * w2 * third.coil;
  f[at.pairs + 10] = 2 * second.cap;
  f[at.pairs + 11] = 2 * third.cap;
  f[at.pairs + 12] = 2 * second.draw;
  f[at.pairs + 13] = 2 * third.draw;
  f[at.pairs + 14] = u1;
  f[at.pairs + 15] = u2;
  f[at.pairs + 16] = w1 * second.coil;
  f[at.pairs + 17] = w2 * third.coil;
  f[at.pairs + 18] = second.branch;
  f[at.pairs + 19] = third.branch;
  writePast(f, rungs, from);
  f[at.start + 1] = f[at.start] + s1 * f[at.start + 2] + s12 * f[at.start + 3] + t1 * f[at.start + 4] + t2 * f[at.start + 5];
}
/** The past less what is drawn: of the first node, of the two behind it, of the chokes. */
function writePast(f: Float64Array, rungs: Rungs, from: Float64Array): void {
  const first = rungs[0];
  const second = rungs[1];
  const third = rungs[2];
  const i1 = second.wound ? 1e-3 * from[3] : (from[0] - from[1]) * second.branch;
  const i2 = third.wound ? 1e-3 * from[4] : (from[1] - from[2]) * third.branch;
  f[at.start] = (first.cap > 0 ? (2 * first.cap - first.shunt) * from[0] - i1 - first.draw : 0) - first.draw;
  f[at.start + 2] = (second.cap > 0 ? (2 * second.cap - second.shunt) * from[1] + i1 - i2 - second.draw : 0) - second.draw;
  f[at.start + 3] = (third.cap > 0 ? (2 * third.cap - third.shunt) * from[2] + i2 - third.draw : 0) - third.draw;
  f[at.start + 4] = second.wound ? second.branch * (from[0] - from[1] + second.coil * i1) : 0;
  f[at.start + 5] = third.wound ? third.branch * (from[1] - from[2] + third.coil * i2) : 0;
}

function start(): WideLadder | undefined {
  if (typeof WebAssembly === "undefined" || !WebAssembly.Memory) return undefined;
  try {
    const memory = new WebAssembly.Memory({ initial: 2 });
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { ladder: { memory } });
    const period = exports.run as (bytes: number) => void;
    const summed = exports.sums as (bytes: number) => void;
    const f = new Float64Array(memory.buffer);
    // the memory is lent to one ladder at a time, which finds its roots there as it left them
    const lent: { roots: Float64Array | undefined; tables: Tables | undefined } = { roots: undefined, tables: undefined };
    const lend = ({ roots, tables }: LadderNow): void => {
      lent.roots?.set(f.subarray(at.roots, at.roots + lent.roots.length));
      f.set(roots, at.roots);
      lent.roots = roots;
      if (lent.tables === tables) return;
      f.set(tables.source, at.source);
      f.set(tables.cos, at.cos);
      f.set(tables.sin, at.sin);
      lent.tables = tables;
    };
    return {
      run: (now, from, to) => {
        if (lent.roots !== now.roots || lent.tables !== now.tables) lend(now);
        write(f, now, from);
        period(8 * now.steps);
        to[0] = f[at.end];
        to[1] = f[at.end + 2];
        to[2] = f[at.end + 3];
        to[3] = 1e3 * f[at.end + 4];
        to[4] = 1e3 * f[at.end + 5];
      },
      sums: ({ roots, steps }, into) => {
        if (lent.roots !== roots) return false;
        summed(8 * steps);
        // those of the first node stand one after the other, those of the two behind it in pairs
        for (let i = 0; i < inSums.each; i++) {
          into[i] = f[at.sums + i];
          into[inSums.each + i] = f[at.sums + inSums.each + 2 * i];
          into[2 * inSums.each + i] = f[at.sums + inSums.each + 2 * i + 1];
        }
        for (let i = inSums.ampere; i < inSums.count; i++) into[i] = f[at.sums + i];
        return true;
      },
    };
  } catch {
    // refused or too old: the plain law says the same, only more slowly
    return undefined;
  }
}
/** Once for all ladders, when the first is asked. */
const begun: { tried: boolean; wide: WideLadder | undefined } = { tried: false, wide: undefined };

/**
 * The wide law, for periods that it has room for.
 *
 * @param steps of a period
 * @returns it; undefined where WebAssembly with SIMD is not to be had, or where a period has more steps
 * @source the law of supply-ladder.ts; held against it in supply-ladder-wide.crosscheck.test.ts
 */
export function wideLadder(steps: number): WideLadder | undefined {
  if (steps > mostSteps) return undefined;
  if (!begun.tried) {
    begun.wide = start();
    begun.tried = true;
  }
  return begun.wide;
}
