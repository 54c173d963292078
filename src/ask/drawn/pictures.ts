import type { Circuit } from "./circuit";

/** Everything that an answer may be drawn as at its place. */
export type Picture = Circuit;
/** A picture as a sheet gives it: what the frame knows by itself is added there. */
export type Sketch = Omit<Circuit, "symbols" | "example">;
