import { Fragment, type KeyboardEvent } from "preact/compat";
import { explains } from "../../../desk/explains";
import type { Form } from "../../../job/forms";
import type { CellSaid } from "../../../job/rollups/card-judged";
import type { JobView } from "../../../job/view";
import { goTo, jobLink } from "../links";
import type { CardDraft } from "./use-card";

/** Headings of columns that hold numbers alone. */
const numbers = / V$|Ω|%|dB|µV|MHz/;
const shape = { sound: "✓", wrong: "△", open: "○" } as const;

/** Enter and the arrows go down and up a column, as readings are taken; the last cell leads to what keeps the card. */
export function alongColumn(e: KeyboardEvent<HTMLElement>): void {
  const up = e.key === "ArrowUp" || (e.key === "Enter" && e.shiftKey);
  if (!up && e.key !== "Enter" && e.key !== "ArrowDown") return;
  const cell = e.target as HTMLElement;
  const column = cell.dataset.column;
  if (column === undefined) return;
  e.preventDefault();
  const all = [...e.currentTarget.querySelectorAll<HTMLInputElement>("input[data-column]")].filter((i) => i.dataset.column === column);
  const next = all[all.indexOf(cell as HTMLInputElement) + (up ? -1 : 1)];
  if (next) {
    next.focus();
    next.select();
  } else if (!up) e.currentTarget.closest("form")?.querySelector<HTMLButtonElement>("button[type=submit]")?.focus();
}

/** What a row's reading says where it isn't as it should be, and the way straight to what explains it. */
function RowSays({
  view,
  said,
  name,
  card,
  span,
}: {
  readonly view: JobView;
  readonly said: CellSaid;
  readonly name: string;
  readonly card: CardDraft;
  readonly span: number;
}) {
  const by = said.verdict === "wrong" && said.place !== undefined ? explains(view.set, said.place) : undefined;
  const go = async () => {
    if (by && (Object.keys(card.draft).length === 0 || (await card.keep()))) goTo(jobLink(name, "sheet", by.sheet.id, by.at));
  };
  return (
    <tr className={`judged ${said.verdict}`}>
      <td colSpan={span}>
        <span aria-hidden="true">{shape[said.verdict]}</span> {said.says}
        {by && (
          <button type="button" className="asword noprint" onClick={() => void go()}>
            What explains it?
          </button>
        )}
      </td>
    </tr>
  );
}

/** The table of a card: each cell judged as it is typed, enter going down the column. */
export function ChartTable({
  view,
  form,
  name,
  card,
  at,
}: {
  readonly view: JobView;
  readonly form: Form;
  readonly name: string;
  readonly card: CardDraft;
  /** told which row the keyboard is in */
  readonly at: (row: number) => void;
}) {
  const columns = form.columns ?? [];
  const reads = form.reads ?? [];
  return (
    <table className="chart" onKeyDown={alongColumn}>
      <thead>
        <tr>
          {columns.map((c) => (
            <th scope="col" key={c}>
              {c}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {card.rows.map((row, r) => {
          const told = reads.flatMap((c) => card.said.get(`${row}: ${c}`) ?? []).filter((s) => s.verdict !== "sound");
          return (
            <Fragment key={row}>
              <tr onFocus={() => at(r + 1)}>
                {columns.map((c, i) => (
                  <Cell
                    key={c}
                    field={`${row}: ${c}`}
                    column={c}
                    row={row}
                    seed={i === 0 ? (card.seeds[r] ?? "") : ""}
                    card={card}
                    read={reads.includes(c)}
                  />
                ))}
              </tr>
              {told.map((s) => (
                <RowSays key={s.says} view={view} said={s} name={name} card={card} span={columns.length} />
              ))}
            </Fragment>
          );
        })}
      </tbody>
    </table>
  );
}

function Cell(p: {
  readonly field: string;
  readonly column: string;
  readonly row: string;
  readonly seed: string;
  readonly card: CardDraft;
  readonly read: boolean;
}) {
  const { field, column, card } = p;
  const wrong = card.wrong.get(field);
  const said = card.said.get(field);
  const text = card.draft[field] ?? card.before[field] ?? p.seed;
  return (
    <td className={p.read ? "readcell" : column === "Pin" ? "narrowest" : numbers.test(column) ? "narrow" : ""}>
      <input
        aria-label={`${column}, ${p.row}`}
        data-column={column}
        inputMode={numbers.test(column) ? "decimal" : "text"}
        value={text}
        aria-invalid={wrong !== undefined}
        onChange={(e) => card.put({ [field]: e.currentTarget.value })}
      />
      {wrong !== undefined && <span className="said wrong">Expected {wrong}</span>}
      {wrong === undefined && said?.verdict === "sound" && <span className="said sound">✓ {said.says}</span>}
    </td>
  );
}
