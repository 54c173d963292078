import { useState } from "preact/compat";
import { api, type Understood } from "../api";
import { useKept } from "../kept";
import { Issues, Panel } from "../parts";
import { TaskLine, useTask } from "../task";

/** What was understood, before anything is recorded. */
const Heard = ({ of: u }: { readonly of: Understood }) => (
  <>
    <Issues of={u.unread} />
    {u.leftOut.length > 0 && <p>{`Left out, and kept as typed: ${u.leftOut.map((l) => `“${l}”`).join(", ")}.`}</p>}
    {u.tubes.length > 0 && (
      <ul className="bare">
        {u.tubes.map((t) => (
          <li key={t.socket}>
            <strong>{t.socket}</strong> {t.type}: {t.does}
          </li>
        ))}
      </ul>
    )}
    {u.rows.length > 0 && <p>{u.rows.length === 1 ? "One row" : `${u.rows.length} rows`} of the voltage chart.</p>}
    {u.guessed.length > 0 && (
      <>
        <p>Guessed; correct it later where it is wrong:</p>
        <ul>
          {[...new Set(u.guessed.map((g) => g.from))].map((from) => (
            <li key={from}>
              {u.guessed
                .filter((g) => g.from === from)
                .map((g) => g.is)
                .join("; ")}{" "}
              ({from})
            </li>
          ))}
        </ul>
      </>
    )}
  </>
);

interface InWordsProps {
  readonly title: string;
  readonly says: string;
  readonly example: string;
  /** the job; empty where one is to be named */
  readonly name: string;
  readonly button: string;
  readonly done: (name: string) => void;
}
/** The words as they are typed, understood and recorded. */
function useWords({ name, done }: InWordsProps) {
  const [text, setText] = useKept(`in-words:${name}`, "");
  const [named, setNamed] = useState("");
  const [heard, setHeard] = useState<Understood>();
  const task = useTask();
  const job = name || named.trim();
  const ask = (record: boolean, leaveOut = false) =>
    task.run(record ? "Recording it" : "Reading it", async (signal) => {
      const u = await api.describe(job, { text, leaveOut, record }, signal);
      setHeard(record ? undefined : u);
      if (!record) return undefined;
      setText("");
      done(job);
      return "Recorded.";
    });
  const type = (t: string) => {
    setText(t);
    setHeard(undefined);
  };
  const wants = job === "" ? "Name the job." : text.trim() === "" ? "Type something." : "";
  return { text, type, named, setNamed, heard, task, ask, wants };
}

/** A set or its chart in a few typed words: what is understood is shown first, then recorded. */
export function InWords(p: InWordsProps) {
  const w = useWords(p);
  return (
    <Panel title={p.title} id="in-words">
      <p>{p.says}</p>
      {p.name === "" && (
        <label className="field">
          Name of this job
          <input value={w.named} maxLength={80} placeholder="Whose set, which set" onChange={(e) => w.setNamed(e.currentTarget.value)} />
        </label>
      )}
      <label className="field">
        In your words
        <textarea rows={4} value={w.text} placeholder={p.example} onChange={(e) => w.type(e.currentTarget.value)} />
      </label>
      <p className="buttons">
        <button
          type="button"
          className={w.heard ? "plain" : ""}
          disabled={w.wants !== ""}
          aria-describedby="words-wants"
          onClick={() => void w.ask(false)}
        >
          See what is understood
        </button>
        <span id="words-wants" className="quiet">
          {w.wants}
        </span>
      </p>
      <TaskLine of={w.task} />
      {w.heard && (
        <div className="preview">
          <Heard of={w.heard} />
          {w.heard.unread.length === 0 ? (
            <button type="button" onClick={() => void w.ask(true, (w.heard?.leftOut.length ?? 0) > 0)}>
              {p.button}
            </button>
          ) : (
            <button type="button" className="plain" onClick={() => void w.ask(false, true)}>
              Leave those lines out
            </button>
          )}
        </div>
      )}
    </Panel>
  );
}
