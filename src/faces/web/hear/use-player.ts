import { useEffect, useRef, useState } from "preact/compat";
import type { LiveParts } from "../../../desk/rehearse";
import { rehearsalRateHz } from "../../../invented/rehearsal/scene";
import type { ToStrip } from "./strip-messages";

/** Either side of a rehearsal. */
export const sides = ["as it is", "as it would be"] as const;
export type Side = (typeof sides)[number];
export interface Player {
  readonly playing: boolean;
  readonly side: Side;
  readonly choose: (side: Side) => void;
  readonly play: () => void;
  readonly stop: () => void;
  /** takes other strips while it plays; with a band, that band from its beginning */
  readonly take: (parts: LiveParts, band?: Float32Array) => Promise<void>;
}
interface Playing {
  readonly context: AudioContext;
  readonly node: AudioWorkletNode;
}
/** Begun before anybody listens, so that Play is heard at once; the browser wakes it with the first press. */
async function started(): Promise<Playing> {
  const context = new AudioContext({ sampleRate: rehearsalRateHz });
  await context.audioWorklet.addModule("strip-processor.js");
  const node = new AudioWorkletNode(context, "strip", { numberOfInputs: 0, outputChannelCount: [1] });
  node.connect(context.destination);
  return { context, node };
}

/** A band through two strips, of which one at a time is heard, over and over; knobs and sides change while it plays. */
export function usePlayer(): Player {
  const now = useRef<Promise<Playing>>(undefined);
  const [playing, setPlaying] = useState(false);
  const [side, setSide] = useState<Side>("as it is");
  const get = (): Promise<Playing> => {
    now.current ??= started();
    return now.current;
  };
  const say = async (m: ToStrip): Promise<void> => (await get()).node.port.postMessage(m);
  useEffect(() => () => void now.current?.then(({ context }) => context.close()), []);
  return {
    playing,
    side,
    choose: (to) => {
      setSide(to);
      void say({ is: "side", side: to === "as it is" ? 0 : 1 });
    },
    play: () => {
      void get().then(({ context }) => context.resume());
      void say({ is: "on", on: true });
      setPlaying(true);
    },
    stop: () => {
      void say({ is: "on", on: false });
      setPlaying(false);
    },
    take: ({ sides: both, detector }, band) => say(band ? { is: "band", band, detector, sides: both } : { is: "sides", sides: both }),
  };
}
