/** What tubes draw at a node: a current at some volts, and the power of the volts by which it moves. */
export interface TubeLoad {
  readonly ampere: number;
  readonly atV: number;
  readonly exponent: number;
}

/**
 * The load at some volts as a constant current and a conductance, which meet the power law there in value and slope.
 *
 * @param load current, A, at its volts, and the power
 * @param v volts of the node, above 0
 * @returns A and S, for a section of the supply
 * @source I = I0 (V/V0)^n and its tangent; a self-biased tube, I = K (V/mu - I Rk)^1.5, has n = 1.5 / (1 + b/2), b = mu I Rk / V: from 1.5 without a
 * bias resistor to 1 where the bias takes nearly all (Child's law, Langmuir 1913, derived)
 */
export function tangentAt(load: TubeLoad, v: number): { readonly ampere: number; readonly siemens: number } {
  const i = load.ampere * (v / load.atV) ** load.exponent;
  return { ampere: i * (1 - load.exponent), siemens: (load.exponent * i) / v };
}
