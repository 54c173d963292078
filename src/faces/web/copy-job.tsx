import { api, type JobRow } from "./api";
import { CantWait } from "./cant-wait";
import { useKept } from "./kept";
import { openPage } from "./links";
import { Panel, Select } from "./parts";
import { TaskLine, useTask } from "./task";

/** Copies a job, whole or its set alone, under another name. */
export function CopyJob({ jobs }: { readonly jobs: readonly JobRow[] }) {
  const [draft, setDraft] = useKept("copy-job", { from: "", name: "", what: "set" });
  const from = draft.from.trim() || (jobs[0]?.name ?? "");
  const task = useTask();
  const copy = () =>
    task.run("Copying", async (signal) => {
      const { name } = await api.copy(from, draft.name.trim(), draft.what === "set", signal);
      setDraft({ ...draft, name: "" });
      openPage(name);
      return undefined;
    });
  return (
    <Panel title="Copy a job" id="copy">
      <form
        onSubmit={(e) => {
          e.preventDefault();
          void copy();
        }}
      >
        <div className="row">
          <label className="field">
            From
            <input
              list="jobs-known"
              value={draft.from}
              placeholder={from}
              onChange={(e) => setDraft({ ...draft, from: e.currentTarget.value })}
            />
          </label>
          <datalist id="jobs-known">
            {jobs.map((j) => (
              <option key={j.name} value={j.name} />
            ))}
          </datalist>
          <label className="field">
            Name of the copy
            <input value={draft.name} required maxLength={80} onChange={(e) => setDraft({ ...draft, name: e.currentTarget.value })} />
          </label>
          <Select
            label="What is copied"
            value={draft.what}
            onChange={(what) => setDraft({ ...draft, what })}
            options={[
              ["set", "the set alone"],
              ["all", "everything in it"],
            ]}
          />
        </div>
        <p className="quiet">
          {draft.what === "set"
            ? "For another set of the same kind: no readings, work or cards; what was measured on the first is only assumed for the second, and its chassis must be proved again."
            : "Readings, work, cards and photographs too, all as they are."}
        </p>
        <CantWait act="copy" />
        <button type="submit">Copy it</button>
        <TaskLine of={task} />
      </form>
    </Panel>
  );
}
