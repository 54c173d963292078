import type { LiveAsk, LiveNow, LiveTold, TakeFor, TakeTold } from "../../../readings/sound/live";
import type { Issue } from "../../../units/issue";

/** What the page and the worker that listens say to each other. */
export type ToEar =
  /** begins, over what stood before; the port is the input's, and stays */
  | { readonly is: "begin"; readonly ask: LiveAsk; readonly port?: MessagePort }
  /** a recording is listened to from its beginning to its end; the worker does nothing else */
  | { readonly is: "file"; readonly file: File; readonly for: TakeFor; readonly clock: number; readonly channel?: number | undefined }
  | { readonly is: "afresh" }
  /** all that was heard so far; with the sound or without it; the answer carries the same number */
  | { readonly is: "tell"; readonly asked: number; readonly withSound: boolean };
export type FromEar =
  | { readonly is: "news"; readonly news: LiveNow }
  /** how far a file is */
  | { readonly is: "progress"; readonly seconds: number; readonly of?: number | undefined }
  | { readonly is: "taken"; readonly told: Pick<LiveTold, "head" | "health"> & TakeTold }
  | { readonly is: "refused"; readonly issues: readonly Issue[] }
  | { readonly is: "told"; readonly asked: number; readonly told: LiveTold; readonly wav?: Uint8Array<ArrayBuffer> | undefined };
