/** What a response can be asked, one frequency at a time or many at once. */

/** Complex gain at many frequencies: its parts stand beside each, length n or more. */
export interface Gains {
  readonly hz: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Power response |H|^2 at a frequency in Hz; `complexAt` leaves the complex gain in `re` and `im`. */
export interface Response {
  at(hz: number): number;
  complexAt(hz: number): void;
  readonly re: number;
  readonly im: number;
  /** Power at the first `count` of many frequencies, where a response knows a quicker way than one by one. */
  fillPower?(hz: Float64Array, into: Float64Array, count: number): void;
  /** Complex gain at the first `count` of many. */
  fillGain?(g: Gains, count: number): void;
}

/**
 * Power response at many frequencies.
 *
 * @param r response
 * @param hz frequencies, length n or more, Hz
 * @param into |H|^2, length n or more
 * @param count n
 * @source house frame
 */
export function powersAt(r: Response, hz: Float64Array, into: Float64Array, count: number): void {
  if (r.fillPower) r.fillPower(hz, into, count);
  else for (let i = 0; i < count; i++) into[i] = r.at(hz[i]);
}

/**
 * Complex gain at many frequencies.
 *
 * @param r response
 * @param g its `hz`, Hz, are asked after; the parts of the gain are left in its `re` and `im`; length n or more
 * @param count n
 * @source house frame
 */
export function gainsAt(r: Response, g: Gains, count: number): void {
  if (r.fillGain) r.fillGain(g, count);
  else
    for (let i = 0; i < count; i++) {
      r.complexAt(g.hz[i]);
      g.re[i] = r.re;
      g.im[i] = r.im;
    }
}

/** Most frequencies that are looked at in one go. */
export const mostLooks = 512;
/** The memory that looks lie in where WebAssembly is to be had, so that nothing is copied: its places are told in if-strip-wide.wat. */
export const looksMemory = typeof WebAssembly === "undefined" || !WebAssembly.Memory ? undefined : new WebAssembly.Memory({ initial: 1 });
const [hzAt, reAt, imAt] = [4096, 8192, 12288] as const;
const placeOf = (at: number): Float64Array =>
  looksMemory ? new Float64Array(looksMemory.buffer, at, mostLooks) : new Float64Array(mostLooks);
const re = placeOf(reAt);
/** Where a look is prepared and read; powers stand where the real parts do. Nothing in it lasts from one look to the next. */
export const looks = { hz: placeOf(hzAt), power: re, re, im: placeOf(imAt) } as const;
