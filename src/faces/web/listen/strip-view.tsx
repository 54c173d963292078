import { useState } from "preact/compat";
import { levelsIn, type ResponseTold, responseCsv } from "../../../desk/response";
import type { StripSaid } from "../../../desk/strip-said";
import { bfoTake, generatorTake, type StripKnown } from "../../../desk/strip-takes";
import type { Takes } from "../../../desk/takes";
import type { Issue } from "../../../units/issue";
import { api } from "../api";
import { useKept } from "../kept";
import { Issues, Select, Taken } from "../parts";
import { issuesOf, TaskLine, useTask } from "../task";
import type { ToJob } from "./keep-heard";
import { ResponseBox } from "./takes-told";

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
const labelled = (issues: readonly Issue[]): readonly Issue[] =>
  issues.map((i) => {
    const known = Object.entries(labels).find(([key]) => i.path === `--${key}`);
    return known ? { ...i, path: known[1], expected: i.expected.replace("--hold output", "the output held") } : i;
  });
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

/** Keeps a selectivity as a sweep of the IF, the strip fitted to it, as any other sweep. */
function KeepSweep({ of, name, to }: { readonly of: ResponseTold; readonly name: string; readonly to: ToJob }) {
  const [state, setState] = useKept("listen:strip:state", "as-left");
  const task = useTask();
  const keep = () =>
    task.run("Keeping it, and fitting the strip to it", async (signal) => {
      const file = new File([responseCsv(of)], `${name.replace(/\.\w+$/, "")} response.csv`, { type: "text/csv" });
      const kept = await api.read(to.name, { as: "if-sweep", state, record: "yes" }, file, signal);
      to.reload();
      return `Kept as reading ${kept.reading.id}, a sweep of the IF.`;
    });
  return (
    <div className="row">
      <Taken value={state} onChange={setState} />
      <button type="button" onClick={() => void keep()}>
        Keep as a sweep of the IF
      </button>
      <TaskLine of={task} />
    </div>
  );
}
const told = (
  work: () => ResponseTold | undefined,
): { readonly response?: ResponseTold | undefined; readonly issues: readonly Issue[] } => {
  try {
    return { response: work(), issues: [] };
  } catch (e) {
    return { issues: labelled(issuesOf(e)) };
  }
};
/** Selectivity by the recordings that there are, and why there is none. */
export function StripTold({ takes, strip, to }: { readonly takes: Takes; readonly strip: Strip; readonly to?: ToJob | undefined }) {
  const both = [
    ["bfo", told(() => bfoTake(takes, strip.known))],
    ["generator", told(() => generatorTake(takes, strip.known))],
  ] as const;
  return (
    <>
      {both.map(([slot, { response, issues }]) => (
        <div key={slot}>
          <Issues of={issues} />
          {response && response.points.length > 4 && <ResponseBox of={response} />}
          {response && response.points.length > 4 && to && <KeepSweep of={response} name={takes[slot]?.heard.name ?? slot} to={to} />}
          {response && response.points.length <= 4 && <p className="quiet">Fewer than 5 points stand above the noise so far.</p>}
        </div>
      ))}
    </>
  );
}
