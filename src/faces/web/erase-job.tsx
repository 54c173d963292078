import { useState } from "preact/compat";
import { api, download } from "./api";
import { CantWait } from "./cant-wait";
import { Panel } from "./parts";
import { TaskLine, useTask } from "./task";

/** Takes a job out of the store for good: folded away, and only by its name typed out. Its zip is put among the downloads first. */
export function EraseJob() {
  const [name, setName] = useState("");
  const [confirm, setConfirm] = useState("");
  const [keep, setKeep] = useState(true);
  const task = useTask();
  const erase = () =>
    task.run("Erasing", async (signal) => {
      const said = { confirm: confirm.trim() };
      const kept = keep ? await download(api.exportUrl(name), `${name}.zip`, signal) : undefined;
      const { says } = await api.erase(name, kept ? { ...said, revision: Number(kept.get("x-revision")) } : said);
      setName("");
      setConfirm("");
      return says.join(" ");
    });
  return (
    <Panel title="Erase a job" id="erase">
      <details>
        <summary>To remove an owner's records for good</summary>
        <form
          onSubmit={(e) => {
            e.preventDefault();
            void erase();
          }}
        >
          <div className="row">
            <label className="field">
              Job to erase
              <input list="jobs-known" value={name} required onChange={(e) => setName(e.currentTarget.value)} />
            </label>
            <label className="field">
              Its name, typed again
              <input value={confirm} required autoComplete="off" onChange={(e) => setConfirm(e.currentTarget.value)} />
            </label>
          </div>
          <label className="choice">
            <input type="checkbox" checked={keep} onChange={(e) => setKeep(e.currentTarget.checked)} />
            <span>Put its zip in my downloads first: it can be brought back from there.</span>
          </label>
          <p className="quiet">
            All of it goes: entries, readings, cards, photographs. Nothing on this page brings it back. Earlier backups and exports still
            hold it.
          </p>
          <CantWait act="erase" />
          <button type="submit" disabled={name === "" || confirm.trim() !== name}>
            Erase it
          </button>
        </form>
      </details>
      <TaskLine of={task} />
    </Panel>
  );
}
