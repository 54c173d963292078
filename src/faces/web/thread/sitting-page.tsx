import { useMemo, useState } from "preact/compat";
import { caseStates, powerStates, thermalStates } from "../../../job/format";
import { ofKind } from "../../../job/place-in";
import { overdueWaits, untilSaid, waitingFor } from "../../../job/sitting";
import type { JobView } from "../../../job/view";
import { api, heldSays } from "../api";
import { useKept } from "../kept";
import { Panel, Select } from "../parts";
import { TaskLine, useTask } from "../task";
import { Where } from "./where";

interface At {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
}
type Fields<K extends string> = Readonly<Record<K, string>>;
/** A few fields, kept while they are typed, sent by one button. */
function useSaid<K extends string>(key: string, begin: Fields<K>, word: string, send: (said: Fields<K>) => Promise<string>) {
  const [draft, setDraft] = useKept<Fields<K>>(key, begin);
  const task = useTask();
  const text = (k: K, label: string, placeholder: string) => (
    <label className="field">
      {label}
      <input value={draft[k]} placeholder={placeholder} onChange={(e) => setDraft({ ...draft, [k]: e.currentTarget.value })} />
    </label>
  );
  const pick = (k: K, label: string, options: readonly (readonly [string, string])[]) => (
    <Select label={label} value={draft[k]} onChange={(v) => setDraft({ ...draft, [k]: v })} options={options} />
  );
  return { draft, setDraft, task, text, pick, go: () => task.run(word, () => send(draft)) };
}

/** Who measures, with what, at which line: carried on to every reading of the session. */
function SitDown({ view, name, reload }: At) {
  const last = ofKind(view.inForce, "sitting").at(-1);
  const { initials = "", meter = "", gridMeter = "" } = last ?? {};
  // who and with what stays from the last session; warm or cold, method and the line are of the day
  const begin = { initials, meter, gridMeter, method: "", thermal: "cold", line: "" };
  const { task, text, pick, go, setDraft } = useSaid(`sitting:${name}`, begin, "Recording it", async (said) => {
    const r = await api.sitting(name, said);
    setDraft({ ...said, method: "", line: "" });
    reload();
    return heldSays(r) ?? "You are at the bench. This session's readings will say so.";
  });
  return (
    <Panel title="Sit down" id="sit">
      <div className="row">
        {text("initials", "Who measures", "initials")}
        {text("meter", "Meter, with its ranges", "20 kohm/V, ranges 2.5 10 50 250 500")}
        {text("gridMeter", "Meter for grids, if another", "11 Mohm")}
        {text("method", "Method, if always the same", "chassis to electrode, no signal")}
        {text("line", "Line at the outlet", "121 V")}
        {pick(
          "thermal",
          "The set is",
          thermalStates.map((t) => [t, t]),
        )}
      </div>
      <button type="button" onClick={() => void go()}>
        Sit down
      </button>
      <TaskLine of={task} />
    </Panel>
  );
}

const powerSaid = { unplugged: "unplugged", off: "switched off, plugged in", on: "ON" } as const;
/** How the set is left, so that whoever sits down next knows. */
function GetUp({ name, reload }: At) {
  const begin = { power: "unplugged", case: "open", clipped: "", doing: "" };
  const { task, text, pick, go } = useSaid(`leave:${name}`, begin, "Recording it", async (said) => {
    const r = await api.leave(name, said);
    reload();
    return heldSays(r) ?? "How you left the set is on record.";
  });
  return (
    <Panel title="Get up" id="getup">
      <div className="row">
        {pick(
          "power",
          "The set is left",
          powerStates.map((p) => [p, powerSaid[p]]),
        )}
        {pick(
          "case",
          "Case",
          caseStates.map((c) => [c, c]),
        )}
        {text("clipped", "Clipped on, lifted or taken out", "one end of C14 lifted")}
        {text("doing", "What was being done", "tracing the leak at V7")}
      </div>
      <button type="button" onClick={() => void go()}>
        Get up
      </button>
      <TaskLine of={task} />
    </Panel>
  );
}

/** What is waited for: a part in the post, a warm-up, a soak. */
function Waits({ view, name, reload }: At) {
  const waits = useMemo(() => {
    const now = new Date().toISOString();
    return [...overdueWaits(view, now), ...waitingFor(view, now)];
  }, [view]);
  const [over, setOver] = useState("");
  const { draft, setDraft, task, text, go } = useSaid(`wait:${name}`, { for: "", until: "" }, "Recording it", async (said) => {
    const r = await api.wait(name, said);
    setDraft({ for: "", until: "" });
    reload();
    return heldSays(r) ?? "Waiting for it.";
  });
  const end = useTask();
  const come = (what: string) =>
    end.run("Recording it", async () => {
      setOver(what);
      const r = await api.wait(name, { for: what, over: true });
      reload();
      return heldSays(r) ?? `${what}: no longer waited for.`;
    });
  return (
    <Panel title="Waiting" id="waiting">
      <ul className="bare">
        {waits.map((w) => (
          <li key={w.for}>
            <strong>{w.for}</strong>
            {untilSaid(w, new Date().toISOString())}{" "}
            <button
              type="button"
              className="plain small"
              disabled={over === w.for && end.word !== ""}
              onClick={() => void come(w.for)}
              aria-label={`It has come: ${w.for}`}
            >
              It has come
            </button>
          </li>
        ))}
      </ul>
      <TaskLine of={end} />
      <div className="row">
        {text("for", "What is waited for", "20 µF, 450 V from the post")}
        {text("until", "Until: a day, or a time from now", "4 h")}
      </div>
      <button type="button" disabled={draft.for.trim() === ""} aria-describedby="wait-wants" onClick={() => void go()}>
        Wait for it
      </button>{" "}
      <span id="wait-wants" className="quiet">
        {draft.for.trim() === "" ? "Say what for." : ""}
      </span>
      <TaskLine of={task} />
    </Panel>
  );
}

/** Sitting down, getting up, waiting: what lets a job be put down and picked up again. */
export const SittingPage = (at: At) => (
  <main className="sitting">
    <h1>Sit down, get up</h1>
    <Where view={at.view} name={at.name} />
    <SitDown {...at} />
    <GetUp {...at} />
    <Waits {...at} />
  </main>
);
