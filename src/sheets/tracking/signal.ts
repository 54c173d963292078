import { found } from "./amounts";
import type { Asked } from "./ask";
import type { Tracked } from "./circuit";

/** Which part of the signal circuit is off, from where it peaks or what its trimmer needs; its trimmer holds what the gang's section has too much. */
export interface SignalBlamed {
  readonly coil: number;
  readonly trimmer: number;
  readonly factor: Float64Array;
}
type Peak = Asked["peaks"][number];
/**
 * What the peaks say of the signal circuit.
 *
 * @param x inputs, with the peaks
 * @param t the circuit as it should be
 * @returns shares of coil and trimmer with the lower factor of their covariance; undefined without peaks
 * @source least squares on the circuit's resonance
 */
export function blameSignal(x: Asked, t: Tracked): SignalBlamed | undefined {
  if (x.peaks.length === 0) return undefined;
  const { henry, trimmerF } = t.signal;
  const asHz = (p: Peak): boolean => p.peaksAt > 0;
  const whole = (p: Peak, s: ArrayLike<number>): number => t.gangF(p.dial) + trimmerF * (1 + s[1]);
  const f = found(
    [x.coilDoubt, x.trimmerDoubt],
    x.peaks.map((p) =>
      asHz(p)
        ? { value: p.peaksAt, u: x.peakDoubt * p.dial }
        : // a share of the frequency is half a share of the capacitance
          { value: p.needs, u: 2 * x.peakDoubt * whole(p, [0, 0]) },
    ),
    (s, i) => {
      const p = x.peaks[i];
      return asHz(p)
        ? 1 / (2 * Math.PI * Math.sqrt(henry * (1 + s[0]) * whole(p, s)))
        : 1 / ((2 * Math.PI * p.dial) ** 2 * henry * (1 + s[0])) - whole(p, s);
    },
  );
  return f && { coil: f.at[0], trimmer: f.at[1], factor: f.factor };
}
