import type { recordedAs } from "../../../readings/sound/baseband";
import { useKept } from "../kept";
import { Select } from "../parts";
import type { OwnSaid } from "./band-messages";

type As = (typeof recordedAs)[number];
const ways: readonly (readonly [As, string])[] = [
  ["iq", "I left, Q right"],
  ["qi", "Q left, I right"],
  ["if", "one channel, at an intermediate frequency"],
];
const unsaid = { as: "iq", centre: "0 Hz", begins: "0 s" };
type Typed = typeof unsaid;
/** A band that the person recorded: which file, how, and where in it the station stands. */
export function OwnFields({ own, set }: { readonly own: OwnSaid | undefined; readonly set: (own: OwnSaid | undefined) => void }) {
  const [typed, keep] = useKept<Typed>("heard:own", unsaid);
  const saidOf = (t: Typed, file: File): OwnSaid => ({
    file,
    as: ways.find(([id]) => id === t.as)?.[0] ?? "iq",
    centre: t.centre,
    begins: t.begins,
  });
  const say = (key: keyof Typed) => (text: string) => {
    const next = { ...typed, [key]: text };
    keep(next);
    if (own) set(saidOf(next, own.file));
  };
  return (
    <div className="row">
      <label className="field">
        A recording of your own in its place, WAV or FLAC
        <input
          type="file"
          accept=".wav,.flac,audio/wav,audio/flac"
          onClick={(e) => {
            e.currentTarget.value = "";
          }}
          onChange={(e) => {
            const [file] = e.currentTarget.files ?? [];
            if (file) set(saidOf(typed, file));
          }}
        />
      </label>
      {own && (
        <>
          <Select label="Recorded as" value={typed.as} onChange={say("as")} options={ways} />
          <label className="field">
            Where in it the station stands
            <input value={typed.centre} onChange={(e) => say("centre")(e.currentTarget.value)} />
          </label>
          <label className="field">
            Begin at
            <input value={typed.begins} onChange={(e) => say("begins")(e.currentTarget.value)} />
          </label>
          <button type="button" className="plain" onClick={() => set(undefined)}>
            Back to the scene
          </button>
        </>
      )}
    </div>
  );
}
