/** The strip's law for many frequencies at once, by if-strip-wide.wat where WebAssembly with SIMD is to be had. */
import { perCan } from "./if-strip-numbers";
import bytes from "./if-strip-wide.wat";
import { type Gains, looks, looksMemory, mostLooks } from "./response";

/** What hangs on a plate through a capacitor: a parallel circuit. SI. */
export interface SeriesLoad {
  readonly conductanceS: number;
  readonly capacitanceF: number;
  /** sum of 1/L */
  readonly inverseH: number;
  readonly seriesF: number;
  /** susceptance at each frequency, S, of what is no such circuit; capacitance and 1/L are then not looked at */
  readonly susceptanceS?: Float64Array;
}

/** Numbers of a strip as its responses lay them: others are another object, so that the same ones are copied once. */
export interface StripNumbers {
  /** twelve for each can */
  readonly cans: Float64Array;
  /** ten, or none where no filter stands in the strip */
  readonly ladder: Float64Array | undefined;
}
/** A strip, and what hangs on its first plate, if anything. */
export interface Hung {
  readonly strip: StripNumbers;
  readonly load: SeriesLoad | undefined;
}
/** Most numbers of cans that the memory has room for. */
const mostOfCans = 480;
/** Places in the memory, in numbers of eight bytes: see if-strip-wide.wat. */
const at = { load: 0, ladder: 4, couplings: 14, cans: 16 };
/** Which of a can's numbers is gm M. */
const coupling = 5;

export interface WideStrip {
  /**
   * Power gain |H|^2 at many frequencies.
   *
   * @param of the strip and its load
   * @param hz frequencies, Hz
   * @param into |H|^2
   * @param count how many of them
   */
  readonly power: (of: Hung, hz: Float64Array, into: Float64Array, count: number) => void;
  /** The complex gain in the same way, beside its frequencies. */
  readonly complex: (of: Hung, g: Gains, count: number) => void;
}

type Respond = (bytes: number, end: number, loaded: number, filtered: number, complex: number) => void;

/** A stretch of numbers; copied as a whole it goes quicker than one by one. */
const part = (of: Float64Array, from: number, n: number): Float64Array => (n === of.length ? of : of.subarray(from, from + n));

/** Asks the module for the frequencies from one on, so many as there is room for; gives how many. */
type Run = (of: Hung, hz: Float64Array, from: number, count: number, complex: 0 | 1) => number;
function runOf(respond: Respond, memory: Float64Array): Run {
  let there: StripNumbers | undefined;
  const lay = (strip: StripNumbers): void => {
    const { cans, ladder } = strip;
    if (ladder) for (let i = 0; i < 10; i++) memory[at.ladder + i] = ladder[i];
    for (let i = 0; i < cans.length; i++) memory[at.cans + i] = cans[i];
    let couplings = 1;
    for (let i = coupling; i < cans.length; i += perCan) couplings *= cans[i];
    memory[at.couplings] = couplings;
    there = strip;
  };
  return ({ strip, load }, hz, from, count, complex) => {
    if (strip !== there) lay(strip);
    const n = Math.min(mostLooks, count - from);
    if (load) {
      memory[at.load] = load.conductanceS;
      memory[at.load + 1] = load.capacitanceF;
      memory[at.load + 2] = load.inverseH;
      memory[at.load + 3] = load.seriesF;
      if (load.susceptanceS) looks.im.set(part(load.susceptanceS, from, n));
    }
    if (hz !== looks.hz) looks.hz.set(part(hz, from, n));
    // two to a step: the last of an odd number stands twice
    if (n & 1) {
      looks.hz[n] = looks.hz[n - 1];
      looks.im[n] = looks.im[n - 1];
    }
    const end = 8 * (at.cans + strip.cans.length);
    respond(8 * (n + (n & 1)), end, load?.susceptanceS ? 2 : load ? 1 : 0, strip.ladder ? 1 : 0, complex);
    return n;
  };
}

/** Asks stretch after stretch, and copies the answers to where they are wanted. */
function inStretches(run: Run): WideStrip {
  // answers of one length come one after the other: the stretch that they are copied from is made once
  let power = looks.power;
  let re = looks.re;
  let im = looks.im;
  const stretch = (n: number): void => {
    if (power.length === n) return;
    power = looks.power.subarray(0, n);
    re = looks.re.subarray(0, n);
    im = looks.im.subarray(0, n);
  };
  return {
    power: (of, hz, into, count) => {
      for (let from = 0, n = 0; from < count; from += n) {
        n = run(of, hz, from, count, 0);
        if (into === looks.power) continue;
        stretch(n);
        into.set(power, from);
      }
    },
    complex: (of, g, count) => {
      for (let from = 0, n = 0; from < count; from += n) {
        n = run(of, g.hz, from, count, 1);
        if (g.re === looks.re) continue;
        stretch(n);
        g.re.set(re, from);
        g.im.set(im, from);
      }
    },
  };
}

function start(): WideStrip | undefined {
  if (!looksMemory) return undefined;
  try {
    const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { looks: { memory: looksMemory } });
    return inStretches(runOf(exports.respond as Respond, new Float64Array(looksMemory.buffer)));
  } catch {
    // refused or too old: the plain law says the same, only more slowly
    return undefined;
  }
}
/** Once for all strips, when the first is asked: what lasts in it from one call to the next is which strip was laid there last. */
const begun: { tried: boolean; wide: WideStrip | undefined } = { tried: false, wide: undefined };

/**
 * The wide law, for strips that it has room for.
 *
 * @param cans numbers of the cans, twelve for each
 * @returns it; undefined where WebAssembly with SIMD is not to be had, or where so many cans stand in no real strip
 * @source the law of if-strip.ts; held against it in if-strip-wide.crosscheck.test.ts
 */
export function wideStrip(cans: Float64Array): WideStrip | undefined {
  if (cans.length === 0 || cans.length > mostOfCans) return undefined;
  if (!begun.tried) {
    begun.wide = start();
    begun.tried = true;
  }
  return begun.wide;
}
