import { useState } from "preact/compat";
import { afterThis } from "../../../job/due-tasks";
import { describedLists } from "../../../job/format";
import type { JobView } from "../../../job/view";
import { type MemberList, memberAt, memberFields, memberNames } from "../../../set/members";
import { upperFirst } from "../../../units/sentence";
import { type Amended, api, heldSays } from "../api";
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
      <p>{plan.due.length > 0 ? afterThis : "Nothing that was begun or proved rests on it."}</p>
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

/** A correction as it is said, planned and recorded. */
function useCorrection(view: JobView, name: string, reload: () => void) {
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
        if (!("held" in of)) setPlan({ out, of });
        return undefined;
      }
      begin(() => setAdded(""));
      reload();
      return heldSays(of) ?? "Recorded. What was there before stays in the history.";
    });
  const say = (field: string, text: string) => {
    setFields({ ...fields, [field]: text });
    setPlan(undefined);
  };
  return {
    ...{ list, member, added, fields, why, plan, task, was, ask, say, setAdded, setWhy },
    chooseList: (l: string) => begin(() => [setList(describedLists.find((d) => d === l) ?? "tubes"), setMember(asNew)]),
    chooseMember: (m: string) => begin(() => setMember(m)),
    later: () => setPlan(undefined),
    wants: who === "" ? "Say what it is known by." : "",
  };
}
type Correction = ReturnType<typeof useCorrection>;

const text = (label: string, value: string, placeholder: string, set: (text: string) => void) => (
  <label key={label} className={label.startsWith("Why") ? "field wide" : "field"}>
    {label}
    <input value={value} placeholder={placeholder} onChange={(e) => set(e.currentTarget.value)} />
  </label>
);
/** Which member, and what is said of it. */
function Said({ view, of: c }: { readonly view: JobView; readonly of: Correction }) {
  const newName = { tubes: "V10", cans: `can${view.set.strip.cans.length + 1}` }[c.list as string] ?? "";
  return (
    <div className="row">
      <Select label="What" value={c.list} onChange={c.chooseList} options={describedLists.map((l) => [l, listSaid[l]] as const)} />
      <Select
        label="Which"
        value={c.member}
        onChange={c.chooseMember}
        options={[[asNew, "a new one"], ...memberNames(view.set, c.list).map((m) => [m, m] as const)]}
      />
      {c.member === asNew && text("Known by", c.added, newName, c.setAdded)}
      {memberFields[c.list].map((f) =>
        text(upperFirst(f), c.fields[f] ?? "", typeof c.was?.[f] === "string" ? String(c.was[f]) : (hints[f] ?? ""), (t) => c.say(f, t)),
      )}
      {text("Why, in your words", c.why, "", c.setWhy)}
    </div>
  );
}

/** Corrects one member of the description: changed, added, or taken out; what that disturbs is seen first. */
export function CorrectMember({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const c = useCorrection(view, name, reload);
  return (
    <Panel title="Correct what the set is made of" id="correct">
      <Said view={view} of={c} />
      <p className="buttons">
        <button type="button" disabled={c.wants !== ""} aria-describedby="correct-wants" onClick={() => void c.ask(false, false)}>
          See what it disturbs
        </button>
        {c.member !== asNew && (
          <button type="button" className="plain" onClick={() => void c.ask(true, false)}>
            Take it out
          </button>
        )}
        <span id="correct-wants" className="quiet">
          {c.wants}
        </span>
      </p>
      <TaskLine of={c.task} />
      {c.plan && <Follows plan={c.plan.of} record={() => void c.ask(c.plan?.out ?? false, true)} later={c.later} />}
    </Panel>
  );
}
