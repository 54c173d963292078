import { useState } from "preact/compat";
import type { KnownSaid } from "../../job/rollups/known/say-known";
import { api } from "./api";
import { useKept } from "./kept";
import { Panel } from "./parts";
import { TaskLine, useTask } from "./task";

/** What the records of all jobs know of a kind of set or of a part. */
export function KnownPage() {
  const [wanted, setWanted] = useKept("known", { set: "", part: "" });
  const [said, setSaid] = useState<KnownSaid>();
  const task = useTask();
  const ask = (of: typeof wanted) =>
    task.run("Looking through all jobs", async (signal) => {
      const given = await api.known(of.set.trim(), of.part.trim(), signal);
      if (!signal.aborted) setSaid(given);
      return undefined;
    });
  const field = (label: string, name: "set" | "part", placeholder: string) => (
    <label className="field">
      {label}
      <input
        value={wanted[name]}
        maxLength={200}
        placeholder={placeholder}
        onChange={(e) => setWanted({ ...wanted, [name]: e.currentTarget.value })}
      />
    </label>
  );
  return (
    <main className="jobs">
      <h1>What the records know</h1>
      <p>
        <a href="#/">All jobs</a>
      </p>
      <form
        onSubmit={(e) => {
          e.preventDefault();
          void ask(wanted);
        }}
      >
        <div className="row">
          {field("Kind of set", "set", "words from its intake card or title")}
          {field("Kind of part", "part", "such as wax paper, or 6BA6")}
        </div>
        <button type="submit">Look through all jobs</button>
        <TaskLine of={task} />
      </form>
      {said && <Given said={said} />}
    </main>
  );
}

const Lines = ({ of }: { readonly of: readonly string[] }) => (
  <ul>
    {of.map((l) => (
      <li key={l}>{l}</li>
    ))}
  </ul>
);
const Given = ({ said }: { readonly said: KnownSaid }) => (
  <div role="status">
    <p className="answer">{said.headline}</p>
    {said.parts.map((p) => (
      <Panel key={p.heading} title={p.heading} id={p.heading.toLowerCase().replace(/\W+/g, "-")}>
        <Lines of={p.lines} />
      </Panel>
    ))}
    {said.parts.length > 0 && <p className="quiet">{said.note}</p>}
    {said.kinds.length > 1 && (
      <Panel title="Kinds of set in the records" id="kinds">
        <Lines of={said.kinds} />
      </Panel>
    )}
  </div>
);

export const KnownLink = () => (
  <p>
    <a href="#/known">What the records know of a kind of set or part</a>
  </p>
);
