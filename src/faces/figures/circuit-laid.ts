import type { CircuitNode, CircuitPart, CircuitTube, Place } from "../../ask/drawn/circuit";
import type { Told, Words } from "./circuit-labels";
import { linePx } from "./picture-text";

/** A circuit with every distance found: what is drawn where. Pixels; text is 16 px. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export interface LaidWords extends Box {
  readonly words: Words;
  readonly anchor: "start" | "middle" | "end";
  /** what it belongs to, for a key in its place */
  readonly of: CircuitNode | CircuitPart | CircuitTube;
}
export interface LaidPart {
  readonly part: CircuitPart;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
  /** ends of its leads, and the corner between them where it has one */
  readonly path: readonly (readonly [number, number])[];
  readonly box?: Box;
}
export interface Laid {
  readonly width: number;
  readonly height: number;
  readonly parts: readonly LaidPart[];
  readonly tubes: readonly { readonly tube: CircuitTube; readonly x: number; readonly y: number }[];
  readonly nodes: readonly {
    readonly node: CircuitNode;
    readonly x: number;
    readonly y: number;
    readonly joins: number;
    readonly away: Away;
  }[];
  readonly words: readonly LaidWords[];
}
export type Away = "left" | "right" | "up" | "down";
/** Where a lead goes from a tube's electrode; nowhere from a node that is none of its. */
export const awayFrom = ({ plate, cathode, grid, screen }: CircuitTube, node: string): Away[] =>
  node === plate ? ["up"] : node === cathode ? ["down"] : node === grid ? ["left"] : node === screen ? ["right"] : [];
/** How a circuit is laid: what may be written in it, the places for a narrow page, keys in place of words. */
export interface How {
  readonly told: Told;
  readonly narrow: boolean;
  /** leads and the room between columns cut short */
  readonly tight?: boolean;
  readonly words: (of: CircuitNode | CircuitPart | CircuitTube, said: Words | undefined) => Words | undefined;
}

export const leadPx = 14;
/** What is left of leads and of the room between two columns where a drawing would be too wide. */
export const tightPx = { lead: 6, sign: 0, columns: 14 } as const;
export const easyPx = { lead: leadPx, sign: 6, columns: 24 } as const;
/** Room in the height of one level: under it signs of ends, then what stands upright, then the words over the next. */
export interface Band {
  ends: number;
  upright: number;
  over: number;
  flags: number;
}
/** A part by its places: level or upright, or level to a corner and then upright. */
export interface Run {
  readonly part: CircuitPart;
  readonly a: Place;
  readonly b: Place;
  readonly upright: boolean;
  readonly words: Words | undefined;
}
/** The frame of a block about its words, by its middle. */
export function boxOf(words: Words, [mx, my]: readonly [number, number]): Box {
  const [width, height] = [words.width + 16, Math.max(words.height, linePx) + 16];
  return { x: mx - width / 2, y: my - height / 2, width, height };
}
