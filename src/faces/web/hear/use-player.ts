import { useEffect, useRef, useState } from "preact/compat";

/** Either side of a rehearsal. */
export type Side = "as it is" | "as it would be";
/** A change from one to the other takes so long, s: no click is heard, and no gap. */
const fadeS = 0.03;

interface Playing {
  readonly source: AudioBufferSourceNode;
  readonly sides: Readonly<Record<Side, GainNode>>;
}
export interface Player {
  readonly playing: boolean;
  readonly side: Side;
  readonly choose: (side: Side) => void;
  readonly play: () => void;
  readonly stop: () => void;
  /** takes another rehearsal, and goes on with it where the old one was */
  readonly take: (wav: ArrayBuffer) => Promise<void>;
}

/** The sound from so far on, over and over, each side with a gain of its own, faded in. */
function started(c: AudioContext, buffer: AudioBuffer, offsetS: number, wanted: Side): Playing {
  const source = c.createBufferSource();
  source.buffer = buffer;
  source.loop = true;
  const split = c.createChannelSplitter(2);
  source.connect(split);
  const sideAt = (channel: number, name: Side): GainNode => {
    const gain = c.createGain();
    gain.gain.value = 0;
    gain.gain.setTargetAtTime(wanted === name ? 1 : 0, c.currentTime, fadeS / 3);
    split.connect(gain, channel);
    gain.connect(c.destination);
    return gain;
  };
  const sides = { "as it is": sideAt(0, "as it is"), "as it would be": sideAt(1, "as it would be") };
  source.start(0, offsetS);
  return { source, sides };
}

/** Two sounds in one file, its left and its right, of which one at a time is heard with both ears, over and over. */
export function usePlayer(): Player {
  const context = useRef<AudioContext>(undefined);
  const now = useRef<Playing>(undefined);
  const buffer = useRef<AudioBuffer>(undefined);
  const begun = useRef(0);
  const [playing, setPlaying] = useState(false);
  const [side, setSide] = useState<Side>("as it is");
  const wanted = useRef<Side>(side);
  const end = (p: Playing | undefined): void => {
    if (!p || !context.current) return;
    for (const g of Object.values(p.sides)) g.gain.setTargetAtTime(0, context.current.currentTime, fadeS / 3);
    p.source.stop(context.current.currentTime + 2 * fadeS);
  };
  useEffect(
    () => () => {
      void context.current?.close();
    },
    [],
  );
  const begin = (offsetS: number): void => {
    if (!buffer.current) return;
    const c = context.current ?? new AudioContext();
    context.current = c;
    void c.resume();
    const next = started(c, buffer.current, offsetS, wanted.current);
    begun.current = c.currentTime - offsetS;
    end(now.current);
    now.current = next;
  };
  return {
    playing,
    side,
    choose: (to) => {
      wanted.current = to;
      setSide(to);
      const c = context.current;
      if (c && now.current)
        for (const [name, g] of Object.entries(now.current.sides)) g.gain.setTargetAtTime(name === to ? 1 : 0, c.currentTime, fadeS / 3);
    },
    play: () => {
      begin(0);
      setPlaying(true);
    },
    stop: () => {
      end(now.current);
      now.current = undefined;
      setPlaying(false);
    },
    take: async (wav) => {
      const c = context.current ?? new AudioContext();
      context.current = c;
      buffer.current = await c.decodeAudioData(wav);
      if (now.current) begin((c.currentTime - begun.current) % buffer.current.duration);
    },
  };
}
