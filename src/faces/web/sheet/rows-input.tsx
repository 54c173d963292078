import type { Answer } from "../../../ask/answered";
import { readRows } from "../../../set/columns";
import { socketName } from "../../../set/sockets";
import { printValue } from "../../../units/print";
import { closed, upperFirst } from "../../../units/sentence";

type Rows = Answer["rows"][number];

/** A table of what was read: its rows, where they come from, and other rows to try, one a line. */
export function RowsInput({
  rows,
  tried,
  setTried,
}: {
  readonly rows: Rows;
  readonly tried: string | undefined;
  readonly setTried: (v: string | undefined) => void;
}) {
  const id = `in-${rows.path}`;
  const read = tried === undefined ? undefined : readRows(tried, rows.path, rows);
  const wrong = read && !read.ok ? read.issues[0] : undefined;
  const columns = Object.entries(rows.columns);
  const say = (r: Rows["rows"][number]): string =>
    columns
      .map(([name, c]) =>
        c.options
          ? (c.options[r[name]] ?? "")
          : Number.isFinite(r[name])
            ? c.halves
              ? socketName(r[name])
              : `${c.prefix ?? ""}${printValue(r[name], c.dimension ?? "ratio")}`
            : "",
      )
      .join(", ");
  return (
    <div className={`rows ${rows.origin}`}>
      <label htmlFor={id}>
        <span className="name">{upperFirst(rows.meaning)}</span>
      </label>{" "}
      <span className={`origin ${rows.origin}`}>
        {rows.rows.length} rows, {rows.origin}
      </span>
      <textarea
        id={id}
        rows={Math.min(6, Math.max(2, rows.rows.length))}
        value={tried ?? ""}
        placeholder={rows.rows.length > 0 ? rows.rows.map(say).join("\n") : `${columns.map(([n]) => n).join(", ")}, one row a line`}
        onChange={(e) => setTried(e.currentTarget.value.trim() === "" ? undefined : e.currentTarget.value)}
        aria-invalid={wrong !== undefined}
        aria-describedby={`${id}-said`}
      />
      <span id={`${id}-said`} className={wrong ? "said wrong" : "said"}>
        {wrong
          ? `${wrong.path}: read “${wrong.read}”, expected ${wrong.expected}`
          : `Type other rows, one a line: ${[columns.map(([, c]) => c.meaning).join(", "), rows.howMeasured, rows.source].map(upperFirst).map(closed).join(" ")}`}
      </span>
    </div>
  );
}
