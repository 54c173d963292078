import { useState } from "react";
import { cardCautions } from "../../job/card-care";
import { cardIssues, firstCells, writtenOn } from "../../job/cards";
import { type Form, fieldsOf, forms } from "../../job/forms";
import type { JobView } from "../../job/view";
import type { Issue } from "../../units/issue";
import { api } from "./api";
import { useKept } from "./kept";
import { goTo, jobLink } from "./links";
import { here } from "./opened";
import { Cautions, Issues, Panel } from "./parts";
import { issuesOf } from "./task";

/** One record card: typed in by the order it prints in; the tab key goes from cell to cell. */
function Card({
  view,
  form,
  name,
  reload,
}: {
  readonly view: JobView;
  readonly form: Form;
  readonly name: string;
  readonly reload: () => void;
}) {
  const before = writtenOn(view, form.id);
  const [draft, setDraft] = useKept<Record<string, string>>(`card:${name}:${form.id}`, {});
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [said, setSaid] = useState("");
  const value = (key: string) => draft[key] ?? before[key] ?? "";
  const put = (key: string, v: string) => setDraft({ ...draft, [key]: v });
  const seeds = form.columns ? firstCells(view, form) : [];
  const used = form.columns ? Math.max(0, ...Object.keys({ ...before, ...draft }).map((k) => Number(/^row (\d+)/.exec(k)?.[1] ?? 0))) : 0;
  const rows = Math.max(seeds.length, used + 1, 4);
  // each cell is judged as it is typed; one that can't be read stays in the draft and costs the others nothing
  const wrong = new Map(cardIssues(form.id, draft).map((i) => [i.path, i.expected]));
  const keep = async () => {
    try {
      // each field by itself, so that what somebody else writes on this card meanwhile stays; the same figure read again counts as read again
      const fields = Object.fromEntries(Object.entries(draft).filter(([k, v]) => !wrong.has(k) && (v !== "" || (before[k] ?? "") !== "")));
      if (Object.keys(fields).length > 0) await api.append(name, [{ kind: "form", form: form.id, fields }]);
      setDraft(Object.fromEntries(Object.entries(draft).filter(([k]) => wrong.has(k))));
      setIssues([]);
      setSaid(wrong.size > 0 ? "Kept, except what is marked: correct it here." : "Kept. What was there before stays in the history.");
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  return (
    <form
      className="card"
      onSubmit={(e) => {
        e.preventDefault();
        void keep();
      }}
    >
      <h2>{form.title}</h2>
      <p className="printonly">
        {name}. {view.set.title}
      </p>
      <Cautions of={cardCautions(view, form)} />
      <div className="cardfields">
        {fieldsOf(form, before).map((f) => (
          <label key={f} className="field">
            {f}
            <input value={value(f)} aria-invalid={wrong.has(f)} onChange={(e) => put(f, e.target.value)} />
            {wrong.has(f) && <span className="said wrong">Expected {wrong.get(f)}</span>}
          </label>
        ))}
      </div>
      {form.columns && (
        <table className="chart">
          <thead>
            <tr>
              {form.columns.map((c) => (
                <th scope="col" key={c}>
                  {c}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {Array.from({ length: rows }, (_, r) => `row ${r + 1}`).map((row, r) => (
              <tr key={row}>
                {form.columns?.map((c, i) => {
                  const key = `${row}: ${c}`;
                  return (
                    <td key={c}>
                      <input
                        aria-label={`${c}, ${row}`}
                        inputMode={/ V$|Ω|%|dB|µV|MHz/.test(c) ? "decimal" : "text"}
                        value={draft[key] ?? before[key] ?? (i === 0 ? (seeds[r] ?? "") : "")}
                        aria-invalid={wrong.has(key)}
                        onChange={(e) => put(key, e.target.value)}
                      />
                      {wrong.has(key) && <span className="said wrong">Expected {wrong.get(key)}</span>}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="noprint">
        <button type="submit">Keep this card</button>
        <button type="button" className="plain" onClick={() => print()}>
          Print it
        </button>
        {here && (
          <>
            <a href={api.cardsUrl(name, form.id, false)}>As PDF</a> <a href={api.cardsUrl(name, form.id, true)}>Blank, for pencil</a>
          </>
        )}
        <span role="status" className="quiet">
          {said || (Object.keys(draft).length > 0 ? "Not kept yet; reloading won't lose it." : "")}
        </span>
      </p>
      <Issues of={issues} />
    </form>
  );
}

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
  return (
    <main className="records">
      <h1 className="noprint">Record cards</h1>
      <nav className="cardlist noprint" aria-label="Record cards">
        {forms.map((f) => (
          <button type="button" key={f.id} className="plain" aria-pressed={f.id === form.id} onClick={() => choose(f.id)}>
            {f.title}
            {Object.keys(writtenOn(view, f.id)).length > 0 ? " (written)" : ""}
          </button>
        ))}
      </nav>
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
              <input value={draft[k]} required={k === "id"} onChange={(e) => setDraft({ ...draft, [k]: e.target.value })} />
            </label>
          ))}
        </div>
        <button type="submit">Register it</button>
        <Issues of={issues} />
      </form>
    </Panel>
  );
}
