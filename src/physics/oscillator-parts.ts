import type { OscillatorLaw } from "./tracking";

/**
 * Where the trimmer sits: across the gang, inside the padder, or across the coil itself; both give one curve, with other parts. Or a trimmer
 * alone on the gang, without a padder.
 */
export const padderLayouts = ["across the gang", "across the coil", "no padder"] as const;
export type PadderLayout = (typeof padderLayouts)[number];
/** Parts of the oscillator circuit; the trimmer holds the strays of its place. */
export interface OscillatorParts {
  readonly layout: PadderLayout;
  readonly henry: number;
  readonly trimmerF: number;
  /** without end where there is none */
  readonly padderF: number;
}
/**
 * Parts that make a law on a gang.
 *
 * @param o the law
 * @param signalH inductance of the signal circuit: it turns x = 1/f^2 into the gang's capacitance
 * @param signalTrimmerF what of the signal circuit's capacitance is not the gang's own
 * @param layout where the trimmer sits
 * @returns parts, H and F; undefined where no positive ones make it
 * @source 1/w^2 = L Cp (C + Ct)/(C + Ct + Cp), or L (Ct + C Cp/(C + Cp)), compared term by term with (b C + c)/(C + a)
 */
export function partsOf(
  o: OscillatorLaw,
  signalH: number,
  signalTrimmerF: number,
  layout: PadderLayout = "across the gang",
): OscillatorParts | undefined {
  // capacitance of the signal circuit is x/(4 pi^2 L); the gang's own is that less the trimmer
  const k = 1 / (4 * Math.PI ** 2 * signalH);
  const shift = signalTrimmerF;
  if (o.d === 0) {
    const trimmerF = shift + (k * o.c) / o.b;
    const henry = o.b / k / (4 * Math.PI ** 2);
    return henry > 0 && trimmerF > -shift ? { layout: "no padder", henry, trimmerF, padderF: Number.POSITIVE_INFINITY } : undefined;
  }
  // y = (b x + c)/(x + a) in C = k x - shift
  const a = k * o.a + shift;
  const b = o.b;
  const c = k * o.c + o.b * shift;
  if (layout === "across the coil") {
    const part = c / (b * a);
    const trimmerF = (a * part) / (1 - part);
    const henry = b / (trimmerF + a) / (4 * Math.PI ** 2);
    return a > 0 && henry > 0 && trimmerF > -shift ? { layout, henry, trimmerF, padderF: a } : undefined;
  }
  const trimmerF = c / b;
  const padderF = a - trimmerF;
  const henry = b / padderF / (4 * Math.PI ** 2);
  return padderF > 0 && henry > 0 && trimmerF > -shift ? { layout, henry, trimmerF, padderF } : undefined;
}
/**
 * Frequency of the oscillator with a gang's capacitance.
 *
 * @param p parts and layout
 * @param gangF capacitance of the gang's section, F
 * @returns Hz
 * @source the same circuits
 */
export function partsHz(p: OscillatorParts, gangF: number): number {
  const whole =
    p.layout === "no padder"
      ? gangF + p.trimmerF
      : p.layout === "across the coil"
        ? p.trimmerF + (gangF * p.padderF) / (gangF + p.padderF)
        : (p.padderF * (gangF + p.trimmerF)) / (gangF + p.trimmerF + p.padderF);
  return 1 / (2 * Math.PI * Math.sqrt(p.henry * whole));
}

/**
 * How much a little capacitance on the gang does, compared with as much more of the trimmer.
 *
 * @param p parts and layout
 * @param gangF capacitance of the gang's section there, F
 * @returns ratio, 1 where the trimmer is across the gang itself
 * @source derivative of the same circuits
 */
export const gangOverTrimmer = (p: OscillatorParts, gangF: number): number =>
  p.layout === "across the coil" ? (p.padderF / (gangF + p.padderF)) ** 2 : 1;
