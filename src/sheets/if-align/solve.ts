import { noneOf } from "../../ask/declare";
import { fastestSweepHzPerS, loadingOhm, pairFromHumps, pairWidthHz } from "../../physics/coupled-pair";
import { StripResponse } from "../../physics/if-strip";
import type { CanModel } from "../../physics/if-strip-numbers";
import { crossingHz, peakOf } from "../../physics/passband";
import type { Asked } from "./ask";

/** Q of a winding with what tube or diode puts across it. Source: conductances add up. */
const loaded = (q: number, c: number, ohm: number, w0: number): number => 1 / (1 / q + 1 / (w0 * c * ohm));
/**
 * k Q of a can as its tubes load it: over 1 it is overcoupled.
 *
 * @param can the can, SI
 * @param ifHz IF, Hz
 * @returns `a`, its coupling over critical, and the loaded Q of both windings
 * @source definition of critical coupling, k sqrt(Q1 Q2) = 1, with the loads as parallel resistances
 */
export function couplingOf(can: CanModel, ifHz: number): { readonly a: number; readonly q1: number; readonly q2: number } {
  const w0 = 2 * Math.PI * ifHz;
  const q1 = loaded(can.primaryQ, can.primaryCapacitance + can.outputCapacitance, can.plateResistance, w0);
  const q2 = loaded(can.secondaryQ, can.secondaryCapacitance + can.inputCapacitance, can.loadResistance, w0);
  return { a: can.coupling * Math.sqrt(q1 * q2), q1, q2 };
}
/** Part of a winding's Q that takes a pair under critical: a quarter, or less where the coupling is over twice critical. Source: a falls with the root. */
const loadPart = (a: number): number => Math.min(0.25, (0.95 / a) ** 2);
/** Resistor across the primary that takes an overcoupled can under critical, ohm. Source: physics/coupled-pair.ts. */
export const loadFor = (can: CanModel, ifHz: number): number =>
  loadingOhm(couplingOf(can, ifHz).q1, can.primaryCapacitance + can.outputCapacitance, ifHz, loadPart(couplingOf(can, ifHz).a));

const pairs = ["pairA", "pairQ", "pairK", "pairWidth", "loading"] as const;
/** Coupling and Q of the can with two humps, where its own curve was read. Source: physics/coupled-pair.ts. */
function pairOf(x: Asked, centreHz: number) {
  if (!(x.humpSpacing > 0)) return noneOf(pairs, "no double hump was read");
  if (x.humpFrom === "the whole strip")
    return noneOf(pairs, "a hump of the whole strip mixes all its cans: fit the sweep, which gives an interval");
  const p = pairFromHumps(x.humpSpacing, x.humpValley, centreHz);
  return {
    pairA: p.a,
    pairQ: p.q,
    pairK: p.k,
    pairWidth: pairWidthHz(p.a, p.q, centreHz, 6),
    loading: loadingOhm(p.q, x.canCapacitance, centreHz, loadPart(p.a)),
  };
}

type Winding = "primaryOffset" | "secondaryOffset";
/** A can whose windings are being tuned. */
type Tuned = Omit<CanModel, Winding> & Record<Winding, number>;
interface Into {
  readonly primary: Float64Array;
  readonly secondary: Float64Array;
}

/**
 * Centre, coupling and sweep of a strip, and how its output goes as a winding of the first can is tuned; it holds what draw after draw works
 * with.
 *
 * @returns from plain inputs in SI and an axis of a winding off the IF in Hz: results, and output as power over the greatest
 * @source exact nodal solution, src/physics/if-strip.ts; definitions in src/physics/passband.ts
 */
export function alignSolver() {
  const strip = new StripResponse();
  const first = new StripResponse();
  /** Output at the IF with one winding of the first can off by so much, as power: what stands behind that can stays as it is, and is left out. */
  const outputOf = (x: Asked) => {
    const { intermediateFrequency, cans } = x.strip;
    // one can for all its places: to copy it takes longer than to solve it
    const can: Tuned = { ...cans[0] };
    const model = { intermediateFrequency, cans: [can], filter: null };
    return (winding: Winding, offsetHz: number): number => {
      const own = can[winding];
      can[winding] = offsetHz;
      first.load(model);
      can[winding] = own;
      return first.at(intermediateFrequency);
    };
  };
  const fill = (outputAt: ReturnType<typeof outputOf>, axis: Float64Array, into: Into): void => {
    let top = 0;
    for (let i = 0; i < axis.length; i++) {
      into.primary[i] = outputAt("primaryOffset", axis[i]);
      into.secondary[i] = outputAt("secondaryOffset", axis[i]);
      top = Math.max(top, into.primary[i], into.secondary[i]);
    }
    for (const a of [into.primary, into.secondary]) for (let i = 0; i < axis.length; i++) a[i] /= top;
  };
  const widthHz = (x: Asked): number => {
    strip.load(x.strip);
    const peak = peakOf(strip, [x.strip.intermediateFrequency]);
    return crossingHz(strip, peak, 6, 1) - crossingHz(strip, peak, 6, -1);
  };
  return (x: Asked, axis: Float64Array, into: Into) => {
    const outputAt = outputOf(x);
    fill(outputAt, axis, into);
    const f = x.strip.intermediateFrequency;
    const measured = x.filterCentre > 0;
    const centre = measured ? x.filterCentre : f;
    const width = widthHz(x);
    const off = Math.min(outputAt("primaryOffset", 1000), outputAt("primaryOffset", -1000));
    return {
      centreToUse: centre,
      dialShift: measured ? (x.oscillator === "above" ? f - centre : centre - f) : { none: "the filter's centre was not measured" },
      mostOver: Math.max(...x.strip.cans.map((c) => couplingOf(c, f).a)),
      lostByOneKhz: 10 * Math.log10(outputAt("primaryOffset", 0) / off),
      sweepWidth: 3 * width,
      // the narrowest thing that a sweep passes
      sweepRate: fastestSweepHzPerS(x.narrowest === "single crystal" ? x.crystalWidth : width),
      ...pairOf(x, centre),
    };
  };
}
