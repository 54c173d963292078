import { useCallback, useEffect, useRef, useState } from "preact/compat";

/** A voice that speaks on this device itself: any other would send the text to its maker. */
const ownVoice = (): SpeechSynthesisVoice | undefined =>
  "speechSynthesis" in window ? speechSynthesis.getVoices().find((v) => v.localService && v.lang.startsWith("en")) : undefined;

/** Speaks aloud while it is wanted; says whether this browser has a voice of its own. */
export function useVoice(wanted: boolean): { readonly has: boolean; readonly say: (text: string) => void } {
  const [has, setHas] = useState(() => ownVoice() !== undefined);
  useEffect(() => {
    if (!("speechSynthesis" in window)) return undefined;
    const on = () => setHas(ownVoice() !== undefined);
    // browsers load their voices after the page
    speechSynthesis.addEventListener("voiceschanged", on);
    return () => speechSynthesis.removeEventListener("voiceschanged", on);
  }, []);
  useEffect(() => () => window.speechSynthesis?.cancel(), []);
  const say = useCallback(
    (text: string) => {
      const voice = wanted ? ownVoice() : undefined;
      if (!voice) return;
      const spoken = new SpeechSynthesisUtterance(text);
      spoken.voice = voice;
      speechSynthesis.cancel();
      speechSynthesis.speak(spoken);
    },
    [wanted],
  );
  return { has, say };
}

/** What is used of a browser's recogniser; the types of the DOM don't have it. */
interface Recogniser {
  lang: string;
  continuous: boolean;
  processLocally?: boolean;
  onresult: ((e: { readonly results: ArrayLike<ArrayLike<object>> }) => void) | null;
  onend: (() => void) | null;
  onerror: ((e: { readonly error: string }) => void) | null;
  start: () => void;
  abort: () => void;
}
/** The words of one alternative: the only text among its attributes, beside a number for how sure it is (Web Speech API). */
export function wordsOf(alternative: object): string {
  // attributes of the DOM stand on its prototype, where only this loop meets them
  for (const name in alternative) {
    const value: unknown = Reflect.get(alternative, name);
    if (typeof value === "string") return value;
  }
  return "";
}
type Makes = new () => Recogniser;
const recogniser = (): Makes | undefined => {
  const w = window as Window & { readonly SpeechRecognition?: Makes; readonly webkitSpeechRecognition?: Makes };
  return w.SpeechRecognition ?? w.webkitSpeechRecognition;
};
/** Whether this browser can listen here: a recogniser, and an address that it lets the microphone be used from. */
export const canListen = (): boolean => window.isSecureContext && recogniser() !== undefined;

/** Listens to one reading at a time while it is wanted; what was heard goes to `heard`. */
export function useEar(wanted: boolean, heard: (said: string) => void): { readonly trouble: string } {
  const [trouble, setTrouble] = useState("");
  const to = useRef(heard);
  to.current = heard;
  useEffect(() => {
    const Makes = recogniser();
    if (!wanted || !Makes) return undefined;
    let left = false;
    const ear = new Makes();
    ear.lang = "en-US";
    ear.continuous = false;
    // where the browser can do it on the device, nothing leaves it
    if ("processLocally" in ear) ear.processLocally = true;
    ear.onresult = (e) => to.current(wordsOf(e.results[e.results.length - 1][0]));
    ear.onerror = (e) => {
      if (e.error === "no-speech" || e.error === "aborted") return;
      // some have no words of this language on the device: then it is the maker's machine or nothing
      if (e.error === "language-not-supported" && ear.processLocally) {
        ear.processLocally = false;
        return;
      }
      left = true;
      setTrouble(e.error === "not-allowed" ? "The browser was not allowed to listen." : `The browser stopped listening (${e.error}).`);
    };
    ear.onend = () => {
      if (!left) ear.start();
    };
    setTrouble("");
    ear.start();
    return () => {
      left = true;
      ear.abort();
    };
  }, [wanted]);
  return { trouble };
}
