import { useCallback, useEffect, useMemo, useState } from "react";
import { createRoot } from "react-dom/client";
import { isSafeToJoin } from "../../ask/chassis";
import type { JobDocument } from "../../job/document";
import { nextSteps } from "../../job/next";
import { stepById } from "../../job/steps";
import { viewOf } from "../../job/view";
import { sheets } from "../../sheets/index";
import type { Issue } from "../../units/issue";
import { api, download } from "./api";
import { BeforeOpening } from "./before-opening";
import { Describe } from "./describe";
import { DialPage } from "./dial";
import { FromNothing } from "./from-nothing";
import { Jobs } from "./jobs";
import { useKept } from "./kept";
import { Issues, Panel, State } from "./parts";
import { PartsPage } from "./parts-page";
import { ProofPage } from "./proof-page";
import { Photographs, ReadFile, ReadingList } from "./readings";
import { Records } from "./records";
import { Route, readingsOfStage, sheetsOfStage } from "./route";
import { SheetPage } from "./sheet";
import { issuesOf, TaskLine, useTask } from "./task";
import { Changed, Next, Work } from "./works";

/** Where the page is: #/ , #/describe , #/job/NAME , #/job/NAME/sheet/ID , #/job/NAME/readings|records|set */
const readHash = (): string[] => location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
function useHash(): readonly string[] {
  const [at, setAt] = useState(readHash);
  useEffect(() => {
    const on = () => {
      setAt(readHash());
      window.scrollTo(0, 0);
    };
    addEventListener("hashchange", on);
    return () => removeEventListener("hashchange", on);
  }, []);
  return at;
}

/** Counts up whenever anything is recorded in the store, by this page or by anybody else; says when the server is gone. */
function useStore(): { readonly version: number; readonly gone: boolean; readonly again: () => void } {
  const [version, setVersion] = useState(0);
  const [gone, setGone] = useState(false);
  useEffect(() => {
    const events = new EventSource("api/events");
    events.addEventListener("change", () => setVersion((v) => v + 1));
    events.onopen = () => setGone(false);
    events.onerror = () => setGone(true);
    return () => events.close();
  }, []);
  return { version, gone, again: useCallback(() => setVersion((v) => v + 1), []) };
}

const job = (name: string, ...rest: string[]): string => `#/${["job", name, ...rest].map(encodeURIComponent).join("/")}`;

/** Writes the report, says that it is at it, and can be stopped. */
function ReportButton({ name }: { readonly name: string }) {
  const task = useTask();
  const write = () =>
    task.run("Writing the report", async (signal) => {
      await download(api.reportUrl(name), `${name}.pdf`, signal);
      return "The report is among your downloads.";
    });
  return (
    <span className="report">
      {task.word === "" && (
        <button type="button" className="plain" onClick={() => void write()}>
          Report (PDF)
        </button>
      )}
      <TaskLine of={task} stop="Stop writing" />
    </span>
  );
}

