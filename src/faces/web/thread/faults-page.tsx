import { useEffect, useState } from "preact/compat";
import type { TracedFault } from "../../../desk/traced";
import { isOpenFault } from "../../../job/faults/faults";
import { actTold, shownBy } from "../../../job/faults/told";
import { placeLabel, placesOf } from "../../../job/places";
import type { JobView } from "../../../job/view";
import { dayInWords } from "../../../units/day";
import type { Issue } from "../../../units/issue";
import { upperFirst } from "../../../units/sentence";
import { api, heldSays } from "../api";
import { useKept } from "../kept";
import { Issues, Panel, Select } from "../parts";
import { issuesOf, TaskLine, useTask } from "../task";
import { Ways } from "./fault-acts";

interface At {
  readonly view: JobView;
  readonly name: string;
  readonly version: number;
  readonly reload: () => void;
}
/** One fault: where, in which words, what explains it, what was done, and what comes next. */
function FaultBox({ of: f, name, reload }: { readonly of: TracedFault; readonly name: string; readonly reload: () => void }) {
  const open = isOpenFault(f);
  return (
    <li className={open ? "fault open" : "fault"}>
      <h2>
        {upperFirst(f.label)}: {f.state}
      </h2>
      {shownBy(f).map((t) => (
        <p key={t}>{upperFirst(t)}</p>
      ))}
      {f.unrecorded && <p className="quiet">A reading off its chart shows it; nobody has written it down yet.</p>}
      {f.cause && (
        <p>
          <strong>Cause:</strong> {f.cause}.
        </p>
      )}
      {f.explained && open && (
        <p>
          <strong>What explains it:</strong> {f.explained}
        </p>
      )}
      {f.state === "mended" && (
        <p>
          <strong>Read again:</strong> {f.toRead || "nothing more; it can be proved"}.
        </p>
      )}
      {f.acts.length > 0 && (
        <ul className="bare acts">
          {f.acts.map((a) => (
            <li key={a.at + a.does}>
              <span className="quiet">{dayInWords(a.at)}</span> {actTold(f, a)}
            </li>
          ))}
        </ul>
      )}
      <Ways of={f} name={name} reload={reload} />
    </li>
  );
}

/** A fault written down as it is noticed: where, and in one's own words. */
function Notice({ view, name, reload, place }: Omit<At, "version"> & { readonly place: string }) {
  const [draft, setDraft] = useKept(`notice:${name}`, { place: "set", words: "" });
  const [chosen, setChosen] = useState(place);
  const task = useTask();
  const at = chosen || draft.place;
  const record = () =>
    task.run("Writing it down", async () => {
      const r = await api.fault(name, { does: "notice", place: at, words: draft.words });
      setDraft({ place: at, words: "" });
      reload();
      return heldSays(r) ?? "Written down.";
    });
  const choose = (p: string) => {
    setChosen("");
    setDraft({ ...draft, place: p });
  };
  return (
    <Panel title="Something is wrong: write it down" id="notice">
      <form
        className="row"
        onSubmit={(e) => {
          e.preventDefault();
          void record();
        }}
      >
        <Select label="Where" value={at} onChange={choose} options={placesOf(view.set).map((p) => [p, placeLabel(view.set, p)] as const)} />
        <label className="field wide">
          What you see, hear or smell
          <input
            value={draft.words}
            required
            placeholder="hum rises with the gain control"
            onChange={(e) => setDraft({ ...draft, place: at, words: e.currentTarget.value })}
          />
        </label>
        <button type="submit">Write it down</button>
      </form>
      <TaskLine of={task} />
    </Panel>
  );
}

/** Faults of the job, from noticed to proved, the open ones first. */
export function FaultsPage({ view, name, version, reload, place }: At & { readonly place: string }) {
  const [faults, setFaults] = useState<readonly TracedFault[]>();
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again whenever the store has changed
  useEffect(() => {
    const stop = new AbortController();
    api.faults(name, stop.signal).then(
      (r) => {
        setFaults(r.faults);
        setIssues([]);
      },
      (e) => !stop.signal.aborted && setIssues(issuesOf(e)),
    );
    return () => stop.abort();
  }, [name, version]);
  const sorted = [...(faults ?? [])].sort((a, b) => Number(isOpenFault(b)) - Number(isOpenFault(a)));
  const openCount = sorted.filter(isOpenFault).length;
  return (
    <main className="faults">
      <h1>
        {faults === undefined
          ? "Faults"
          : openCount === 0
            ? "No open fault"
            : openCount === 1
              ? "One open fault"
              : `${openCount} open faults`}
      </h1>
      {openCount > 0 && (
        <p className="noprint">
          <button type="button" className="asword" onClick={() => document.getElementById("notice")?.scrollIntoView()}>
            Write another down
          </button>
        </p>
      )}
      <Issues of={issues} />
      <p role="status" className="quiet">
        {faults === undefined && issues.length === 0 ? "Asking what explains them…" : ""}
      </p>
      <ul className="bare">
        {sorted.map((f) => (
          <FaultBox key={f.id} of={f} name={name} reload={reload} />
        ))}
      </ul>
      <Notice view={view} name={name} reload={reload} place={place} />
    </main>
  );
}
