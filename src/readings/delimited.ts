import { bad, good, type Read } from "../units/issue";
import { headingOf } from "./column-heading";
import { mostNumbers, type NumberTable } from "./sweep";
import { asNumber, chooseLayout, commentMark, type Layout, split } from "./table-layout";
import { linesOf } from "./text";

const mostColumns = 256;

/**
 * Reads a table of numbers: comma, semicolon, tab or space separated, decimal point or comma, with a heading, a heading in a comment, or none.
 *
 * One column of numbers is taken too, as a log without times.
 * A line of words between numbers starts a new run and is kept as a comment. A line of which some cells are numbers and some are not is refused.
 *
 * @param bytes the file
 * @param name its name, for the error
 * @returns columns, runs and comments, or the located issue
 * @source common practice of instrument files
 */
export function readTable(bytes: Uint8Array, name: string): Read<NumberTable> {
  const lines = linesOf(bytes, name);
  if (!lines.ok) return lines;
  const text = lines.value.map((l) => l.replace(/^\uFEFF/, ""));
  const layout = chooseLayout(text);
  if (!layout) {
    const at = text.findIndex((l) => l.trim() !== "");
    return bad(`${name} line ${at + 1}`, "no-table", text[at], "lines of numbers, separated by commas, semicolons, tabs or spaces");
  }
  if (layout.columns > mostColumns) return bad(name, "too-many-columns", `${layout.columns} columns`, `at most ${mostColumns} columns`);
  const reading = new TableBeingRead(layout);
  for (const [i, l] of text.entries()) {
    const refused = l.trim() === "" ? undefined : reading.take(l, i + 1);
    if (refused) return bad(`${name} line ${i + 1}`, refused.code, refused.read, refused.expected);
  }
  return good(reading.table());
}

interface Refused {
  readonly code: string;
  readonly read: string;
  readonly expected: string;
}
/** A table as it is read line by line. */
class TableBeingRead {
  private readonly values: number[][];
  private readonly rows: number[] = [];
  private readonly runs: number[] = [];
  private readonly comments: string[] = [];
  private readonly headings: string[] = [];
  private readonly warnings: string[] = [];
  private broken = true;

  constructor(private readonly layout: Layout) {
    this.values = Array.from({ length: layout.columns }, () => []);
  }

  /** Takes a line: words, a heading, or numbers; says what can't stand there. */
  take(line: string, number: number): Refused | undefined {
    const cells = split(line, this.layout.by);
    const odd = cells.filter((c) => asNumber(c, this.layout.decimalComma) === undefined);
    if (commentMark.test(line) || odd.length === cells.length) return this.takeWords(line, cells, number);
    if (odd.length === 0) return this.takeNumbers(line, cells, number);
    if (this.rows.length > 0) return { code: "not-a-number", read: odd[0], expected: "a finite number" };
    this.headings.push(line.trim());
    return undefined;
  }

  private takeWords(line: string, cells: readonly string[], number: number): Refused | undefined {
    if (/^null$/i.test(cells[0]) || cells.some((c) => /^(?:nan|[+-]?inf(?:inity)?)$/i.test(c)))
      return { code: "not-a-number", read: line.trim(), expected: "finite numbers" };
    const said = line.replace(commentMark, "").trim();
    this.comments.push(said);
    if (this.rows.length === 0) this.headings.push(said);
    else if (!this.broken) this.warnings.push(`line ${number}: words between numbers, "${said.slice(0, 40)}": a new run starts after it`);
    this.broken = true;
    return undefined;
  }

  private takeNumbers(line: string, cells: readonly string[], number: number): Refused | undefined {
    const { columns, decimalComma } = this.layout;
    if (cells.length !== columns) return { code: "wrong-count", read: line.trim(), expected: `${columns} numbers, as on the other lines` };
    if ((this.rows.length + 1) * columns > mostNumbers)
      return {
        code: "too-many-numbers",
        read: `more than ${mostNumbers} numbers`,
        expected: `a table of at most ${mostNumbers} numbers`,
      };
    if (this.broken) this.runs.push(this.rows.length);
    this.broken = false;
    this.rows.push(number);
    for (let c = 0; c < columns; c++) this.values[c].push(asNumber(cells[c], decimalComma) ?? Number.NaN);
    return undefined;
  }

  table(): NumberTable {
    const columns = this.values.map((v, c) => ({ ...headingOf(this.headings, c, this.layout), values: Float64Array.from(v) }));
    const { runs, comments, warnings } = this;
    return { columns, runs, lines: Int32Array.from(this.rows), comments, warnings };
  }
}
