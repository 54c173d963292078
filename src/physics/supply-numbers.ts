import type { TubeLoad } from "./tube-load";

/** A rectifier with its filter, solved in the time domain to its steady state. All SI. */
export interface Diode {
  /** perveance of a vacuum diode, A/V^1.5; undefined for silicon, whose drop is the same at any current */
  readonly perveance?: number;
  /** drop of silicon, V; of all that conduct in series */
  readonly drop: number;
}
export interface Section {
  /** in series, from the node before to this one; at least a milliohm where there is no choke */
  readonly ohm: number;
  readonly henry: number;
  /** from the node to the chassis, F; 0 for none */
  readonly farad: number;
  /** drawn at the node: a constant current, A, a conductance, S, and what tubes draw at the node's volts */
  readonly ampere: number;
  readonly siemens: number;
  readonly tube?: TubeLoad;
}
export interface Supply {
  /** rms volts that one plate sees */
  readonly plateV: number;
  readonly lineHz: number;
  /** whether both half cycles charge */
  readonly fullWave: boolean;
  /** winding resistance as one plate sees it, ohm, with what was put in series */
  readonly sourceOhm: number;
  readonly diode: Diode;
  /** at the rectifier's cathode: farad 0 where a choke comes first; its own ohm and henry do not enter */
  readonly first: Omit<Section, "ohm" | "henry" | "tube">;
  /** two at most */
  readonly sections: readonly Section[];
}
/** Places of the numbers of a supply, in the order in which `numbersOf` writes them; a section's own begin at `section(k)`. */
export const at = { plateV: 0, sourceOhm: 1, perveance: 2, drop: 3, lineHz: 4, farad: 5, ampere: 6, siemens: 7 } as const;
const first = 8;
const each = 8;
export const inSection = { ohm: 0, henry: 1, farad: 2, ampere: 3, siemens: 4, tubeA: 5, atV: 6, exponent: 7 } as const;
export const section = (k: 0 | 1): number => first + each * k;
export const numberCount = first + 2 * each;

/** In place of a section that is not there: a node that hangs on nothing. */
const openOhm = 1e12;

/**
 * The numbers of a supply in their order: what its state at rest depends on.
 *
 * @param s the supply
 * @param into `numberCount` numbers, overwritten, SI
 * @returns `into`
 * @source derived
 */
export function numbersOf(s: Supply, into: Float64Array): Float64Array {
  into[at.plateV] = s.plateV;
  into[at.sourceOhm] = s.sourceOhm;
  into[at.perveance] = s.diode.perveance ?? 0;
  into[at.drop] = s.diode.drop;
  into[at.lineHz] = s.lineHz;
  into[at.farad] = s.first.farad;
  into[at.ampere] = s.first.ampere;
  into[at.siemens] = s.first.siemens;
  for (let k = 0; k < 2; k++) {
    const x = s.sections[k];
    const own = first + each * k;
    into[own + inSection.ohm] = x ? x.ohm : openOhm;
    into[own + inSection.henry] = x ? x.henry : 0;
    into[own + inSection.farad] = x ? x.farad : 0;
    into[own + inSection.ampere] = x ? x.ampere : 0;
    into[own + inSection.siemens] = x ? x.siemens : 0;
    into[own + inSection.tubeA] = x?.tube ? x.tube.ampere : 0;
    into[own + inSection.atV] = x?.tube ? x.tube.atV : 0;
    into[own + inSection.exponent] = x?.tube ? x.tube.exponent : 0;
  }
  return into;
}
