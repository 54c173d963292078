import type { Symbols } from "../../standards/symbols";

/**
 * A small circuit of the very spot where the hands go, as data: nodes on a coarse grid, parts between them, what is read and expected there. Who draws
 * it finds the distances; who declares it says only what lies left, right, above and below.
 */

/** A text that holds a value; assumed where nobody has looked. */
export interface Shown {
  readonly text: string;
  readonly assumed?: true;
}

/** Volts of a node, to the common side of the supply unless AC. SI. */
export interface Volts {
  readonly expected?: { readonly low: number; readonly high: number };
  readonly read?: number;
  /** the most that can stand there, as before the tubes are warm */
  readonly most?: number;
  readonly ac?: true;
  /** whether what is expected and possible rests on nothing but assumed values */
  readonly assumed?: true;
}

/**
 * What a lead ends in. `chassis` is the frame of a set whose chassis is proved isolated; `live-chassis` the frame of one that is joined to the line, or
 * not proved; `b-minus` a common side that is not the frame; `earth` the protective conductor of the house, at an isolated set only.
 */
export const ends = ["chassis", "live-chassis", "b-minus", "earth", "terminal", "onward"] as const;
export type End = (typeof ends)[number];
/** Column from the left, level from the top. */
export type Place = readonly [column: number, level: number];

export interface CircuitNode {
  readonly id: string;
  readonly at: Place;
  /** where it goes on a narrow page; as on the wide one where not said */
  readonly narrow?: Place;
  /** as the bench calls it, such as `V2 plate` */
  readonly label?: string | undefined;
  readonly volts?: Volts | undefined;
  readonly end?: End | undefined;
}

export const partKinds = [
  "wire",
  "resistor",
  "rheostat",
  "capacitor",
  "electrolytic",
  "variable-capacitor",
  "trimmer",
  "coil",
  "slug-coil",
  "choke",
  "tank",
  "crystal",
  "diode",
  "tube-diode",
  "gas-tube",
  "lamp",
  "fuse",
  "switch",
  "meter",
  "cable",
  "block",
] as const;
export type PartKind = (typeof partKinds)[number];

/** What hands do with a part: fit it, turn it, or look at it first. */
export const marks = ["fit", "turn", "suspect"] as const;
export type Mark = (typeof marks)[number];

/** A part between two nodes; of what has a polarity, `from` is the positive side (plate side of a diode). */
export interface CircuitPart {
  readonly kind: PartKind;
  readonly from: string;
  readonly to: string;
  /** on the diagram, such as C14 */
  readonly name?: string | undefined;
  /** what it is in the words of the bench: `series capacitor`; of a block, what stands in it */
  readonly what: string;
  readonly value?: Shown | undefined;
  /** a few words beside it, such as its rating */
  readonly says?: string | undefined;
  readonly mark?: Mark | undefined;
  /** the can or case that it stands in: parts of one are drawn in one outline */
  readonly can?: string | undefined;
  /** of a cable: what its braid is joined to */
  readonly braid?: End | undefined;
  /** of a lamp: share of its rated volts */
  readonly glow?: number | undefined;
}

/** A tube with its electrodes at nodes: plate above, cathode two levels below, grid one column left between them. */
export interface CircuitTube {
  readonly name?: string | undefined;
  readonly what: string;
  readonly grids: number;
  readonly plate: string;
  readonly grid: string;
  readonly cathode: string;
  /** one column right, on the level of the grid */
  readonly screen?: string | undefined;
  readonly mark?: Mark | undefined;
}

export interface Circuit {
  readonly kind: "circuit";
  readonly id: string;
  readonly title: string;
  readonly symbols: Symbols;
  readonly nodes: readonly CircuitNode[];
  readonly parts: readonly CircuitPart[];
  readonly tubes: readonly CircuitTube[];
  /** drawn from values that are none of this set's */
  readonly example: boolean;
}
