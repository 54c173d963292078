import { useState } from "preact/compat";
import { writtenOn } from "../../job/cards";
import { forms } from "../../job/forms";
import type { JobView } from "../../job/view";
import type { Issue } from "../../units/issue";
import { api } from "./api";
import { Card } from "./card/card";
import { useKept } from "./kept";
import { goTo, jobLink } from "./links";
import { here } from "./opened";
import { Issues, Panel, Select } from "./parts";
import { issuesOf } from "./task";

/** The record cards of the job, one at a time. Printed blank they take pencil; typed in, the order is the same. */
export function Records({
  view,
  name,
  reload,
  card,
}: {
  readonly view: JobView;
  readonly name: string;
  readonly reload: () => void;
  /** the card to open; empty for the one that was open last */
  readonly card: string;
}) {
  const [last, setLast] = useKept(`card-open:${name}`, "intake");
  const form = forms.find((f) => f.id === (card || last)) ?? forms[0];
  const choose = (id: string) => {
    setLast(id);
    goTo(jobLink(name, "records", id));
  };
  const saysOf = (f: (typeof forms)[number]): string => `${f.title}${Object.keys(writtenOn(view, f.id)).length > 0 ? " (written)" : ""}`;
  return (
    <main className="records">
      <h1 className="noprint">Record cards</h1>
      <nav className="cardlist noprint" aria-label="Record cards">
        {forms.map((f) => (
          <button type="button" key={f.id} className="plain" aria-pressed={f.id === form.id} onClick={() => choose(f.id)}>
            {saysOf(f)}
          </button>
        ))}
      </nav>
      <div className="cardpick noprint">
        <Select label="Card" value={form.id} onChange={choose} options={forms.map((f) => [f.id, saysOf(f)] as const)} />
      </div>
      <Card key={form.id} view={view} form={form} name={name} reload={reload} />
      {here && <Instruments view={view} name={name} reload={reload} />}
    </main>
  );
}

/** The register of instruments: a reading names one. */
function Instruments({ view, name, reload }: { readonly view: JobView; readonly name: string; readonly reload: () => void }) {
  const empty = { id: "", kind: "", label: "", uncertainty: "", lastCheck: "", offset: "", ranges: "" };
  const [draft, setDraft] = useKept(`instrument:${name}`, empty);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const add = async () => {
    try {
      await api.append(name, [{ kind: "instrument", instrument: { ...draft, ranges: draft.ranges.split(/[,;]\s*/).filter(Boolean) } }]);
      setDraft(empty);
      setIssues([]);
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  const labels = {
    id: "Short name",
    kind: "What it measures",
    label: "What it is",
    ranges: "Ranges",
    uncertainty: "Good to",
    lastCheck: "Last check",
    offset: "Known offset",
  } as const;
  return (
    <Panel title="Instruments" id="instruments">
      <ul>
        {view.instruments.map((i) => (
          <li key={i.id}>
            <strong>{i.id}</strong> {i.label}, {i.kind}.{" "}
            {`Good to ${i.uncertainty || "not stated"}; last check ${i.lastCheck || "not stated"}; offset ${i.offset || "none known"}.`}
          </li>
        ))}
      </ul>
      <form
        className="noprint"
        onSubmit={(e) => {
          e.preventDefault();
          void add();
        }}
      >
        <div className="cardfields">
          {(Object.keys(labels) as (keyof typeof labels)[]).map((k) => (
            <label key={k} className="field">
              {labels[k]}
              <input value={draft[k]} required={k === "id"} onChange={(e) => setDraft({ ...draft, [k]: e.currentTarget.value })} />
            </label>
          ))}
        </div>
        <button type="submit">Register it</button>
        <Issues of={issues} />
      </form>
    </Panel>
  );
}
