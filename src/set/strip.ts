import type { CanModel, FilterModel } from "../physics/if-strip-numbers";
import type { Bare } from "../units/bare";
import type { Dimension } from "../units/dimensions";
import type { Quantity } from "../units/quantity";

/** The strip as a set describes it: every leaf of the model is a quantity. */
type Described<T> = { readonly [K in keyof T]: Quantity };
export type DescribedCan = Described<CanModel> & { readonly label: string };
export type DescribedStrip = {
  readonly intermediateFrequency: Quantity;
  readonly cans: readonly DescribedCan[];
  readonly filter: Described<FilterModel> | null;
};

/** Source of a leaf that stands for nothing: there to be filled, and no assumption about the set. */
export const nothingAdded = "nothing added";

interface LeafOf {
  readonly dimension: Dimension;
  readonly meaning: string;
  readonly howMeasured: string;
  readonly positive: boolean;
  readonly bare?: Bare;
}
const leaf = (dimension: Dimension, meaning: string, howMeasured: string, positive = true, bare?: Bare): LeafOf => ({
  dimension,
  meaning,
  howMeasured,
  positive,
  ...(bare ? { bare } : {}),
});
const sweep = "fit a sweep of the strip";

export const canLeaves: Readonly<Record<keyof CanModel, LeafOf>> = {
  primaryCapacitance: leaf("capacitance", "capacitor across the primary", "service sheet, or a bridge with one lead lifted"),
  primaryQ: leaf("ratio", "Q of the primary alone", `${sweep}, or a Q meter`),
  primaryOffset: leaf("frequency", "how far the primary is off the IF", `${sweep}, or re-peak it`, false),
  secondaryCapacitance: leaf("capacitance", "capacitor across the secondary", "service sheet, or a bridge with one lead lifted"),
  secondaryQ: leaf("ratio", "Q of the secondary alone", `${sweep}, or a Q meter`),
  secondaryOffset: leaf("frequency", "how far the secondary is off the IF", `${sweep}, or re-peak it`, false),
  coupling: leaf("ratio", "coupling coefficient k of the can", sweep),
  transconductance: leaf("conductance", "transconductance (or conversion) of the driving tube", "tube tester, or stage gain by injection"),
  plateResistance: leaf("resistance", "plate resistance of the driving tube", "data book", true, "tube"),
  outputCapacitance: leaf("capacitance", "output capacitance of the driving tube and wiring", "data book"),
  inputCapacitance: leaf("capacitance", "input capacitance of what follows", "data book"),
  loadResistance: leaf("resistance", "resistance that loads the secondary", "service sheet; a diode loads with half its load resistor"),
  addedCapacitance: leaf("capacitance", "capacitance hung on the plate since the can was set", "the cable sheet, or a bridge", false),
};
export const filterLeaves: Readonly<Record<keyof FilterModel, LeafOf>> = {
  centre: leaf("frequency", "centre of the ladder filter", "sweep of the filter"),
  spread: leaf("frequency", "resonance to antiresonance of each resonator", "data sheet, or sweep"),
  seriesCapacitance: leaf("capacitance", "capacitance of a series resonator", "bridge, well off resonance"),
  shuntCapacitance: leaf("capacitance", "capacitance of a shunt resonator", "bridge, well off resonance"),
  resonatorQ: leaf("ratio", "Q of a resonator", "data sheet"),
  termination: leaf("resistance", "terminating resistance at each end", "data sheet"),
};
// what the cans' own offsets are counted from
const ifLeaf = leaf("frequency", "intermediate frequency that the cans are set to", "sweep, or a generator on the counter", true, "exact");

export interface Leaf extends LeafOf {
  readonly path: string;
  readonly quantity: Quantity;
}

/**
 * Every leaf of a strip with its path, `strip.can1.primaryQ` and so on.
 *
 * @param strip as described
 * @returns leaves in a fixed order
 * @source house frame
 */
export function stripLeaves(strip: DescribedStrip): Leaf[] {
  const out: Leaf[] = [{ ...ifLeaf, path: "strip.intermediateFrequency", quantity: strip.intermediateFrequency }];
  strip.cans.forEach((can, i) => {
    for (const [name, of] of Object.entries(canLeaves))
      out.push({ ...of, path: `strip.can${i + 1}.${name}`, quantity: can[name as keyof CanModel] });
  });
  if (strip.filter)
    for (const [name, of] of Object.entries(filterLeaves))
      out.push({ ...of, path: `strip.filter.${name}`, quantity: strip.filter[name as keyof FilterModel] });
  return out;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };
export type MutableStrip = {
  intermediateFrequency: number;
  cans: Mutable<CanModel>[];
  filter: Mutable<FilterModel> | null;
};
/** Where a number stands: it is written there. */
export interface Slot {
  readonly holder: Record<string, unknown>;
  readonly key: string;
}

/**
 * Plain numbers of a strip, at its best values.
 *
 * @returns SI numbers by the names of the leaves
 * @source house frame
 */
export function plainStrip(strip: DescribedStrip): MutableStrip {
  const plain = <K extends string>(names: Readonly<Record<K, unknown>>, from: Readonly<Record<K, Quantity>>): Record<K, number> =>
    Object.fromEntries((Object.keys(names) as K[]).map((n) => [n, from[n].value])) as Record<K, number>;
  return {
    intermediateFrequency: strip.intermediateFrequency.value,
    cans: strip.cans.map((c) => plain(canLeaves, c)),
    filter: strip.filter ? plain(filterLeaves, strip.filter) : null,
  };
}

/**
 * Writes one leaf of a plain strip by its path.
 *
 * @param path of a leaf, such as `strip.can1.primaryQ`
 * @param value SI
 * @throws RangeError for a path of no leaf
 * @source house frame
 */
export function setStripLeaf(strip: MutableStrip, path: string, value: number): void {
  const { holder, key } = stripSlot(strip, path);
  holder[key] = value;
}

/**
 * Where a leaf sits in a plain strip, so that draws can write it without looking it up.
 *
 * @param path of a leaf
 * @returns the object that holds it, and its key
 * @throws RangeError for a path of no leaf
 * @source house frame
 */
export function stripSlot(strip: MutableStrip, path: string): Slot {
  const m = /^strip\.(?:can(\d+)|(filter))\.(\w+)$/.exec(path);
  if (path === "strip.intermediateFrequency") return { holder: strip, key: "intermediateFrequency" };
  const holder = m?.[1] ? strip.cans[Number(m[1]) - 1] : m?.[2] ? strip.filter : undefined;
  if (!m || !holder || !(m[3] in holder)) throw new RangeError(`no leaf of the strip is called ${path}`);
  return { holder, key: m[3] };
}

/**
 * A described strip with some leaves replaced.
 *
 * @param replaced quantities by path
 * @returns a copy
 * @source house frame
 */
export function withLeaves(strip: DescribedStrip, replaced: ReadonlyMap<string, Quantity>): DescribedStrip {
  const pick = <T extends object>(prefix: string, from: T): T =>
    Object.fromEntries(Object.entries(from).map(([k, v]) => [k, replaced.get(`${prefix}.${k}`) ?? v])) as T;
  return {
    intermediateFrequency: replaced.get("strip.intermediateFrequency") ?? strip.intermediateFrequency,
    cans: strip.cans.map((c, i) => pick(`strip.can${i + 1}`, c)),
    filter: strip.filter ? pick("strip.filter", strip.filter) : null,
  };
}
