import { useState } from "preact/compat";
import { describedLists } from "../../../job/format";
import type { JobView } from "../../../job/view";
import { type MemberList, memberAt, memberFields, memberNames } from "../../../set/members";
import { type Amended, api } from "../api";
import { Panel, Select } from "../parts";
import { TaskLine, useTask } from "../task";

const listSaid: Readonly<Record<MemberList, string>> = {
  stages: "a stage",
  tubes: "a tube",
  bands: "a band",
  cans: "an IF can",
  nodes: "a point of B+",
  taps: "a tap point",
  fittings: "an accessory",
};
const asNew = "";
const hints: Readonly<Record<string, string>> = { range: "7 - 7.3 MHz spread", type: "6BA6", function: "first audio", volts: "250 V" };

/** What follows from a correction, before it is recorded. */
function Follows({ plan, record, later }: { readonly plan: Amended; readonly record: () => void; readonly later: () => void }) {
  return (
    <div className="preview">
      <p>{plan.due.length > 0 ? "This makes due again:" : "Nothing that was begun or proved rests on it."}</p>
      <ul>
        {plan.due.map((d) => (
          <li key={d.target + d.task}>
            <strong>{d.task}</strong>: {d.why}
          </li>
        ))}
        {plan.hangs.map((h) => (
          <li key={h}>{h}</li>
        ))}
      </ul>
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

/** Corrects one member of the description: changed, added, or taken out; what that disturbs is seen first. */
export function CorrectMember({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const [list, setList] = useState<MemberList>("tubes");
  const [member, setMember] = useState(asNew);
  const [added, setAdded] = useState("");
  const [fields, setFields] = useState<Readonly<Record<string, string>>>({});
  const [why, setWhy] = useState("");
  const [plan, setPlan] = useState<{ readonly out: boolean; readonly of: Amended }>();
  const task = useTask();
  const who = member === asNew ? added.trim() : member;
  const was = member === asNew ? undefined : memberAt(view.set, list, member);
  const begin = (of: () => void) => {
    of();
    setFields({});
    setPlan(undefined);
  };
  const ask = (out: boolean, record: boolean) =>
    task.run(record ? "Recording it" : "Working out what it disturbs", async (signal) => {
      const said = Object.fromEntries(Object.entries(fields).filter(([, v]) => v.trim() !== ""));
      const of = await api.amend(name, { list, member: who, fields: out ? {} : said, out, why, record }, signal);
      if (!record) {
        setPlan({ out, of });
        return undefined;
      }
      begin(() => setAdded(""));
      reload();
      return "Recorded. What was there before stays in the history.";
    });
  const wants = who === "" ? "Say what it is known by." : "";
  return (
    <Panel title="Correct what the set is made of" id="correct">
      <div className="row">
        <Select
          label="What"
          value={list}
          onChange={(l) => begin(() => [setList(describedLists.find((d) => d === l) ?? "tubes"), setMember(asNew)])}
          options={describedLists.map((l) => [l, listSaid[l]] as const)}
        />
        <Select
          label="Which"
          value={member}
          onChange={(m) => begin(() => setMember(m))}
          options={[[asNew, "a new one"], ...memberNames(view.set, list).map((m) => [m, m] as const)]}
        />
        {member === asNew && (
          <label className="field">
            Known by
            <input
              value={added}
              placeholder={list === "tubes" ? "V10" : list === "cans" ? `can${view.set.strip.cans.length + 1}` : ""}
              onChange={(e) => setAdded(e.currentTarget.value)}
            />
          </label>
        )}
        {memberFields[list].map((f) => (
          <label key={f} className="field">
            {f[0].toUpperCase() + f.slice(1)}
            <input
              value={fields[f] ?? ""}
              placeholder={typeof was?.[f] === "string" ? String(was[f]) : (hints[f] ?? "")}
              onChange={(e) => {
                setFields({ ...fields, [f]: e.currentTarget.value });
                setPlan(undefined);
              }}
            />
          </label>
        ))}
        <label className="field wide">
          Why, in your words
          <input value={why} onChange={(e) => setWhy(e.currentTarget.value)} />
        </label>
      </div>
      <p className="buttons">
        <button type="button" disabled={wants !== ""} aria-describedby="correct-wants" onClick={() => void ask(false, false)}>
          See what it disturbs
        </button>
        {member !== asNew && (
          <button type="button" className="plain" onClick={() => void ask(true, false)}>
            Take it out
          </button>
        )}
        <span id="correct-wants" className="quiet">
          {wants}
        </span>
      </p>
      <TaskLine of={task} />
      {plan && <Follows plan={plan.of} record={() => void ask(plan.out, true)} later={() => setPlan(undefined)} />}
    </Panel>
  );
}
