import { marked } from "marked";
import { useMemo, useState } from "react";
import { defaultSampling, leastForInterval, mostDraws } from "../../ask/answer";
import type { AnySheet } from "../../ask/contract";
import { keptPath } from "../../ask/resolve";
import { aboutFigure, sayCell, sayFigure } from "../../ask/say";
import { paperBeside } from "../../desk/questions";
import type { JobView } from "../../job/view";
import { subjectLabel, subjectsIn } from "../../job/view";
import type { Issue } from "../../units/issue";
import { hasValues } from "../figures/drawing";
import { api } from "./api";
import { Drawn } from "./drawn";
import { InputRow } from "./input-row";
import { useKept } from "./kept";
import { FindingBox, Issues, Plot, Scroll, StripsPicture } from "./parts";
import { RowsInput } from "./rows-input";
import { issuesOf } from "./task";
import { useAnswer } from "./use-answer";

/** A sheet: the answer first, then figures and plots, what to do with its cautions, inputs to try, and how it is worked out. */
export function SheetPage({
  view,
  sheet,
  about,
  name,
  reload,
}: {
  readonly view: JobView;
  readonly sheet: AnySheet;
  /** the subject to begin with; empty for the first */
  readonly about: string;
  readonly name: string;
  readonly reload: () => void;
}) {
  const subjects = subjectsIn(view, sheet);
  const paper = paperBeside(sheet);
  const [at, setAt] = useState(subjects.includes(about) ? about : (subjects[0] ?? ""));
  const [tried, setTried] = useKept<Record<string, string>>(`try:${name}:${sheet.id}`, {});
  const [dragging, setDragging] = useState(false);
  const [sampling, setSampling] = useState(defaultSampling);
  const [kept, setKept] = useState<readonly Issue[]>([]);
  const [said, setSaid] = useState("");
  const own = useAnswer(view.document, sheet.id, at, tried, dragging, sampling);
  const job = useAnswer(
    view.document,
    sheet.id,
    at,
    useMemo(() => ({}), []),
    false,
    sampling,
  );
  // a value that can't be read leaves the job's own answer, and its inputs to mend it in
  const { issues, working, stop } = own;
  const answer = own.answer ?? (issues.length > 0 ? job.answer : undefined);
  const theory = useMemo(() => marked.parse(sheet.theory.replace(/^# .*\n/, ""), { async: false }), [sheet]);
  const trying = Object.keys(tried).length > 0;
  const replaced = (job.answer?.quantities ?? [])
    .filter((q) => q.path in tried && q.quantity.origin !== "assumed")
    .map((q) => `${q.meaning} (${q.quantity.origin})`);
  const recordedOnly = (path: string): boolean => {
    const input = sheet.inputs[path];
    return input?.kind === "choice" && input.recordedOnly !== undefined;
  };
  const put = (path: string) => (v: string | undefined) => {
    const next = { ...tried };
    if (v === undefined) delete next[path];
    else next[path] = v;
    setTried(next);
  };
  const keep = async () => {
    try {
      // what no job stores is only tried: rows of cards and readings among it
      const values = Object.entries(tried).flatMap(([name, text]) => {
        const path = keptPath(sheet, at, name);
        return path === undefined ? [] : [{ path, text }];
      });
      await api.values(name, values, "assumed", `kept from a what-if of ${sheet.id}@${sheet.version}`);
      setTried({});
      setKept([]);
      const rows = Object.keys(tried).some((n) => sheet.inputs[n]?.kind === "table" && keptPath(sheet, at, n) !== undefined);
      setSaid(
        `Kept in the job as assumed${rows ? ", rows as read" : ""}. State or measure it under Describe the set to make it count for more.`,
      );
      reload();
    } catch (e) {
      setKept(issuesOf(e));
    }
  };
  const all = answer ? [...answer.quantities, ...answer.absent] : [];
  const first = all.filter((q) => sheet.first.includes(q.path));
  const rest = all.filter((q) => !sheet.first.includes(q.path));
  const row = (q: (typeof all)[number]) => <InputRow key={q.path} q={q} tried={tried[q.path]} setTried={put(q.path)} drag={setDragging} />;
  const shown = answer
    ? [...sheet.key, ...Object.keys(answer.results).filter((k) => !sheet.key.includes(k))].filter(
        (k) => answer.results[k] && (answer.results[k].low !== null || answer.results[k].why === undefined),
      )
    : [];
  return (
    <article className="sheet" aria-busy={working}>
      <h1>{sheet.question}</h1>
      {subjects.length > 1 && (
        <label className="field">
          About
          <select value={at} onChange={(e) => setAt(e.target.value)}>
            {subjects.map((s) => (
              <option key={s} value={s}>
                {subjectLabel(view.set, s)}
              </option>
            ))}
          </select>
        </label>
      )}
      <p className={issues.length > 0 ? "headline stale" : "headline"} aria-live="polite">
        {issues.length > 0 && answer ? "Without what is wrong below: " : ""}
        {answer?.headline ?? "Working it out…"}
      </p>
      {working && (
        <p className="working">
          Working out the full answer…{" "}
          <button type="button" className="plain" onClick={stop}>
            Stop
          </button>
        </p>
      )}
      <Issues of={issues} />
      {trying && (
        <div className="trying">
          <p>
            What if:{" "}
            {Object.entries(tried)
              .map(([k, v]) => `${k} = ${v}`)
              .join(", ")}
            . The job's own curves are drawn dashed.
          </p>
          {replaced.length > 0 && (
            <p>
              <strong>Check</strong> Keeping it puts a guess in place of what is recorded: {replaced.join(", ")}. The record stays in the
              history.
            </p>
          )}
          <button
            type="button"
            disabled={issues.length > 0 || Object.keys(tried).every((n) => keptPath(sheet, at, n) === undefined)}
            onClick={() => void keep()}
          >
            Keep in the job
          </button>
          <button type="button" className="plain" onClick={() => setTried({})}>
            Drop
          </button>
        </div>
      )}
      <Issues of={kept} />
      <p className="quiet" role="status">
        {said}
      </p>
      {answer && (
        <>
          {answer.drawn.map((d) => (
            <Drawn key={d.id} of={d} />
          ))}
          {answer.strips.map((s) => (
            <StripsPicture key={s.id} of={s} example={answer.unread.length > 0} />
          ))}
          {answer.missing.length === 0 &&
            sheet.figures
              .filter((f) => hasValues(f, answer))
              .map((f) => <Plot key={f.id} spec={f} answer={answer} {...(trying && job.answer ? { job: job.answer } : {})} />)}
          {paper && (
            <p>
              <a href={api.paperUrl(name, paper.path)} download={`${name}, ${paper.file}`}>
                {paper.says}
              </a>
              , as the job has it
            </p>
          )}
          <h2>What to do</h2>
          {answer.findings.map((f) => (
            <FindingBox key={f.id} of={f} />
          ))}
          <h2>Values</h2>
          <table className={answer.unread.length > 0 ? "figures example" : "figures"}>
            {answer.unread.length > 0 && <caption>EXAMPLE: nothing of this set</caption>}
            <thead>
              <tr>
                <th scope="col">What</th>
                <th scope="col">Value, with its 95 % interval</th>
                {trying && <th scope="col">The job's own</th>}
              </tr>
            </thead>
            <tbody>
              {shown.map((k) => (
                <tr key={k}>
                  <th scope="row">{answer.results[k].meaning}</th>
                  <td>{sayFigure(answer.results[k], true)}</td>
                  {trying && <td>{job.answer?.results[k] ? aboutFigure(job.answer.results[k]) : ""}</td>}
                </tr>
              ))}
            </tbody>
          </table>
          {answer.tables.map((t) => (
            <Scroll key={t.id} label={t.title}>
              <table>
                <caption>{t.title}</caption>
                <thead>
                  <tr>
                    {t.columns.map((c) => (
                      <th scope="col" key={c.name}>
                        {c.name}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {t.rows.map((r) => (
                    <tr key={r.join()}>
                      {r.map((v, i) => (
                        <td key={t.columns[i].name}>{sayCell(t, v, i)}</td>
                      ))}
                    </tr>
                  ))}
                </tbody>
              </table>
            </Scroll>
          ))}
          {answer.next.length > 0 && (
            <>
              <h2>To narrow the answer, measure next</h2>
              <ul>
                {answer.next.map((n) => (
                  <li key={n.inputs.join()}>
                    <strong>
                      {n.inputs.length > 1 ? "the strip" : (answer.quantities.find((q) => q.path === n.inputs[0])?.meaning ?? n.inputs[0])}
                    </strong>
                    : {n.how} (accounts for {Math.round(n.share * 100)} % of the uncertainty in {answer.results[n.result].meaning})
                  </li>
                ))}
              </ul>
            </>
          )}
          <h2>What it rests on</h2>
          <div className="inputs">
            {answer.choices.map((c) =>
              recordedOnly(c.path) ? (
                <div key={c.path} className={`input choice-in ${c.origin}`}>
                  <span className="name">{c.meaning}</span>
                  <span className="value">
                    {c.value} <span className="quiet">(recorded under Describe the set)</span>
                  </span>
                  <span className={`origin ${c.origin}`}>{c.origin}</span>
                </div>
              ) : (
                <label key={c.path} className={`input choice-in ${c.origin}`}>
                  <span className="name">{c.meaning}</span>
                  <select value={tried[c.path] ?? c.value} onChange={(e) => put(c.path)(e.target.value)}>
                    {c.options.map((o) => (
                      <option key={o}>{o}</option>
                    ))}
                  </select>
                  <span className={`origin ${c.origin}`}>{c.origin}</span>
                </label>
              ),
            )}
            {answer.rows.map((t) => (
              <RowsInput key={t.path} rows={t} tried={tried[t.path]} setTried={put(t.path)} />
            ))}
            {first.map(row)}
            <details>
              <summary>
                {rest.length} more inputs,{" "}
                {rest.filter((q) => answer.quantities.some((a) => a.path === q.path && a.quantity.origin === "assumed")).length} of them
                assumed
              </summary>
              {rest.map(row)}
            </details>
          </div>
          <details className="theory">
            <summary>How this is worked out</summary>
            {/* biome-ignore lint/security/noDangerouslySetInnerHtml: our own page of theory, part of the program */}
            <div dangerouslySetInnerHTML={{ __html: theory }} />
          </details>
          <p className="quiet">
            {answer.sheet} version {answer.version}, seed {answer.seed}, {answer.draws} draws
            {working ? "; working out the full answer…" : ""}. Intervals are 95 %, probabilistically symmetric.
          </p>
          <details>
            <summary>Draw again with another seed</summary>
            <p>The same seed and number of draws give the same answer. Another seed shows how much is chance.</p>
            <div className="row">
              <Whole
                label="Seed"
                value={sampling.seed}
                least={1}
                most={1_000_000}
                onChange={(seed) => setSampling({ ...sampling, seed })}
              />
              <Whole
                label="Draws"
                value={sampling.draws}
                least={leastForInterval}
                most={mostDraws}
                onChange={(draws) => setSampling({ ...sampling, draws })}
              />
            </div>
          </details>
        </>
      )}
    </article>
  );
}

/** A whole number within bounds; what is none yet changes nothing. */
function Whole({
  label,
  value,
  least,
  most,
  onChange,
}: {
  readonly label: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly onChange: (n: number) => void;
}) {
  return (
    <label className="field">
      {label}, {least} to {most.toLocaleString("en")}
      <input
        type="number"
        min={least}
        max={most}
        defaultValue={value}
        onChange={(e) => {
          const n = e.target.valueAsNumber;
          if (Number.isInteger(n) && n >= least && n <= most) onChange(n);
        }}
      />
    </label>
  );
}
