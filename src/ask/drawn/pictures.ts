import type { Charge } from "./charge";
import type { Circuit } from "./circuit";
import type { DialFace } from "./dial-face";
import type { Lamps } from "./lamps";

/** Everything that an answer may be drawn as at its place. */
export type Picture = Circuit | DialFace | Charge | Lamps;
export type PictureKind = Picture["kind"];
/** What a question says beforehand that it draws. */
export type Draws = readonly [PictureKind, ...PictureKind[]];
/** What the frame knows by itself. */
type Own = "symbols" | "example";
export type CircuitSketch = Omit<Circuit, Own>;
/** A picture as a sheet gives it: what the frame knows by itself is added there. */
export type Sketch = CircuitSketch | Omit<DialFace, Own> | Omit<Charge, Own> | Omit<Lamps, Own>;