function JobPage({
  name,
  rest,
  version,
  reload,
}: {
  readonly name: string;
  readonly rest: readonly string[];
  readonly version: number;
  readonly reload: () => void;
}) {
  const [loaded, setLoaded] = useState<JobDocument>();
  const [unreadable, setUnreadable] = useState(0);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [chosen, setChosen] = useKept(`stage:${name}`, "mixer");
  // biome-ignore lint/correctness/useExhaustiveDependencies: loaded again whenever the store has changed
  useEffect(() => {
    let current = true;
    api.load(name).then(
      (r) => {
        if (!current) return;
        setIssues([]);
        setUnreadable(r.unreadable.length);
        setLoaded((old) => (JSON.stringify(old) === JSON.stringify(r.document) ? old : r.document));
      },
      (e) => current && setIssues(issuesOf(e)),
    );
    return () => {
      current = false;
    };
  }, [name, version]);
  const view = useMemo(() => loaded && viewOf(loaded), [loaded]);
  if (!view)
    return (
      <main>
        <h1>{name}</h1>
        <Issues of={issues} />
        <p role="status">{issues.length === 0 ? "Opening…" : ""}</p>
      </main>
    );
  const [page, id, asked = ""] = rest;
  const sheet = page === "sheet" ? sheets.find((s) => s.id === id) : undefined;
  const stage = view.set.stages.find((s) => s.id === chosen) ?? view.set.stages[0];
  const tab = (label: string, ...to: string[]) => (
    <a href={job(name, ...to)} aria-current={(to[0] ?? "") === (page ?? "") ? "page" : undefined}>
      {label}
    </a>
  );
  return (
    <>
      <nav className="jobnav noprint" aria-label="This job">
        <strong className="jobname">{name}</strong>
        {tab("The set")}
        {tab("Readings and work", "readings")}
        {tab("The dial", "dial")}
        {tab("Record cards", "records")}
        {tab("Parts", "parts")}
        {tab("Performance record", "proof")}
        {tab("Describe the set", "set")}
        {tab("Before you open it", "before-opening")}
        <ReportButton name={name} />
        <a href={api.exportUrl(name)}>Export (zip)</a>
      </nav>
      {unreadable > 0 && (
        <p role="status">
          {`${unreadable === 1 ? "One entry of this job" : `${unreadable} entries of this job`} can't be read and ${unreadable === 1 ? "is" : "are"} left out; an export keeps ${unreadable === 1 ? "it" : "them"} as stored.`}
        </p>
      )}
      {!isSafeToJoin(view.chassis) && (
        <p className="danger-line" role="alert">
          This chassis {view.chassis === "live" ? "is joined to the line" : "is not proved isolated, so it counts as live"}. Stop here: join
          nothing to it until it is proved. <a href={job(name, "set")}>Prove the chassis</a>
        </p>
      )}
      {sheet ? (
        <main className="two">
          <SheetPage key={`${sheet.id} ${asked}`} view={view} sheet={sheet} about={asked} name={name} reload={reload} />
          <aside>
            <Panel title="Other questions" id="others">
              <ul>
                {sheets
                  .filter((s) => s !== sheet)
                  .map((s) => (
                    <li key={s.id}>
                      <a href={job(name, "sheet", s.id)}>{s.question}</a>
                    </li>
                  ))}
              </ul>
            </Panel>
          </aside>
        </main>
      ) : page === "readings" ? (
        <main className="two">
          <div>
            <h1>Readings and work</h1>
            <ReadFile view={view} name={name} reload={reload} />
            <ReadingList view={view} name={name} />
            <Photographs view={view} name={name} reload={reload} />
          </div>
          <aside>
            <Work view={view} name={name} reload={reload} />
            <Changed view={view} name={name} reload={reload} />
          </aside>
        </main>
      ) : page === "dial" ? (
        <DialPage view={view} name={name} reload={reload} />
      ) : page === "records" ? (
        <Records view={view} name={name} reload={reload} />
      ) : page === "parts" ? (
        <PartsPage name={name} version={version} />
      ) : page === "before-opening" ? (
        <BeforeOpening safetyCard={job(name, "records")} />
      ) : page === "proof" ? (
        <ProofPage name={name} version={version} />
      ) : page === "set" ? (
        <Describe view={view} name={name} reload={reload} />
      ) : (
        <main className="two">
          <div>
            <h1>
              {name} <small>{view.set.title}</small>
            </h1>
            <p className="quiet">{view.set.note}</p>
            {page !== undefined && (
              <Issues
                of={[{ path: "page", code: "no-page", read: [page, id].filter(Boolean).join(" "), expected: "a page of this job" }]}
              />
            )}
            <p className="nextline">
              <button type="button" className="plain" onClick={() => document.getElementById("next")?.scrollIntoView()}>
                Next: {nextSteps(view)[0]?.task ?? "nothing is open"}
              </button>
            </p>
            <Route view={view} chosen={stage.id} choose={setChosen} StateMark={State} />
            <Panel title={`${stage.label}: ${stage.part}`} id="stage">
              <h3>Questions about it</h3>
              <ul className="questions">
                {sheetsOfStage(stage).map((s) => (
                  <li key={s.id}>
                    <a href={job(name, "sheet", s.id, ...(s.subject === "stage" ? [`stages.${stage.id}`] : []))}>{s.question}</a>
                  </li>
                ))}
                {sheetsOfStage(stage).length === 0 && <li>None that can be answered yet.</li>}
              </ul>
              <h3>Its readings</h3>
              <ul>
                {readingsOfStage(view, stage).map((r) => (
                  <li key={r.id}>
                    {r.file.name}, {r.state.replace("-", " ")}:{" "}
                    {r.figures
                      .filter((f) => /width at -6|centre/.test(f.name))
                      .map((f) => `${f.name} ${f.text}`)
                      .join("; ") || r.figures[0]?.text}
                  </li>
                ))}
                {readingsOfStage(view, stage).length === 0 && (
                  <li>None yet. Read a file in, or write a chart, under “Readings and work” and “Record cards”.</li>
                )}
              </ul>
              <h3>Its steps</h3>
              <ul className="steps">
                {view.steps
                  .filter((s) => stage.steps.includes(s.id))
                  .map((s) => (
                    <li key={s.id}>
                      <State state={s.state} /> {stepById(s.id)?.title} (step {s.id}).
                      {s.due.map((d) => ` ${d.task}: ${d.why}.`)}
                    </li>
                  ))}
              </ul>
            </Panel>
          </div>
          <aside>
            <Next view={view} name={name} reload={reload} />
            <Changed view={view} name={name} reload={reload} />
          </aside>
        </main>
      )}
      <Issues of={issues} />
    </>
  );
}

function Page() {
  const [where, name, ...rest] = useHash();
  const { version, gone, again } = useStore();
  const [theme, setTheme] = useKept("theme", "day");
  const [large, setLarge] = useKept("large", false);
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
    document.documentElement.dataset.large = large ? "yes" : "no";
    document.title = where === "job" && name ? `${name} – Fettle` : "Fettle";
  }, [theme, large, where, name]);
  return (
    <>
      <header className="top noprint">
        <a href="#/" className="home">
          Fettle
        </a>
        <span className="spacer" />
        <button type="button" className="plain" aria-pressed={theme === "dark"} onClick={() => setTheme(theme === "dark" ? "day" : "dark")}>
          Dark room
        </button>
        <button type="button" className="plain" aria-pressed={large} onClick={() => setLarge(!large)}>
          Large digits
        </button>
      </header>
      {gone && (
        <p className="gone" role="alert">
          Fettle's server does not answer. What you typed is kept in this browser; start it again with ./fettle open and go on at the
          address that it prints.
        </p>
      )}
      {where === "job" && name ? (
        <JobPage key={name} name={name} rest={rest} version={version} reload={again} />
      ) : where === "describe" ? (
        <FromNothing />
      ) : (
        <Jobs version={version} />
      )}
      <footer className="noprint quiet">
        B+ kills. No value on this page makes anything safe to touch: measure first. Local code and licensed practice prevail.
      </footer>
    </>
  );
}

const root = document.getElementById("root");
if (root) createRoot(root).render(<Page />);
