import { useState } from "preact/compat";
import { type NextItem, proofIssues } from "../../../job/next";
import type { JobView } from "../../../job/view";
import type { Issue } from "../../../units/issue";
import { upperFirst } from "../../../units/sentence";
import { api } from "../api";
import { useKept } from "../kept";
import { here } from "../opened";
import { Cautions, Issues, Panel, State, Wants } from "../parts";
import { issuesOf } from "../task";
import { Leads } from "./leads";

/** The place to say that a step is proved, or what it still waits for. */
function Proof({
  view,
  item: i,
  name,
  reload,
}: {
  readonly view: JobView;
  readonly item: NextItem;
  readonly name: string;
  readonly reload: () => void;
}) {
  const [notes, setNotes] = useKept<Record<string, string>>(`proof:${name}`, {});
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const waits = proofIssues(view, i.step);
  const proved = async () => {
    try {
      await api.append(name, [{ kind: "done", step: i.step, note: notes[i.step] ?? "" }]);
      setIssues([]);
      setNotes(Object.fromEntries(Object.entries(notes).filter(([s]) => s !== i.step)));
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  return (
    <details className="proof">
      <summary>It is proved…</summary>
      <Issues of={waits.length > 0 ? waits : issues} />
      {waits.length === 0 && (
        <>
          <label className="field">
            What proves it
            <input
              value={notes[i.step] ?? ""}
              placeholder="what was measured, and how"
              onChange={(e) => setNotes({ ...notes, [i.step]: e.currentTarget.value })}
            />
          </label>
          <button type="button" onClick={() => void proved()} aria-label={`It is proved: ${i.task}`}>
            Record the proof
          </button>
        </>
      )}
    </details>
  );
}

/** What to do next, safety first, each with why, what it opens, its cautions, and a place to say that it is proved. */
export function Next({
  view,
  name,
  reload,
  items,
}: {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
  readonly items: readonly NextItem[];
}) {
  const [most, setMost] = useState(5);
  return (
    <Panel title="What to do next" id="next">
      <ol className="next">
        {items.slice(0, most).map((i) => (
          <li key={i.step}>
            <Cautions of={i.cautions} />
            <h3>
              {i.task} <Wants state={i.wants} />
            </h3>
            <p>
              <State state={i.state} /> {upperFirst(i.why)}
              {i.makes === "check" ? " (a quick check is enough)" : ""}.{i.amount ? ` By how much: ${i.amount}.` : ""}
            </p>
            <Leads item={i} name={name} />
            <p className="quiet">Done when: {i.doneWhen}.</p>
            {i.wanted.length > 0 && <p>Still to measure or write: {i.wanted.join("; ")}.</p>}
            {here && <Proof view={view} item={i} name={name} reload={reload} />}
          </li>
        ))}
      </ol>
      {items.length > most && (
        <button type="button" className="plain" onClick={() => setMost(items.length)}>
          {items.length - most} more
        </button>
      )}
    </Panel>
  );
}
