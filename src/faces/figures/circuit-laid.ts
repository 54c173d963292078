import type { CircuitNode, CircuitPart, CircuitTube } from "../../ask/drawn/circuit";
import type { Words } from "./circuit-labels";

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
/** How a circuit is laid: the widest label, the places for a narrow page, keys in place of words. */
export interface How {
  readonly wrapPx: number;
  readonly narrow: boolean;
  readonly words: (of: CircuitNode | CircuitPart | CircuitTube, said: Words | undefined) => Words | undefined;
}
