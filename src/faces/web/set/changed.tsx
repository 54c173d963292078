import { useState } from "preact/compat";
import { sayWhen } from "../../../job/held-back";
import { sayEntry } from "../../../job/say-entry";
import { fallWith, type JobView } from "../../../job/view";
import type { Issue } from "../../../units/issue";
import { api } from "../api";
import { CantWait } from "../cant-wait";
import { here } from "../opened";
import { Issues, Panel } from "../parts";
import { issuesOf } from "../task";

type Entry = JobView["document"]["entries"][number];

/** Takes one entry back where it is shown, with what falls with it. */
export function TakeBack({
  view,
  name,
  entry,
  reload,
}: {
  readonly view: JobView;
  readonly name: string;
  readonly entry: Entry;
  readonly reload: () => void;
}) {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const falls = fallWith(view, entry);
  const take = async () => {
    try {
      await api.append(
        name,
        falls.map((e) => ({ kind: "correction", supersedes: e.id, why: "taken back on the page" })),
      );
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  return (
    <>
      <button
        type="button"
        className="plain small noprint"
        onClick={() => void take()}
        aria-label={`Take back: ${sayEntry(view.set, entry, view.document.entries)}`}
      >
        {falls.length > 1 ? `Take back (${falls.length} together)` : "Take back"}
      </button>
      <Issues of={issues} />
    </>
  );
}

/** What was recorded last, each with the way to take it back. */
export function Changed({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [all, setAll] = useState(false);
  const undo = async () => {
    try {
      await api.undo(name);
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  const last = [...view.document.entries].reverse().slice(0, all ? undefined : 8);
  return (
    <Panel title="What changed" id="changed">
      <ol className="changed">
        {last.map((e) => (
          <li key={e.id} className={view.superseded.has(e.id) ? "superseded" : ""}>
            <span className="quiet">{sayWhen(e)}</span> {sayEntry(view.set, e, view.document.entries)}
            {view.superseded.has(e.id) ? " (taken back)" : here && <TakeBack view={view} name={name} entry={e} reload={reload} />}
          </li>
        ))}
      </ol>
      {last.length === 0 && <p>Nothing recorded yet.</p>}
      <Issues of={issues} />
      {here && last.length > 0 && <CantWait act="undo" />}
      <p className="buttons">
        {here && last.length > 0 && (
          <button type="button" className="plain" onClick={() => void undo()}>
            Take back the last entry
          </button>
        )}
        {view.document.entries.length > 8 && (
          <button type="button" className="plain" onClick={() => setAll(!all)}>
            {all ? "Show the last ones" : `All ${view.document.entries.length} entries`}
          </button>
        )}
      </p>
    </Panel>
  );
}
