import { perveanceOf, type SupplyAtRest, solveSupply, sourceOhmOf } from "../../physics/supply";
import type { Section, Supply } from "../../physics/supply-numbers";
import type { TubeLoad } from "../../physics/tube-load";
import { rectifierByType, siliconDropV } from "../../standards/rectifiers";
import type { SupplyInputs } from "./supply";

/** The one law of B+: every sheet that says what B+ should be asks it here. */

/** What may differ from the set as described: to try a fault or a change. */
export interface Change {
  readonly silicon?: boolean;
  /** the vacuum type that the set was made for */
  readonly original?: boolean;
  readonly perveanceTimes?: number;
  readonly loadTimes?: number;
  /** leak or short from the first filter capacitor to the chassis, S */
  readonly leakSiemens?: number;
  readonly firstTimes?: number;
  /** the first choke or filter resistor, as a multiple of its resistance */
  readonly chokeTimes?: number;
  readonly bleederOpen?: boolean;
  readonly oneHalf?: boolean;
  readonly addedOhm?: number;
  readonly lineV?: number;
  /** currents that stay as they are whatever the volts: those of another state of the set, A */
  readonly held?: readonly [plate: number, rest: number];
  /** what something else draws at a node, A at the volts that the node has as described */
  readonly besides?: { readonly node: 0 | 1 | 2; readonly ampere: number };
}
/** A supply with its loads known: at which volts they flow. */
export interface Described {
  readonly x: SupplyInputs;
  readonly loads: readonly [TubeLoad, TubeLoad];
  /** solved in the state in which the currents are as typed */
  readonly typed: SupplyAtRest;
}

/** The nodes of B+ in the words that every headline, curve, table and figure uses. */
export const nodes = {
  first: { at: "on the first filter capacitor", label: "B+ first" },
  second: { at: "after the first choke or filter resistor", label: "B+ second" },
  third: { at: "after the second choke or filter resistor", label: "B+ third" },
} as const;

const diodeOf = (x: SupplyInputs, c: Change): Supply["diode"] => {
  const own = c.original ? rectifierByType(x.originalRectifier) : undefined;
  // two diodes of a bridge conduct in series
  const inSeries = x.arrangement === "bridge" ? 2 : 1;
  if (c.silicon || (x.rectifierType === "silicon" && !own)) return { drop: siliconDropV * inSeries };
  const k = own ? perveanceOf(own.dropV, own.atA) : perveanceOf(x.rectifierDrop, x.rectifierCurrent);
  return { perveance: (k * (c.perveanceTimes ?? 1)) / inSeries ** 1.5, drop: 0 };
};

const section = (
  [ohm, henry, farad]: readonly [number, number, number],
  ampere: number,
  siemens: number,
  tube: TubeLoad | undefined,
): Section => ({ ohm: Math.max(ohm, 0.01), henry, farad, ampere, siemens, ...(tube ? { tube } : {}) });

/**
 * The supply of these inputs, changed as said, for the solver; what its tubes draw is given, since it is worked out elsewhere.
 *
 * @param x plain inputs, SI
 * @param c what differs
 * @param tubes load of each section
 * @returns the supply, SI
 * @source house frame
 */
export function supplyOf(x: SupplyInputs, c: Change = {}, tubes: readonly TubeLoad[] = []): Supply {
  const leak = c.leakSiemens ?? 0;
  const [plateA, restA] = c.held ?? [0, 0];
  const choke = x.filterInput === "choke";
  return {
    plateV: (x.secondaryVoltage * (c.lineV ?? x.lineVoltage)) / x.ratedLine,
    lineHz: x.lineFrequency,
    fullWave: x.arrangement !== "half-wave" && !c.oneHalf,
    sourceOhm: Math.max(
      0.1,
      sourceOhmOf(x.secondaryResistance, x.primaryResistance, x.secondaryVoltage / x.ratedLine) + x.addedResistance + (c.addedOhm ?? 0),
    ),
    diode: diodeOf(x, c),
    first: {
      farad: choke ? 0 : x.firstCapacitance * (c.firstTimes ?? 1),
      ampere: c.besides?.node === 0 ? c.besides.ampere : 0,
      siemens: choke ? 0 : leak,
    },
    sections: [
      section([x.firstResistance * (c.chokeTimes ?? 1), x.firstChoke, x.secondCapacitance], plateA, choke ? leak : 0, tubes[0]),
      section([x.secondResistance, x.secondChoke, x.thirdCapacitance], restA, c.bleederOpen ? 0 : 1 / x.bleeder, tubes[1]),
    ],
  };
}

const steps = 96;

/** The supply as it was made: with its tube, without a resistor that somebody added to silicon. Source: house frame. */
export const asMade = (x: SupplyInputs): [SupplyInputs, Change] =>
  x.rectifierType === "silicon" ? [{ ...x, addedResistance: 0 }, { original: true }] : [x, {}];

/**
 * A supply with the volts at which its currents flow: in the set as made on its rated line, or as it stands on today's.
 *
 * @param x plain inputs, SI
 * @param like a like supply solved before
 * @returns loads by node; undefined where the supply can't give these currents at all
 * @source house frame
 */
