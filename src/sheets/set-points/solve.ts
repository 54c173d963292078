import { type Conversion, setPointLeverage } from "../../physics/dial-law";

/** A mark of the bandspread scale: what it says, and where the set is when the pointer stands on it. */
export interface Mark {
  readonly says: number;
  readonly is: number;
}
export interface SetPointInputs {
  readonly marks: readonly Mark[];
  readonly oscillator: Conversion["oscillator"];
  readonly intermediate: number;
  readonly markReading: number;
  readonly tolerance: number;
}

/** How much each mark moves when the lowest one is moved by one hertz with the main dial. */
export const leverages = (x: SetPointInputs): number[] => {
  const conversion = { intermediateHz: x.intermediate, oscillator: x.oscillator };
  const lowest = Math.min(...x.marks.map((m) => m.is));
  return x.marks.map((m) => setPointLeverage(m.is, lowest, conversion));
};

/**
 * The shift of the main dial that makes a bandspread scale truest, by least squares over its marks, and what it leaves.
 *
 *     e_i = says_i - is_i;  delta = sum(g_i e_i) / sum(g_i^2);  left_i = e_i - g_i delta
 *
 * @param x marks, conversion
 * @param noise standard normals, one a mark, for a draw; absent at the best values
 * @returns shift at the lowest mark, Hz, and what is left at each mark, Hz
 * @source least squares of one unknown, textbook; leverage in src/physics/dial-law.ts
 */
export function bestSetPoint(x: SetPointInputs, noise?: (mark: number) => number) {
  const g = leverages(x);
  // the readings hold their noise already: a draw moves the shift that they lead to, not the readings themselves
  const e = x.marks.map((m) => m.says - m.is);
  const drawn = e.map((v, i) => v + (noise ? x.markReading * noise(i) : 0));
  const shift = drawn.reduce((s, v, i) => s + g[i] * v, 0) / g.reduce((s, v) => s + v * v, 0);
  const left = e.map((v, i) => v - g[i] * shift);
  const worst = (v: readonly number[]): number => v.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  const middle = x.marks.reduce((s, m) => s + m.says, 0) / x.marks.length;
  const span = x.marks.reduce((s, m) => s + (m.says - middle) ** 2, 0);
  const width = Math.max(...x.marks.map((m) => m.says)) - Math.min(...x.marks.map((m) => m.says));
  const slope = span > 0 ? left.reduce((s, v, i) => s + v * (x.marks[i].says - middle), 0) / span : 0;
  return { shift, left, worstNow: worst(e), worstLeft: worst(left), runLeft: slope * width };
}
