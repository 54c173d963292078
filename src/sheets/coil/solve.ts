import type { ResultsOf } from "../../ask/declare";
import { multilayerH, singleLayerH, thickCoilH } from "../../physics/inductance";
import { capacitorReactanceOhm } from "../../physics/resonance";
import type { Asked, ask } from "./ask";

/**
 * What the winding's own shape has over the plain formula of several layers: the same for every draw, since sizes are hardly in doubt.
 *
 * @param x inputs, at their best values
 * @returns ratio; 1 for a single layer
 * @source physics/inductance.ts
 */
export const shapeOf = (x: Asked): number =>
  x.winding === "single layer" ? 1 : thickCoilH(1, x.diameter, x.length, x.depth) / multilayerH(1, x.diameter, x.length, x.depth);
/**
 * Inductance of the winding on its form, without its slug.
 *
 * @param x inputs
 * @param shape what its shape has over the plain formula, ratio
 * @param turns turns, if not its own
 * @returns H
 * @source physics/inductance.ts
 */
export const woundH = (x: Asked, shape: number, turns = x.turns): number =>
  (1 + x.windingOff) *
  shape *
  (x.winding === "single layer" ? singleLayerH(turns, x.diameter, x.length) : multilayerH(turns, x.diameter, x.length, x.depth));
/**
 * What the coil is, and what is wanted of it.
 *
 * @param x inputs
 * @param shape what its shape has over the plain formula, ratio
 * @returns results in SI
 * @source resonance of a coil and a capacitor
 */
export function coilOf(x: Asked, shape: number): ResultsOf<typeof ask> {
  const whole = x.capacitance + x.selfCapacitance;
  const l = woundH(x, shape);
  const omega = 2 * Math.PI * x.frequency;
  const wanted = 1 / (omega * omega * whole);
  const at = (h: number): number => 1 / (2 * Math.PI * Math.sqrt(h * whole));
  return {
    inductance: l,
    wanted,
    turnsWanted: x.turns * Math.sqrt(wanted / l),
    resonance: at(l),
    rangeLow: at(l * (1 + x.coilRange)),
    rangeHigh: x.coilRange < 1 ? at(l * (1 - x.coilRange)) : { none: "the slug would remove all of the inductance" },
    offBy: l / wanted - 1,
    qWanted: x.frequency / x.bandwidth,
    coilOhm: capacitorReactanceOhm(x.frequency, whole),
  };
}
