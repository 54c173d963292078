/**
 * Time for a capacitor to fall through a resistor.
 *
 * @param farad F
 * @param ohm ohm; infinite for none
 * @param fromV volts at first
 * @param toV volts to reach, under fromV
 * @returns s; infinite where nothing discharges it
 * @source t = R C ln(V0/V)
 */
export const timeToFall = (farad: number, ohm: number, fromV: number, toV: number): number =>
  fromV <= toV ? 0 : farad * ohm * Math.log(fromV / toV);

/** Energy of a charged capacitor, J. Source: C V^2/2. */
export const storedJ = (farad: number, volts: number): number => (farad * volts ** 2) / 2;

/** Current of a capacitor at the line, A rms. Source: 2 pi f C V. */
export const lineCurrentA = (farad: number, volts: number, hz: number): number => 2 * Math.PI * hz * farad * volts;
