import type { ReactNode } from "preact/compat";

/** A list's lines under its heads; on a narrow screen each cell carries its head itself. */
export function LinesTable<L>(p: {
  readonly className: string;
  readonly heads: readonly string[];
  readonly lines: readonly L[];
  readonly keyOf: (line: L) => string;
  readonly cells: (line: L) => readonly ReactNode[];
  readonly rowClass?: (line: L) => string;
}) {
  return (
    <table className={p.className}>
      <thead>
        <tr>
          {p.heads.map((h) => (
            <th scope="col" key={h}>
              {h}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {p.lines.map((l) => (
          <tr key={p.keyOf(l)} className={p.rowClass?.(l)}>
            {p.cells(l).map((c, i) => (
              <td key={p.heads[i]} data-head={p.heads[i]}>
                {c}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
