import { useState } from "react";
import type { HeededFinding } from "../../ask/findings";
import type { Due } from "../../job/document";
import { nextSteps, proofIssues } from "../../job/next";
import { workKinds } from "../../job/ripple";
import { sayEntry } from "../../job/say-entry";
import { fallWith, type JobView } from "../../job/view";
import type { Issue } from "../../units/issue";
import { api } from "./api";
import { useKept } from "./kept";
import { Cautions, FindingBox, Issues, Panel, Select, State, Wants } from "./parts";
import { issuesOf, TaskLine, useTask } from "./task";

interface WorkPreview {
  readonly due: readonly Due[];
  readonly danger?: HeededFinding;
  readonly asks: readonly { readonly path: string; readonly asks: string; readonly stands: string }[];
}

/** Record work done: first what it makes due again and by how much, then the record. */
export function Work({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [draft, setDraft] = useKept(`work:${name}`, {
    work: "cable-fitted",
    subject: view.set.fittings[0] ? `fittings.${view.set.fittings[0].id}` : "",
    note: "",
  });
  const [now, setNow] = useKept<Record<string, string>>(`work-now:${name}`, {});
  const [plan, setPlan] = useState<WorkPreview>();
  const task = useTask();
  const ask = (record: boolean) =>
    task.run(record ? "Recording it" : "Working out what it disturbs", async (signal) => {
      const own = Object.fromEntries((plan?.asks ?? []).map((a) => [a.path, now[a.path] ?? ""]));
      const r = await api.work(name, { ...draft, record, now: record ? own : {} }, signal);
      setPlan(record ? undefined : r);
      if (!record) return undefined;
      setDraft({ ...draft, note: "" });
      setNow({});
      reload();
      return "Recorded.";
    });
  const subjects = [
    ...view.set.fittings.map((f) => [`fittings.${f.id}`, f.label] as const),
    ...view.set.stages.map((s) => [`stages.${s.id}`, s.label] as const),
  ];
  const change = (k: keyof typeof draft) => (value: string) => {
    setDraft({ ...draft, [k]: value });
    setPlan(undefined);
  };
  return (
    <Panel title="Record work done" id="work">
      <div className="row">
        <Select
          label="What was done"
          value={draft.work}
          onChange={change("work")}
          options={workKinds.map((w) => [w.id, w.title] as const)}
        />
        <Select label="Where" value={draft.subject} onChange={change("subject")} options={subjects} />
        <label className="field wide">
          In your words
          <input value={draft.note} onChange={(e) => change("note")(e.target.value)} />
        </label>
      </div>
      <button type="button" onClick={() => void ask(false)}>
        See what it disturbs
      </button>
      <TaskLine of={task} />
      {plan && (
        <div className="preview">
          {plan.danger && <FindingBox of={plan.danger} />}
          <p>This makes due again:</p>
          <ul>
            {plan.due.map((d) => (
              <li key={d.target + d.task}>
                <strong>{d.task}</strong>: {d.why}
                {d.amount ? `. By how much: ${d.amount}` : ""}
              </li>
            ))}
          </ul>
          {plan.asks.map((a) => (
            <label key={a.path} className="field">
              {a.asks} (on record: {a.stands})
              <input
                value={now[a.path] ?? ""}
                placeholder="same, if it stayed"
                onChange={(e) => setNow({ ...now, [a.path]: e.target.value })}
              />
            </label>
          ))}
          <p className="buttons">
            <button type="button" onClick={() => void ask(true)}>
              Record it
            </button>
            <button type="button" className="plain" onClick={() => setPlan(undefined)}>
              Not yet
            </button>
          </p>
        </div>
      )}
    </Panel>
  );
}

/** What to do next, safety first, each with why and its cautions, and a place to say that it is proved. */
export function Next({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [most, setMost] = useState(5);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const items = nextSteps(view);
  const [notes, setNotes] = useKept<Record<string, string>>(`proof:${name}`, {});
  const proved = async (step: string) => {
    try {
      await api.append(name, [{ kind: "done", step, note: notes[step] ?? "" }]);
      setIssues([]);
      setNotes(Object.fromEntries(Object.entries(notes).filter(([s]) => s !== step)));
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  return (
    <Panel title="What to do next" id="next">
      <Issues of={issues} />
      <ol className="next">
        {items.slice(0, most).map((i) => (
          <li key={i.step}>
            <Cautions of={i.cautions} />
            <h3>
              {i.task} <Wants state={i.wants} />
            </h3>
            <State state={i.state} />
            <p>
              {i.why.charAt(0).toUpperCase() + i.why.slice(1)}
              {i.makes === "check" ? " (a quick check is enough)" : ""}.{i.amount ? ` By how much: ${i.amount}.` : ""}
            </p>
            <p className="quiet">Done when: {i.doneWhen}.</p>
            {i.wanted.length > 0 && <p>Still to measure or write: {i.wanted.join("; ")}.</p>}
            <details className="proof">
              <summary>It is proved…</summary>
              <Issues of={proofIssues(view, i.step)} />
              {proofIssues(view, i.step).length === 0 && (
                <>
                  <label className="field">
                    What proves it
                    <input
                      value={notes[i.step] ?? ""}
                      placeholder="what was measured, and how"
                      onChange={(e) => setNotes({ ...notes, [i.step]: e.target.value })}
                    />
                  </label>
                  <button type="button" onClick={() => void proved(i.step)} aria-label={`It is proved: ${i.task}`}>
                    Record the proof
                  </button>
                </>
              )}
            </details>
          </li>
        ))}
      </ol>
      {items.length > most && (
        <button type="button" className="plain" onClick={() => setMost(most + 10)}>
          {items.length - most} more
        </button>
      )}
    </Panel>
  );
}

/** What was recorded last, and the way to take the last entry back. */
export function Changed({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const undo = async () => {
    try {
      await api.undo(name);
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  const take = async (entry: JobView["document"]["entries"][number]) => {
    try {
      await api.append(
        name,
        fallWith(view, entry).map((e) => ({ kind: "correction", supersedes: e.id, why: "taken back on the page" })),
      );
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  const [all, setAll] = useState(false);
  const last = [...view.document.entries].reverse().slice(0, all ? undefined : 8);
  return (
    <Panel title="What changed" id="changed">
      <ol className="changed">
        {last.map((e) => (
          <li key={e.id} className={view.superseded.has(e.id) ? "superseded" : ""}>
            <span className="quiet">{e.at.slice(0, 16).replace("T", " ")}</span> {sayEntry(view.set, e)}
            {view.superseded.has(e.id) ? " (taken back)" : ""}
            {all && !view.superseded.has(e.id) && (
              <button type="button" className="plain small" onClick={() => void take(e)}>
                Take back
              </button>
            )}
          </li>
        ))}
      </ol>
      {last.length === 0 && <p>Nothing recorded yet.</p>}
      <Issues of={issues} />
      {last.length > 0 && (
        <button type="button" className="plain" onClick={() => void undo()}>
          Take back the last entry
        </button>
      )}
      {view.document.entries.length > 8 && (
        <button type="button" className="plain" onClick={() => setAll(!all)}>
          {all ? "Show the last ones" : `All ${view.document.entries.length} entries`}
        </button>
      )}
    </Panel>
  );
}
