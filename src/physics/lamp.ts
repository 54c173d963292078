/** A tungsten lamp's current goes as its volts to this power. Source: re-rating exponents of incandescent lamps as an encyclopedia's article and a maker's sheet give them; read, editions not kept. */
export const lampExponent = 0.55;
/** Cold over hot resistance of a large lamp. Source: 9.5 ohm cold for 144 ohm hot (100 W, 120 V), read. */
export const lampColdShare = 1 / 15.2;

/** Volts over the rated ones below which the cold filament rules. */
const coldVoltsShare = lampColdShare ** (1 / (1 - lampExponent));

export interface InSeries {
  readonly setV: number;
  readonly lampV: number;
  readonly ampere: number;
}
/**
 * A lamp in series with a set, the set as a resistance.
 *
 * @param lineV volts of the line
 * @param lampW rated power of the lamp at
 * @param lampRatedV its rated volts
 * @param setOhm resistance of the set, ohm; 0 for a dead short
 * @param fromV volts of the lamp to begin from, above 0, such as those beside a load that is nearly the same
 * @returns volts of the set and of the lamp, and the current, A
 * @source lamp law I = I0 (V/V0)^0.55, near nothing the cold filament; Kirchhoff; Newton, which from below climbs to the one root of a concave law, and from above is below it after a step
 */
export function lampInSeries(lineV: number, lampW: number, lampRatedV: number, setOhm: number, fromV = 0): InSeries {
  const coldOhm = (lampRatedV ** 2 / lampW) * lampColdShare;
  const ratedA = lampW / lampRatedV;
  // below this the cold filament rules
  const coldV = Math.min(lineV, lampRatedV * coldVoltsShare);
  if (coldV + (coldV / coldOhm) * setOhm >= lineV) {
    const v = lineV / (1 + setOhm / coldOhm);
    return { setV: lineV - v, lampV: v, ampere: v / coldOhm };
  }
  let v = Math.max(coldV, fromV);
  let ampere = 0;
  for (let i = 0; i < 40; i++) {
    // the power by exp and log, which are much quicker
    const here = ratedA * Math.exp(lampExponent * Math.log(v / lampRatedV));
    const step = (lineV - v - here * setOhm) / (1 + (lampExponent * here * setOhm) / v);
    ampere = here * (1 + (lampExponent * step) / v);
    v += step;
    // what is left is of the order of the step's square
    if (Math.abs(step) < 1e-4 * v) break;
  }
  return { setV: lineV - v, lampV: v, ampere };
}

/**
 * Power that a set would take at a line voltage, as a resistance, from the volts left across it behind a bulb.
 *
 * @param lineV volts of the line
 * @param lampW rated power of the lamp
 * @param lampRatedV its rated volts
 * @param setV volts across the set
 * @param atV line voltage to state the power at
 * @returns W; the set's resistance is atV^2 over it
 * @source the same law, solved for the set
 */
export function loadBehindLamp(lineV: number, lampW: number, lampRatedV: number, setV: number, atV: number): number {
  const lampV = lineV - setV;
  const ampere = (lampW / lampRatedV) * (lampV / lampRatedV) ** lampExponent;
  return (atV ** 2 * ampere) / setV;
}
