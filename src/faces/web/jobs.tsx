import { useEffect, useState } from "preact/compat";
import { momentInWords } from "../../units/day";
import { api, type JobRow } from "./api";
import { CantWait } from "./cant-wait";
import { CopyJob } from "./copy-job";
import { EraseJob } from "./erase-job";
import { InRecords } from "./in-records";
import { useKept } from "./kept";
import { KnownLink, KnownPage } from "./known-page";
import { openPage } from "./links";
import { Panel } from "./parts";
import { TaskLine, useTask } from "./task";

// with the list that leads there: a part of its own would cost every other place more than it spares
export { KnownPage };
/** The list of jobs, with search; a new one from a pattern or described from nothing; a copy; one taken in from its zip. */
export function Jobs({ version }: { readonly version: number }) {
  const [list, setList] = useState<{ readonly jobs: readonly JobRow[]; readonly total: number; readonly search: string }>();
  const [search, setSearch] = useKept("search", "");
  const task = useTask();
  // biome-ignore lint/correctness/useExhaustiveDependencies: loaded again whenever the store or the search has changed
  useEffect(() => {
    void task.run(list ? "" : "Opening", async (signal) => {
      const found = await api.jobs(search);
      if (!signal.aborted) setList({ ...found, search });
      return undefined;
    });
  }, [version, search]);
  // how far each job is comes after the list itself, and is dropped when another list is asked for
  const [states, setStates] = useState<Readonly<Record<string, string>>>({});
  useEffect(() => {
    if (!list || list.jobs.length === 0) return undefined;
    const control = new AbortController();
    api
      .states(
        list.jobs.map((j) => j.name),
        control.signal,
      )
      .then(
        (s) => !control.signal.aborted && setStates(s),
        () => undefined,
      );
    return () => control.abort();
  }, [list]);
  const jobs = list?.jobs ?? [];
  const empty = list?.total === 0 && list.search === "";
  return (
    <main className="jobs">
      <h1>Jobs on this bench</h1>
      <TaskLine of={task} />
      <Panel title="Your jobs" id="list">
        {!empty && (
          <label className="field">
            Search
            <input type="search" value={search} onChange={(e) => setSearch(e.currentTarget.value)} />
          </label>
        )}
        {empty && (
          <p>
            No jobs yet. Choose the kind of set nearest to yours below, name the job, and start: every value is marked as assumed until you
            state or measure it. Or look at the demo set first.
          </p>
        )}
        <ul className="joblist">
          {jobs.map((j) => (
            <li key={j.name}>
              <a href={`#/job/${encodeURIComponent(j.name)}`}>{j.name}</a>
              <span>{j.title}</span>
              <span className="quiet">{[...(states[j.name] ? [states[j.name]] : []), momentInWords(j.updated)].join("; ")}</span>
            </li>
          ))}
        </ul>
        {!empty && list && (
          <p role="status" className="quiet">
            {list.total === 0
              ? "No job of that name or title."
              : list.total > jobs.length
                ? `The latest ${jobs.length} of ${list.total}: type more to find others.`
                : ""}
          </p>
        )}
        {jobs.length > 0 && <KnownLink />}
        {list && list.search.trim().length >= 2 && <InRecords text={list.search.trim()} />}
      </Panel>
      <NewJob />
      <Demo />
      {jobs.length > 0 && <CopyJob jobs={jobs} />}
      <TakeIn />
      {jobs.length > 0 && <EraseJob />}
    </main>
  );
}

function NewJob() {
  const [patterns, setPatterns] = useState<readonly { id: string; title: string; note: string }[]>([]);
  const [draft, setDraft] = useKept("new-job", { name: "", pattern: "nine-tube-bandspread" });
  const task = useTask();
  useEffect(() => void api.patterns().then(setPatterns, () => undefined), []);
  const make = () =>
    task.run("Making the job", async () => {
      const { name } = await api.create(draft.name.trim(), { pattern: draft.pattern });
      setDraft({ ...draft, name: "" });
      openPage(name);
      return undefined;
    });
  return (
    <Panel title="A new job" id="new">
      <p>
        From the kind of set that is nearest, or <a href="#/describe">described from scratch</a>.
      </p>
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
            onChange={(e) => setDraft({ ...draft, name: e.currentTarget.value })}
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
        <CantWait act="jobs" />
        <button type="submit">Start this job</button>
        <TaskLine of={task} />
      </form>
    </Panel>
  );
}

function Demo() {
  const task = useTask();
  const make = () =>
    task.run("Making the demo", async (signal) => {
      openPage((await api.demo(signal)).name);
      return undefined;
    });
  return (
    <Panel title="The demo" id="demo">
      <p>An invented set with a sweep, zero beats on its dial and a cable just fitted. Nothing in it was measured on a real set.</p>
      <button type="button" className="plain" onClick={() => void make()}>
        Look at the demo set
      </button>
      <TaskLine of={task} />
    </Panel>
  );
}

function TakeIn() {
  const task = useTask();
  const take = (file: File | undefined) => {
    if (file)
      void task.run("Bringing it in", async (signal) => {
        openPage((await api.import(file, signal)).name);
        return undefined;
      });
  };
  return (
    <Panel title="Bring a job in" id="import">
      <label className="field">
        A job's zip
        <input type="file" accept=".zip" onChange={(e) => take(e.currentTarget.files?.[0])} />
      </label>
      <CantWait act="import" />
      <TaskLine of={task} />
    </Panel>
  );
}
