import { useEffect, useState } from "preact/compat";
import { costText, leftOutText, remainingText, waitedText } from "../../../job/rollups/worth/words";
import type { Weighed, Worth } from "../../../job/rollups/worth/worth";
import type { JobView } from "../../../job/view";
import type { Issue } from "../../../units/issue";
import { closed, upperFirst } from "../../../units/sentence";
import { api } from "../api";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { Cautions, Issues, Panel, Wants } from "../parts";
import { Leads } from "../set/leads";
import { issuesOf } from "../task";

interface Said {
  readonly minutes: string;
  readonly closed: boolean;
  readonly warm: boolean;
}
/** The list, asked for again whenever the job or what is said has changed. */
function useWorth(name: string, said: Said, version: number): { readonly worth: Worth | undefined; readonly issues: readonly Issue[] } {
  const [worth, setWorth] = useState<Worth>();
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const { minutes, closed: shut, warm } = said;
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked for again whenever the store has changed
  useEffect(() => {
    const stop = new AbortController();
    const timer = setTimeout(() => {
      api.worth(name, { minutes, closed: String(shut), warm: String(warm) }, stop.signal).then(
        (r) => {
          setWorth(r.worth);
          setIssues([]);
        },
        (e) => !stop.signal.aborted && setIssues(issuesOf(e)),
      );
    }, 200);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [name, minutes, shut, warm, version]);
  return { worth, issues };
}
/** Where a choice is done on the page, by the command that a terminal would be given. */
function placeToDo(name: string, { with: said }: Weighed): string {
  const at = /--at (\S+)/.exec(said)?.[1] ?? "";
  const [command, id = ""] = said.split(" ");
  if (command === "sheet") return jobLink(name, "sheet", id, ...(at === "" ? [] : [at]));
  if (command === "zero-beat") return jobLink(name, "dial");
  if (command === "mend") return jobLink(name, "mend", at, /--fault (\S+)/.exec(said)?.[1] ?? "");
  const tests = /"(stages\.[^."]+)\.tests=/.exec(said)?.[1];
  if (tests) return jobLink(name, "faults", tests);
  return command === "set" ? jobLink(name, "set") : jobLink(name);
}
const ChoiceLine = ({ of: c, name }: { readonly of: Weighed; readonly name: string }) => (
  <li>
    <h3>
      {upperFirst(c.does)}
      {c.place ? `, ${c.place}` : ""} <Wants state={c.wants} />
    </h3>
    <Cautions of={c.cautions} />
    <p>
      Worth: {closed(c.why)} Takes {closed(costText(c.cost))}
    </p>
    {c.how && <p className="quiet">How: {closed(c.how)}</p>}
    <p className="leads">
      <a href={placeToDo(name, c)}>Go to it</a>
    </p>
  </li>
);

const mostTold = 5;
function Told({ of: w, name }: { readonly of: Worth; readonly name: string }) {
  const [all, setAll] = useState(false);
  const told = all ? w.choices : w.choices.slice(0, mostTold);
  return (
    <>
      {w.stop.map((s) => (
        <p key={s} className="danger-line" role="alert">
          {s}
        </p>
      ))}
      {w.first.length > 0 && (
        <Panel title="Safety first, whatever else there is to do" id="first">
          <ol className="next">
            {w.first.map((i) => (
              <li key={i.step}>
                <h3>
                  {i.task} <Wants state={i.wants} />
                </h3>
                <Cautions of={i.cautions} />
                <Leads item={i} name={name} />
              </li>
            ))}
          </ol>
        </Panel>
      )}
      <Panel title={w.first.length > 0 ? "Then, what is most worth the time" : "What is most worth the time"} id="choices">
        {told.length === 0 && <p>Nothing else fits now.</p>}
        <ol className="next">
          {told.map((c) => (
            <ChoiceLine key={c.id} of={c} name={name} />
          ))}
        </ol>
        {w.choices.length > mostTold && (
          <button type="button" className="plain" onClick={() => setAll(!all)}>
            {all ? "The first ones" : `${w.choices.length - mostTold} more`}
          </button>
        )}
        {w.waiting.map((x) => (
          <p key={x.for}>Waiting for {closed(waitedText(x))}</p>
        ))}
        <p className="quiet">
          {leftOutText(w)} {remainingText(w)}
        </p>
      </Panel>
    </>
  );
}

/** What is worth doing in the time that there is: safety first, then each free choice with what it costs and what it settles. */
export function WorthPage({ view, name, version }: { readonly view: JobView; readonly name: string; readonly version: number }) {
  const [said, setSaid] = useKept<Said>(`worth:${name}`, { minutes: "", closed: false, warm: false });
  const { worth, issues } = useWorth(name, said, version);
  const pick = (key: "closed" | "warm", says: string) => (
    <label className="pick">
      <input type="checkbox" checked={said[key]} onChange={(e) => setSaid({ ...said, [key]: e.currentTarget.checked })} />
      {says}
    </label>
  );
  return (
    <main className="worthpage">
      <h1>
        What is worth doing now? <small>{view.set.title}</small>
      </h1>
      <div className="row">
        <label className="field">
          How long have you got?
          <input value={said.minutes} placeholder="30 min, 2 h" onChange={(e) => setSaid({ ...said, minutes: e.currentTarget.value })} />
        </label>
        {pick("closed", "The case is closed and stays closed")}
        {pick("warm", "The set is on and warm")}
      </div>
      <Issues of={issues} />
      {worth ? <Told of={worth} name={name} /> : <p role="status">Weighing it…</p>}
    </main>
  );
}
