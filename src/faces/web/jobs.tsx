import { useEffect, useState } from "react";
import type { Issue } from "../../units/issue";
import { api, type JobRow, Refused } from "./api";
import { useKept } from "./kept";
import { Issues, Panel } from "./parts";

const issuesOf = (e: unknown): readonly Issue[] =>
  e instanceof Refused ? e.issues : [{ path: "page", code: "defect", read: String(e), expected: "no defect" }];

export { issuesOf };

/** The list of jobs, with search; a new one from a pattern; one taken in from its zip. */
export function Jobs({ version }: { readonly version: number }) {
  const [jobs, setJobs] = useState<readonly JobRow[]>();
  const [patterns, setPatterns] = useState<readonly { id: string; title: string; note: string }[]>([]);
  const [search, setSearch] = useKept("search", "");
  const [draft, setDraft] = useKept("new-job", { name: "", pattern: "nine-tube-bandspread" });
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: loaded again whenever the store has changed
  useEffect(() => {
    api.jobs().then(setJobs, (e) => setIssues(issuesOf(e)));
  }, [version]);
  useEffect(() => void api.patterns().then(setPatterns, () => undefined), []);
  const open = (name: string) => {
    location.hash = `#/job/${encodeURIComponent(name)}`;
  };
  const make = async () => {
    try {
      const { name } = await api.create(draft.name.trim(), draft.pattern);
      setDraft({ ...draft, name: "" });
      open(name);
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  const take = async (file: File | undefined) => {
    if (!file) return;
    try {
      open((await api.import(file)).name);
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  const shown = (jobs ?? []).filter((j) => `${j.name} ${j.title}`.toLowerCase().includes(search.toLowerCase()));
  return (
    <main className="jobs">
      <h1>Jobs on this bench</h1>
      <Issues of={issues} />
      <Panel title="Your jobs" id="list">
        {jobs && jobs.length > 0 && (
          <label className="field">
            Search
            <input type="search" value={search} onChange={(e) => setSearch(e.target.value)} />
          </label>
        )}
        {jobs?.length === 0 && (
          <p>
            No jobs yet. Choose the kind of set below that is nearest to yours, give the job a name, and start: every value in it is marked
            as assumed until you state or measure it.
          </p>
        )}
        <ul className="joblist">
          {shown.map((j) => (
            <li key={j.name}>
              <a href={`#/job/${encodeURIComponent(j.name)}`}>{j.name}</a>
              <span>{j.title}</span>
              <span className="quiet">{`${j.state}; ${j.updated.slice(0, 16).replace("T", " ")}`}</span>
            </li>
          ))}
        </ul>
      </Panel>
      <Panel title="A new job" id="new">
        <form
          onSubmit={(e) => {
            e.preventDefault();
            void make();
          }}
        >
          <label className="field">
            Name of the job
            <input
              value={draft.name}
              onChange={(e) => setDraft({ ...draft, name: e.target.value })}
              required
              maxLength={80}
              placeholder="Whose set, which set"
            />
          </label>
          <fieldset>
            <legend>What kind of set is nearest?</legend>
            {patterns.map((p) => (
              <label key={p.id} className="choice">
                <input
                  type="radio"
                  name="pattern"
                  value={p.id}
                  checked={draft.pattern === p.id}
                  onChange={() => setDraft({ ...draft, pattern: p.id })}
                />
                <span>
                  <strong>{p.title}</strong> {p.note}
                </span>
              </label>
            ))}
          </fieldset>
          <button type="submit">Start this job</button>
        </form>
      </Panel>
      <Panel title="Take a job in" id="import">
        <label className="field">
          A job's zip
          <input type="file" accept=".zip" onChange={(e) => void take(e.target.files?.[0])} />
        </label>
      </Panel>
    </main>
  );
}
