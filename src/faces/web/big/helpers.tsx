import { useEffect, useState } from "preact/compat";
import { spokenReading } from "../../../units/spoken";
import { useKept } from "../kept";
import { canListen, useEar, useVoice } from "./speech";
import { type Awake, useAwake } from "./use-awake";
import type { AtPoint } from "./use-point";

const awakeSays: Readonly<Record<Awake, string>> = {
  kept: "It stays on while this page is in sight.",
  off: "It goes dark when the device is set to.",
  "not here": "This browser can't do that at this address: set the screen time on the device itself.",
};
/** What is said aloud: the point to read, then what is wrong with what was typed. */
function useSaid(p: AtPoint, say: (text: string) => void): void {
  const { point } = p;
  const says = point ? `${point.at}. ${point.heading}.${point.due ? ` Should read ${point.due}.` : ""}` : "";
  useEffect(() => {
    if (says !== "") say(says);
  }, [says, say]);
  const verdict = p.said?.verdict === "wrong" ? `${p.written}: ${p.said.says}` : "";
  useEffect(() => {
    if (verdict !== "") say(verdict);
  }, [verdict, say]);
}
/** What was heard: the word that keeps a reading, or a reading, said back before it is kept. */
function hear(p: AtPoint, heard: string, say: (text: string) => void): void {
  if (/^(?:keep|keep it|next|okay|ok)\.?$/i.test(heard.trim())) {
    if (p.text !== "" && p.refused === undefined) void p.keep();
    return;
  }
  const read = spokenReading(heard);
  if (read !== undefined) p.type(read);
  say(read === undefined ? "Not understood. Say it again." : `${read}. Say keep.`);
}
const Switch = (p: { readonly on: boolean; readonly set: (on: boolean) => void; readonly can: boolean; readonly says: string }) => (
  <label className="pick">
    <input type="checkbox" checked={p.on} disabled={!p.can} onChange={(e) => p.set(e.currentTarget.checked)} />
    {p.says}
  </label>
);

/** Switches for what the page does by itself: voice and ear are off until they are asked for, and each says before what it means. */
export function Helpers({ p }: { readonly p: AtPoint }) {
  const [awake, setAwake] = useKept("awake", true);
  const [speaks, setSpeaks] = useKept("speaks", false);
  const [listens, setListens] = useState(false);
  const state = useAwake(awake);
  const voice = useVoice(speaks);
  const ear = useEar(listens, (heard) => hear(p, heard, voice.say));
  useSaid(p, voice.say);
  return (
    <details className="helpers">
      <summary>Screen, voice and ear</summary>
      <Switch on={awake} set={setAwake} can={true} says="Keep the screen on" />
      <p className="quiet">{awakeSays[state]}</p>
      <Switch on={speaks} set={setSpeaks} can={voice.has} says="Say aloud what to read, and what is wrong" />
      {!voice.has && <p className="quiet">This browser has no voice of its own. One that speaks from its maker's machines is not used.</p>}
      <Switch on={listens} set={setListens} can={canListen()} says={'Listen for readings: "two hundred fifty", then "keep"'} />
      <p className="quiet">
        {canListen()
          ? "Before you switch it on: your browser may send what it hears to its maker to be understood. Fettle sends nothing and keeps no sound."
          : "This browser can't listen at this address."}
        {ear.trouble && ` ${ear.trouble}`}
      </p>
    </details>
  );
}
