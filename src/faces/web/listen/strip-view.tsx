import { useState } from "preact/compat";
import { levelsIn } from "../../../desk/response";
import type { StripSaid } from "../../../desk/strip-said";
import { type StripKnown, slotFor } from "../../../desk/strip-takes";
import type { TakeKind } from "../../../desk/takes";
import type { TakeFor } from "../../../readings/sound/live";
import { InputError, type Issue } from "../../../units/issue";
import { useKept } from "../kept";
import { Issues, Select } from "../parts";
import { issuesOf } from "../task";

const unsaid = {
  bfo: "",
  sideband: "",
  far: "",
  narrowest: "2 kHz",
  from: "",
  to: "",
  points: "",
  takes: "",
  begins: "0 s",
  tone: "400 Hz",
  avc: "",
  hold: "level",
  within: "0.2 dB",
};
type Typed = typeof unsaid;
type Key = keyof Typed;
/** What each field is called, here and where it is refused. */
const labels: Readonly<Record<Key | "levels" | "audio", string>> = {
  bfo: "Frequency of the BFO, at the IF",
  sideband: "The side of the BFO that is heard",
  far: "The other side is down by at least",
  narrowest: "Narrowest width that the set may show",
  from: "Generator's first frequency",
  to: "Its last frequency",
  points: "Steps; empty for one slow sweep",
  takes: "From the first to the end of the last",
  begins: "It begins in the recording at",
  tone: "Frequency of its modulation",
  avc: "AVC meanwhile",
  hold: "Held",
  within: "Generator may be off between points by",
  levels: "Its level at each step, two columns: Hz, dBm",
  audio: "Test noise through the audio",
};
export const labelled = (issues: readonly Issue[]): readonly Issue[] =>
  issues.map((i) => {
    const known = Object.entries(labels).find(([key]) => i.path === `--${key}`);
    return known ? { ...i, path: known[1], expected: i.expected.replace("--hold output", "the output held") } : i;
  });
/** What the sound of a recording is listened to for; what is missing is named as its field here. */
export function askedOf(kind: TakeKind, slot: string, known: StripKnown): TakeFor {
  try {
    return slotFor(kind, slot, known);
  } catch (e) {
    throw e instanceof InputError ? new InputError(labelled(e.issues)) : e;
  }
}
const oneOf = <T extends string>(text: string, of: readonly T[]): T | undefined => of.find((x) => x === text);
const saidOf = (t: Typed): StripSaid => ({
  ...t,
  sideband: oneOf(t.sideband, ["upper", "lower"]),
  points: t.points.trim() === "" ? undefined : Number(t.points),
  avc: oneOf(t.avc, ["off", "clamped", "on"]),
  hold: oneOf(t.hold, ["level", "output"]) ?? "level",
});

/** What is said of BFO and generator, kept as it is typed, and what else is known. */
export interface Strip {
  readonly known: StripKnown;
  readonly typed: Typed;
  readonly type: (key: Key) => (text: string) => void;
  readonly takeLevels: (file: File) => Promise<void>;
  /** the file of levels that was taken */
  readonly levels: string;
  /** what is wrong with that file */
  readonly issues: readonly Issue[];
}
export function useStrip(beside: Pick<StripKnown, "loop" | "audio">): Strip {
  const [typed, set] = useKept<Typed>("listen:strip", unsaid);
  const [levels, setLevels] = useState<{
    readonly name: string;
    readonly gave?: ReadonlyMap<number, number>;
    readonly issues: readonly Issue[];
  }>({
    name: "",
    issues: [],
  });
  return {
    known: { ...beside, said: saidOf(typed), gave: typed.hold === "output" ? levels.gave : undefined },
    typed,
    type: (key) => (text) => set({ ...typed, [key]: text }),
    levels: levels.name,
    issues: levels.issues,
    takeLevels: async (file) => {
      try {
        setLevels({
          name: file.name,
          gave: levelsIn({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }, "--levels"),
          issues: [],
        });
      } catch (e) {
        setLevels({ name: "", issues: labelled(issuesOf(e)) });
      }
    },
  };
}
const Text = ({ of, name, such = "" }: { readonly of: Strip; readonly name: Key; readonly such?: string }) => (
  <label className="field">
    {labels[name]}
    <input value={of.typed[name]} placeholder={such} onChange={(e) => of.type(name)(e.currentTarget.value)} />
  </label>
);
const Choice = ({
  of,
  name,
  options,
}: {
  readonly of: Strip;
  readonly name: Key;
  readonly options: readonly (readonly [string, string])[];
}) => <Select label={labels[name]} value={of.typed[name]} onChange={of.type(name)} options={options} />;
const BfoFields = ({ of }: { readonly of: Strip }) => (
  <div className="row">
    <Text of={of} name="bfo" such="453.5 kHz" />
    <Choice
      of={of}
      name="sideband"
      options={[
        ["", "not said"],
        ["upper", "upper"],
        ["lower", "lower"],
      ]}
    />
    <Text of={of} name="far" such="40 dB" />
    <Text of={of} name="narrowest" />
  </div>
);
const GeneratorFields = ({ of }: { readonly of: Strip }) => (
  <div className="row">
    <Choice
      of={of}
      name="hold"
      options={[
        ["level", "the generator's level"],
        ["output", "the output: the generator is raised"],
      ]}
    />
    {of.typed.hold === "output" ? (
      <label className="field">
        {labels.levels}
        <input
          type="file"
          accept=".csv,.txt"
          onChange={(e) => {
            const [file] = e.currentTarget.files ?? [];
            if (file) void of.takeLevels(file);
          }}
        />
      </label>
    ) : (
      <>
        <Text of={of} name="from" such="445 kHz" />
        <Text of={of} name="to" such="465 kHz" />
        <Text of={of} name="points" such="41" />
      </>
    )}
    <Text of={of} name="takes" such="2 min" />
    <Text of={of} name="begins" />
    <Text of={of} name="tone" />
    <Choice
      of={of}
      name="avc"
      options={[
        ["", "not said"],
        ["off", "off"],
        ["clamped", "clamped"],
        ["on", "on"],
      ]}
    />
    <Text of={of} name="narrowest" />
    <Text of={of} name="within" />
  </div>
);
/** What one of the recordings wants to be known beside its sound. */
export function StripFields({ slot, of }: { readonly slot: string; readonly of: Strip }) {
  if (slot === "bfo") return <BfoFields of={of} />;
  if (slot !== "generator") return null;
  return (
    <>
      <GeneratorFields of={of} />
      <Issues of={of.issues} />
    </>
  );
}
