import type { LiveSide } from "../../../invented/rehearsal/live-strip";
import type { Detector } from "../../../invented/rehearsal/through";
import type { recordedAs } from "../../../readings/sound/baseband";
import type { Issue } from "../../../units/issue";

/** A band that the person recorded, as it is said on the page. */
export interface OwnSaid {
  readonly file: File;
  readonly as: (typeof recordedAs)[number];
  readonly centre: string;
  readonly begins: string;
}
/** What is played: a band, and both strips that it goes through. */
export interface Played {
  readonly band: Float32Array<ArrayBuffer>;
  readonly detector: Detector;
  readonly sides: readonly [LiveSide, LiveSide];
}
/** What the page asks of the worker that reads bands and renders what is played; it answers once. */
export type ToBand =
  | { readonly is: "band"; readonly own: OwnSaid; readonly seconds: number }
  /** how loud each side is to be played, for both to be equally loud */
  | { readonly is: "gains"; readonly played: Played }
  | { readonly is: "wav"; readonly played: Played; readonly card: string };
export type FromBand =
  | { readonly is: "band"; readonly band: Float32Array<ArrayBuffer> }
  | { readonly is: "gains"; readonly gains: readonly number[] }
  | { readonly is: "wav"; readonly wav: Uint8Array<ArrayBuffer> }
  | { readonly is: "refused"; readonly issues: readonly Issue[] };
