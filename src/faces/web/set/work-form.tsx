import { useState } from "preact/compat";
import type { Due } from "../../../job/document";
import { afterThis } from "../../../job/due-tasks";
import { workKinds } from "../../../job/ripple";
import type { JobView } from "../../../job/view";
import { api, heldSays, isGone, type Planned } from "../api";
import { useKept } from "../kept";
import { FindingBox, Panel, Select } from "../parts";
import { TaskLine, useTask } from "../task";
import { plannedHere, saidNow } from "./planned-here";

export interface WorkDraft {
  readonly work: string;
  readonly subject: string;
  readonly note: string;
}

/** What an act would make due again, in words, before it is recorded or put off; what it changed of the record is asked for in the same act. */
export function Preview({
  plan,
  now,
  setNow,
  record,
  later,
}: {
  readonly plan: Planned;
  readonly now: Readonly<Record<string, string>>;
  readonly setNow: (v: Record<string, string>) => void;
  readonly record: () => void;
  readonly later: () => void;
}) {
  return (
    <div className="preview">
      {plan.danger && <FindingBox of={plan.danger} />}
      {plan.isHere && (
        <p>Fettle isn't answering: by how much, it says once it does. What you record now is held in this browser till then.</p>
      )}
      <p>{afterThis}</p>
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
            onChange={(e) => setNow({ ...now, [a.path]: e.currentTarget.value })}
          />
        </label>
      ))}
      <p className="buttons">
        <button type="button" onClick={record}>
          Record it
        </button>
        <button type="button" className="plain" onClick={later}>
          Not yet
        </button>
      </p>
    </div>
  );
}

interface WorkFormProps {
  readonly view: JobView;
  readonly name: string;
  /** what the page that led here has filled in already */
  readonly begin: Partial<WorkDraft>;
  /** told what is looked at, so that the route can show it */
  readonly shown: (due: readonly Due[]) => void;
  readonly done: () => void;
}
/** A piece of work as it is said, planned, and recorded. */
function useWork({ view, name, begin, shown, done }: WorkFormProps) {
  const fitting = view.set.fittings.find((f) => f.state !== "offered") ?? view.set.fittings[0];
  const subject = fitting ? `fittings.${fitting.id}` : "";
  const [kept, setDraft] = useKept<WorkDraft>(`work:${name}`, { work: "cable-fitted", subject, note: "" });
  const [touched, setTouched] = useState(false);
  const draft = touched ? kept : { ...kept, ...begin };
  const [now, setNow] = useKept<Record<string, string>>(`work-now:${name}`, {});
  const [plan, setPlan] = useState<Planned>();
  const task = useTask();
  const show = (p: Planned | undefined) => {
    setPlan(p);
    shown(p?.due ?? []);
  };
  const ask = (record: boolean) =>
    task.run(record ? "Recording it" : "Working out what it disturbs", async (signal) => {
      const r = await api.work(name, { ...draft, record, now: record ? saidNow(plan, now) : {} }, signal).catch((e) => {
        if (record || !isGone(e)) throw e;
        return plannedHere(view, draft.work, draft.subject);
      });
      if (!record) {
        if (!("held" in r)) show(r);
        return undefined;
      }
      setPlan(undefined);
      setDraft({ ...draft, note: "" });
      setNow({});
      done();
      return heldSays(r) ?? "Recorded.";
    });
  const change = (k: keyof WorkDraft) => (value: string) => {
    setTouched(true);
    setDraft({ ...draft, [k]: value });
    show(undefined);
  };
  return { draft, change, now, setNow, plan, show, ask, task };
}

/** Record work done: first what it makes due again and by how much, then the record. */
export function WorkForm(props: WorkFormProps) {
  const { view } = props;
  const { draft, change, now, setNow, plan, show, ask, task } = useWork(props);
  const subjects = [
    ...view.set.fittings.map((f) => [`fittings.${f.id}`, f.label] as const),
    ...view.set.stages.map((s) => [`stages.${s.id}`, s.label] as const),
  ];
  return (
    <Panel title="What was done" id="work">
      <div className="row">
        <Select
          label="Kind of work"
          value={draft.work}
          onChange={change("work")}
          options={workKinds.map((w) => [w.id, w.title] as const)}
        />
        <Select label="Where" value={draft.subject} onChange={change("subject")} options={subjects} />
        <label className="field wide">
          In your words
          <input value={draft.note} onChange={(e) => change("note")(e.currentTarget.value)} />
        </label>
      </div>
      <button type="button" className={plan ? "plain" : ""} onClick={() => void ask(false)}>
        See what it disturbs
      </button>
      <TaskLine of={task} />
      {plan && <Preview plan={plan} now={now} setNow={setNow} record={() => void ask(true)} later={() => show(undefined)} />}
    </Panel>
  );
}
