import type { LiveSide } from "../../../invented/rehearsal/live-strip";
import type { Detector } from "../../../invented/rehearsal/through";

/** What the page says to what plays. */
export type ToStrip =
  /** another band, from its beginning */
  | { readonly is: "band"; readonly band: Float32Array; readonly detector: Detector; readonly sides: readonly [LiveSide, LiveSide] }
  /** other strips, while it plays */
  | { readonly is: "sides"; readonly sides: readonly [LiveSide, LiveSide] }
  | { readonly is: "side"; readonly side: 0 | 1 }
  | { readonly is: "on"; readonly on: boolean };
