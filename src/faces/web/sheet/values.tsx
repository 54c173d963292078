import type { Answer } from "../../../ask/answered";
import { aboutFigure, nextNamed, sayCell, sayFigure } from "../../../ask/say";
import type { Question } from "../../../sheets/question";
import { Scroll } from "../parts";

/** Tables of an answer: they scroll by themselves where they are wide. */
const Tables = ({ answer }: { readonly answer: Answer }) =>
  answer.tables.map((t) => (
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
  ));

/** Every figure with its interval, the record's beside it while something else is tried; then tables, and what would narrow the answer. */
export function Values({
  sheet,
  answer,
  record,
}: {
  readonly sheet: Question;
  readonly answer: Answer;
  readonly record?: Answer | undefined;
}) {
  const shown = [...sheet.key, ...Object.keys(answer.results).filter((k) => !sheet.key.includes(k))].filter((k) => {
    const f = answer.results[k];
    return f && (f.low !== null || f.why === undefined);
  });
  const example = answer.unread.length > 0;
  return (
    <>
      <h2>Values</h2>
      <table className={example ? "figures example" : "figures"}>
        {example && <caption>EXAMPLE, not this set</caption>}
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Value, with its 95 % interval</th>
            {record && <th scope="col">On record</th>}
          </tr>
        </thead>
        <tbody>
          {shown.map((k) => (
            <tr key={k}>
              <th scope="row">{answer.results[k].meaning}</th>
              <td>{sayFigure(answer.results[k], true)}</td>
              {record && <td>{record.results[k] ? aboutFigure(record.results[k]) : ""}</td>}
            </tr>
          ))}
        </tbody>
      </table>
      <Tables answer={answer} />
    </>
  );
}

/** What to measure next, since it would narrow the answer most. */
export const MeasureNext = ({ answer }: { readonly answer: Answer }) =>
  answer.next.length === 0 ? null : (
    <>
      <h2>To narrow the answer, measure next</h2>
      <ul>
        {answer.next.map((n) => (
          <li key={n.inputs.join()}>
            <strong>{nextNamed(n, (path) => answer.quantities.find((q) => q.path === path)?.meaning ?? path)}</strong>: {n.how} (accounts
            for {Math.round(n.share * 100)} % of the uncertainty in {answer.results[n.result].meaning})
          </li>
        ))}
      </ul>
    </>
  );
