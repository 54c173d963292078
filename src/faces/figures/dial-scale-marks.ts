import { type DialFit, dialAt, reach, readingFor } from "../../infer/dial/fitted";

/** A mark of a dial scale; what has a label is a whole step. */
interface Mark {
  readonly reading: number;
  readonly lengthMm: number;
  readonly label?: string;
}

const nice = [1e3, 2e3, 5e3, 10e3, 20e3, 25e3, 50e3, 100e3, 200e3, 250e3, 500e3, 1e6, 2e6, 5e6];
/**
 * Marks so that no two of a kind stand closer than can be read.
 *
 * @param fit the dial's law
 * @param trackMm length of the scale
 * @param span of its readings from end to end
 * @returns marks, rising in frequency
 */
export function marksOf(fit: DialFit, trackMm: number, span: number): Mark[] {
  const [a, b] = reach(fit);
  const ends = [dialAt(fit, a).hz, dialAt(fit, b).hz].sort((x, y) => x - y);
  const usedMm = (trackMm * (b - a)) / span;
  const stepFor = (leastMm: number): number => nice.find((s) => (usedMm * s) / (ends[1] - ends[0]) >= leastMm) ?? nice[nice.length - 1];
  const major = stepFor(11);
  const minor = nice.filter((s) => major % s === 0 && s < major && (usedMm * s) / (ends[1] - ends[0]) >= 1)[0] ?? major;
  // as many as the step itself has in MHz: a label is never rounded
  const decimals = [0, 1, 2, 3].find((d) => Number.isInteger((major * 10 ** d) / 1e6)) ?? 3;
  const out: Mark[] = [];
  for (let k = Math.ceil(ends[0] / minor); k * minor <= ends[1]; k++) {
    const hz = k * minor;
    const reading = readingFor(fit, hz);
    if (reading === undefined) continue;
    const whole = hz % major === 0;
    const half = hz % (major / 2) === 0;
    out.push({ reading, lengthMm: whole ? 5 : half ? 3.6 : 2.4, ...(whole ? { label: (hz / 1e6).toFixed(decimals) } : {}) });
  }
  return out;
}
