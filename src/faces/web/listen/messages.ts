import type { LiveAsk, LiveNow, LiveTold } from "../../../readings/sound/live";

/** What the page and the worker that listens say to each other. */
export type ToEar =
  /** begins, over what stood before; the port is the input's, and stays */
  | { readonly is: "begin"; readonly ask: LiveAsk; readonly port?: MessagePort }
  | { readonly is: "afresh" }
  /** all that was heard so far; with the sound or without it */
  | { readonly is: "tell"; readonly withSound: boolean };
export type FromEar =
  | { readonly is: "news"; readonly news: LiveNow }
  | { readonly is: "told"; readonly told: LiveTold; readonly wav?: Uint8Array<ArrayBuffer> | undefined };
