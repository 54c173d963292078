import { setPointLeverage } from "../../physics/dial-law";
import type { Asked } from "./ask";

/** What the best setting rests on. */
export type Marked = Pick<Asked, "marks" | "oscillator" | "intermediate">;

/** How much each mark moves when the lowest one is moved by one hertz with the main dial. */
const leverages = (x: Marked): Float64Array => {
  const conversion = { intermediateHz: x.intermediate, oscillator: x.oscillator };
  const lowest = Math.min(...x.marks.map((m) => m.is));
  return Float64Array.from(x.marks, (m) => setPointLeverage(m.is, lowest, conversion));
};
/** What has most of either sign, with its sign; 0 of nothing. */
function worstOf(v: Float64Array): number {
  let worst = 0;
  for (const e of v) if (Math.abs(e) > Math.abs(worst)) worst = e;
  return worst;
}

/**
 * The move of the main dial that makes a bandspread scale truest, by least squares over its marks; laid out once for many draws.
 *
 *     e_i = says_i - is_i;  delta = sum(g_i e_i) / sum(g_i^2);  left_i = e_i - g_i delta
 *
 * @param x marks, Hz, and conversion
 * @returns leverages and errors as they stand, Hz, one a mark; the worst of them, Hz; and the best move, by the reading's standard deviation, Hz, with
 * a standard normal of each mark: shift at the lowest mark, what is left at each, the worst of it and its run along the scale, Hz
 * @source least squares of one unknown, textbook; leverage in src/physics/dial-law.ts
 */
export function settingOf(x: Marked) {
  const lever = leverages(x);
  const now = Float64Array.from(x.marks, (m) => m.says - m.is);
  const says = x.marks.map((m) => m.says);
  const middle = says.reduce((s, v) => s + v, 0) / says.length;
  const span = says.reduce((s, v) => s + (v - middle) ** 2, 0);
  const width = Math.max(...says) - Math.min(...says);
  const square = lever.reduce((s, v) => s + v * v, 0);
  const move = (markReading = 0, noise: (mark: number) => number = () => 0) => {
    // the readings hold their noise already: a draw moves the shift that they lead to, not the readings themselves
    let drawn = 0;
    for (let i = 0; i < now.length; i++) drawn += lever[i] * (now[i] + markReading * noise(i));
    const shift = drawn / square;
    const left = now.map((e, i) => e - lever[i] * shift);
    let slope = 0;
    for (let i = 0; i < left.length; i++) slope += left[i] * (says[i] - middle);
    return { shift, left, worstLeft: worstOf(left), runLeft: span > 0 ? (slope / span) * width : 0 };
  };
  return { lever, now, worstNow: worstOf(now), move };
}