export function described(x: SupplyInputs, like?: SupplyAtRest): Described | undefined {
  const held = { held: [x.plateCurrent, x.restCurrent] as const };
  const [made, change] = x.currentsAre === "as-made" ? asMade(x) : [x, {}];
  const lineV = x.currentsAre === "as-made" ? x.ratedLine : x.lineVoltage;
  const typed = solveSupply(supplyOf(made, { ...change, ...held, lineV }), { steps, ...(like ? { like } : {}) });
  if (!typed || typed.volts.some((v) => !(v > 0))) return undefined;
  const load = (ampere: number, node: number): TubeLoad => ({ ampere, atV: typed.volts[node], exponent: x.loadExponent });
  return { x, typed, loads: [load(x.plateCurrent, 1), load(x.restCurrent, 2)] };
}

/**
 * The supply solved with a change: tubes draw by a power of their volts, bleeder, leaks and resistors by Ohm's law.
 *
 * @param d the supply with its loads
 * @param c what differs
 * @param like a like supply solved before
 * @returns DC, ripple and currents of each node
 * @source solveSupply
 */
export function solveChanged(d: Described, c: Change = {}, like?: SupplyAtRest): SupplyAtRest | undefined {
  const times = c.loadTimes ?? 1;
  const besides = (k: number): number => (c.besides?.node === k + 1 ? c.besides.ampere : 0);
  const loads = c.held ? [] : d.loads.map((l, k) => ({ ...l, ampere: l.ampere * times + besides(k) }));
  return solveSupply(supplyOf(d.x, c, loads), { steps, ...(like ? { like } : c.silicon ? {} : { like: d.typed }) });
}

/**
 * The supply as it was made, at today's line.
 *
 * @source physics/supply.ts
 */
export function solveAsMade(d: Described, like?: SupplyAtRest): SupplyAtRest | undefined {
  const [x, c] = asMade(d.x);
  return solveChanged({ ...d, x }, c, like);
}

/**
 * What tubes draw at these volts, node by node.
 *
 * @param d the supply with its loads
 * @param volts of the three nodes
 * @returns A
 * @source I = I0 (V/V0)^n, see tangentAt
 */
export const drawnAt = (d: Described, volts: readonly number[]): readonly [number, number] => {
  const at = (k: 0 | 1): number => d.loads[k].ampere * (Math.max(0, volts[k + 1]) / d.loads[k].atV) ** d.loads[k].exponent;
  return [at(0), at(1)];
};

/**
 * The node of the first filter capacitor: with choke input it stands behind the choke.
 *
 * @param x inputs
 * @source derived
 */
export const firstNode = (x: Pick<SupplyInputs, "filterInput">): 0 | 1 => (x.filterInput === "choke" ? 1 : 0);

/**
 * Volts that a capacitor-input filter reaches with nothing drawn: the crest; a choke input as well, once nothing is drawn.
 *
 * @param x inputs
 * @param times the line, as a multiple of the rated one
 * @returns V
 * @source crest of a sine, sqrt 2 Vs
 */
export const crestV = (x: Pick<SupplyInputs, "secondaryVoltage">, times: number): number => Math.SQRT2 * x.secondaryVoltage * times;

/**
 * Peak inverse of one diode: twice the crest but in a bridge.
 *
 * @param x inputs
 * @param times the line, as a multiple of the rated one
 * @returns V
 * @source derived
 */
export const inverseV = (x: Pick<SupplyInputs, "secondaryVoltage" | "arrangement">, times: number): number =>
  (x.arrangement === "bridge" ? 1 : 2) * crestV(x, times);

/**
 * What winding and rectifier really lose against what the law says, as a factor on the volts of every node.
 *
 * @param x plain inputs; `lossRatio` is the loss over the law's
 * @param firstV volts on the first filter capacitor by the law
 * @param lineV the line
 * @returns factor; 1 where nothing is lost
 * @source house rule; the size of `lossRatio` from makers' published points
 */
export function lossTimes(x: SupplyInputs, firstV: number, lineV: number): number {
  const crest = crestV(x, lineV / x.ratedLine);
  const ideal = x.filterInput === "choke" ? (2 / Math.PI) * crest : crest;
  return firstV > 0 ? Math.max(0, firstV - (x.lossRatio - 1) * Math.max(0, ideal - firstV)) / firstV : 1;
}

/**
 * B+ to expect at a line: the figure that every sheet gives.
 *
 * @param d the supply with its loads
 * @param lineV volts of the line
 * @param like a like supply solved before
 * @returns volts of the three nodes; undefined where the supply can't be solved
 * @source solveChanged
 */
export function expectedVolts(d: Described, lineV: number, like?: SupplyAtRest) {
  const solved = solveChanged(d, { lineV }, like);
  if (!solved) return undefined;
  const times = lossTimes(d.x, solved.volts[firstNode(d.x)], lineV);
  return { first: solved.volts[firstNode(d.x)] * times, second: solved.volts[1] * times, third: solved.volts[2] * times, solved, times };
}
