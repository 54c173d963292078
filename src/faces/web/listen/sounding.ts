import { useEffect, useRef } from "preact/compat";
import type { TopNow } from "../../../readings/sound/top";
import { pitchHz } from "./peak-words";
import type { Input } from "./use-input";

const loudness = 0.08;
const glideS = 0.02;
/** A tone whose pitch rises with the level, while it is wanted. */
export function useRisingTone(wanted: boolean, { open, follow }: Input): void {
  useEffect(() => {
    if (!wanted || !open) return undefined;
    const { context } = open;
    const [tone, gain] = [context.createOscillator(), context.createGain()];
    gain.gain.value = 0;
    tone.connect(gain).connect(context.destination);
    tone.start();
    const sound = (top: TopNow) => {
      tone.frequency.setTargetAtTime(pitchHz(top), context.currentTime, glideS);
      gain.gain.setTargetAtTime(loudness, context.currentTime, glideS);
    };
    const end = follow(({ peak }) => peak?.top && sound(peak.top));
    return () => {
      end();
      tone.stop();
      gain.disconnect();
    };
  }, [wanted, open, follow]);
}

const sayEveryMs = 1500;
/** Says a text now and then where it has changed. */
export function useSaidNowAndThen(text: string, say: (text: string) => void): void {
  const latest = useRef(text);
  latest.current = text;
  useEffect(() => {
    let said = "";
    const timer = setInterval(() => {
      if (latest.current === said || latest.current === "") return;
      said = latest.current;
      say(said);
    }, sayEveryMs);
    return () => clearInterval(timer);
  }, [say]);
}
