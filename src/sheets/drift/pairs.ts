import { compensatorF } from "../../physics/temperature";
import { eSeries } from "../../standards/preferred";

/** Markings that compensators come in: minus so many millionths per kelvin. Common practice, no source. */
const markings = [220, 330, 470, 750, 1500] as const;
/** Standard values from 1 pF to under 1000 pF, F. */
const values: readonly number[] = [1e-12, 1e-11, 1e-10].flatMap((decade) => eSeries(12).map((v) => v * decade));

/** One standard capacitor, or two side by side, nearest to what is needed; the second is 0 where one does. */
export interface StandardPair {
  readonly firstF: number;
  readonly secondF: number;
}
/**
 * The standard value nearest to a wanted one, or the pair side by side that comes nearer.
 *
 * @param wantedF F, above 0
 * @returns the pair, the larger first; one alone where it is within 2 %, or where two come no nearer
 * @source E12 of IEC 60063; the search over all pairs
 */
export function nearestPair(wantedF: number): StandardPair {
  const off = (p: StandardPair): number => Math.abs(p.firstF + p.secondF - wantedF);
  const nearer = (a: StandardPair, b: StandardPair): StandardPair => (off(b) < off(a) * (1 - 1e-9) ? b : a);
  const single = values.map((firstF): StandardPair => ({ firstF, secondF: 0 })).reduce(nearer);
  if (off(single) <= 0.02 * wantedF) return single;
  return values
    .flatMap((firstF) => values.filter((v) => v <= firstF).map((secondF): StandardPair => ({ firstF, secondF })))
    .reduce(nearer, single);
}

/**
 * What each marking takes, as computed and as standard values side by side, and what is then left.
 *
 * @param perKelvin drift of the frequency per kelvin now, relative
 * @param circuitF whole capacitance of the circuit there, F
 * @param replacedPerK coefficient of what it replaces
 * @returns rows: marking, F wanted, first and second standard capacitor (NaN where there is no second), relative drift per kelvin left
 * @source compensatorF; df/f = -dC/(2 C)
 */
export function markingRows(perKelvin: number, circuitF: number, replacedPerK: number): (number | string)[][] {
  return markings.map((n) => {
    const wantedF = compensatorF(perKelvin, circuitF, n * 1e-6, replacedPerK);
    const { firstF, secondF } = nearestPair(wantedF);
    const left = perKelvin + ((firstF + secondF) * (n * 1e-6 + replacedPerK)) / (2 * circuitF);
    return [`N${n}`, wantedF, firstF, secondF === 0 ? Number.NaN : secondF, left];
  });
}
