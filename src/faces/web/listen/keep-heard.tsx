import { useState } from "preact/compat";
import type { LiveHeard } from "../../../desk/live-heard";
import { noteQuestions } from "../../../desk/note-entries";
import type { JobView } from "../../../job/view";
import type { LiveTold } from "../../../readings/sound/live";
import { questionById } from "../../../sheets/asked";
import { api } from "../api";
import { CantWait } from "../cant-wait";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { Panel, Select, Taken } from "../parts";
import { TaskLine, useTask } from "../task";
import { saveSound } from "./save-sound";
import type { Input } from "./use-input";

/** The job that a reading goes to. */
export interface ToJob {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
}
const nameOf = (told: LiveTold, what: string): string => `${what} ${(told.head.begun ?? "").replace(/:/g, ".")} live.wav`;

/** What the worker told, as it is sent; none where nothing was heard yet. */
function heardOf(told: LiveTold, what: string, clock: string): LiveHeard | undefined {
  const { head, health, note, peak } = told;
  const last = peak?.stretches.at(-1);
  const common = {
    name: nameOf(told, what),
    head: { ...head, warnings: [...head.warnings] },
    health: { ...health, warnings: [...health.warnings] },
    clock,
  };
  if (note) {
    const { tone, apart, swell } = note;
    return { ...common, note: { tone: tone && { ...tone, readings: [...tone.readings] }, apart, swell } };
  }
  if (!peak || !last?.last) return undefined;
  const { bestDb, underDb } = last.last;
  const of = last.measures === "whole" ? "the whole sound" : `the tone at ${last.measures.tone.toFixed(0)} Hz`;
  const { timeS, levelDbfs } = peak;
  return {
    ...common,
    peak: { timeS: [...timeS], levelDbfs: [...levelDbfs], of, bestDb, underDb, passagesCount: last.passages.length },
  };
}
const unsaid = { state: "as-left", for: "", sideband: "", after: "" };
interface How {
  readonly how: typeof unsaid;
  readonly set: (how: typeof unsaid) => void;
}
/** What a note's track is for, and what that needs. */
const For = ({ how, set }: How) => (
  <div className="row">
    <Select
      label="It is for"
      value={how.for}
      onChange={(v) => set({ ...how, for: v })}
      options={[["", "the record alone"], ...noteQuestions.map((q) => [q, questionById(q)?.question ?? q] as const)]}
    />
    {how.for !== "" && (
      <>
        <Select
          label="The set listens on the"
          value={how.sideband}
          onChange={(v) => set({ ...how, sideband: v })}
          options={[
            ["", "not said"],
            ["upper", "upper sideband: the note falls as the set is tuned up"],
            ["lower", "lower sideband: the note rises as the set is tuned up"],
          ]}
        />
        <label className="field">
          Time since switching on, when this began
          <input value={how.after} placeholder="0 min" onChange={(e) => set({ ...how, after: e.currentTarget.value })} />
        </label>
      </>
    )}
  </div>
);

interface Keeps {
  readonly input: Input;
  readonly what: "peak" | "note";
  readonly clock: string;
}
/** Keeps what was heard as a reading of the job, with the sound where wanted. */
function KeepIn({ input, what, clock, to }: Keeps & { readonly to: ToJob }) {
  const [how, set] = useKept("listen:keep", unsaid);
  const [withSound, setWithSound] = useState(true);
  const [carrier] = useKept("listen:carrier", "");
  const task = useTask();
  const keep = () =>
    task.run("Keeping it", async (signal) => {
      const { told, wav } = await input.tell(withSound);
      const heard = heardOf(told, what, clock);
      if (!heard) return "Nothing was heard yet.";
      const file = wav && new File([wav], heard.name, { type: "audio/wav" });
      const said = what === "note" ? { ...how, carrier } : { state: how.state };
      const kept = await api.heard(to.name, { ...said, heard: JSON.stringify(heard) }, file, signal);
      to.reload();
      return `Kept: ${kept.says.join("; ")}.`;
    });
  return (
    <>
      <Taken value={how.state} onChange={(state) => set({ ...how, state })} />
      {what === "note" && <For how={how} set={set} />}
      <label className="pick">
        <input type="checkbox" checked={withSound} onChange={(e) => setWithSound(e.currentTarget.checked)} />
        With the sound itself, up to 40 minutes of it
      </label>
      <button type="button" onClick={() => void keep()}>
        Keep as a reading
      </button>
      <CantWait act="heard" />
      <TaskLine of={task} />
      {task.said.startsWith("Kept") && what === "note" && how.for !== "" && (
        <p>
          <a href={jobLink(to.name, "sheet", how.for)}>{questionById(how.for)?.question}</a>
        </p>
      )}
    </>
  );
}

/** What was heard, kept with a job where there is one; or the sound alone as a file. */
export function KeepHeard({ to, ...of }: Keeps & { readonly to?: ToJob | undefined }) {
  const task = useTask();
  const toFile = () =>
    task.run("Writing the sound", async () => {
      const { told, wav } = await of.input.tell(true);
      if (wav) saveSound(wav, nameOf(told, of.what));
      return "The sound is in your downloads.";
    });
  return (
    <Panel title="Keep it" id="keep">
      {to && <KeepIn {...of} to={to} />}
      <button type="button" className="plain" onClick={() => void toFile()}>
        Save the sound as a file
      </button>
      <TaskLine of={task} />
    </Panel>
  );
}
