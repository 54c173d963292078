import { bad, type Issue } from "../../units/issue";
import type { SetDescription } from "../describe";
import { setFromTubes } from "../outline";
import type { SaidTube } from "./duties";
import { readRowLine, readTableRow, type SaidRow, type Table, tableAt } from "./read-chart-rows";
import { type Numbered, numbered, readLineUp } from "./read-line-up";
import { expectedWords, readBandLine, readWords, type SaidFields } from "./read-words";

/** What a text says of a set. */
export interface Understood {
  readonly tubes: readonly SaidTube[];
  /** fields of the outline that were said */
  readonly fields: SaidFields;
  /** rows of the voltage chart */
  readonly rows: readonly SaidRow[];
  /** the whole description; undefined while a line is not understood, or where no more than chart rows were said */
  readonly set: SetDescription | undefined;
  /** each line that was not understood, by itself */
  readonly unread: readonly Issue[];
}
/** Longest text and line that are looked at. A service sheet's table of the largest set is well below. */
const longestText = 20_000;
const longestLine = 300;

/** What the lines say, sorted by what each is about. */
interface Sorted {
  readonly tubeLines: Numbered[];
  readonly bands: string[];
  readonly fields: Record<string, string>;
  readonly rows: SaidRow[];
  readonly unread: Issue[];
}
/** The type at a socket, as far as lines before it say. */
const typeIn =
  (lines: readonly Numbered[]) =>
  (socket: string): string | undefined =>
    readLineUp(lines).tubes.find((t) => t.socket === socket || t.socket === socket.replace(/[abc]$/, ""))?.type;

function sort(lines: readonly Numbered[]): Sorted {
  const out: Sorted = { tubeLines: [], bands: [], fields: {}, rows: [], unread: [] };
  let table: Table | undefined;
  for (const [line, said] of lines) {
    const path = `line ${line}`;
    if (said.length > longestLine) {
      out.unread.push(...bad(path, "too-long", said, `at most ${longestLine} characters in a line`).issues);
      continue;
    }
    table = tableAt(said) ?? table;
    if (tableAt(said)) continue;
    const row = table && readTableRow(table, said, line, typeIn(out.tubeLines));
    if (row) {
      if (!row.ok) out.unread.push(...row.issues);
      else {
        if (row.value.tube !== undefined) out.tubeLines.push([line, row.value.tube]);
        out.rows.push(...row.value.rows);
      }
      continue;
    }
    table = undefined;
    sortLine(out, line, said);
  }
  return out;
}
function sortLine(out: Sorted, line: number, said: string): void {
  const words = readWords(said);
  if (words) {
    Object.assign(out.fields, words.fields);
    if (words.rest.length > 0) out.tubeLines.push([line, words.rest.join(", ")]);
    return;
  }
  const row = readRowLine(said, line);
  const bands = row ? undefined : readBandLine(said);
  if (row) out.rows.push(row);
  else if (bands) out.bands.push(...bands);
  else out.tubeLines.push([line, said]);
}

/**
 * A set from a tube line-up and a few words, in whatever way they were typed or pasted: tubes one a line or with commas between, a table of a service
 * sheet with its heading, bands, rows of the voltage chart, words such as `IF 455 kc`. A line that is not understood costs no other.
 *
 * @param text as typed
 * @returns what was understood, and every line that was not
 * @source house format
 */
export function understand(text: string): Understood {
  const nothing: Understood = { tubes: [], fields: {}, rows: [], set: undefined, unread: [] };
  if (text.length > longestText) return { ...nothing, unread: bad("text", "too-long", text, `at most ${longestText} characters`).issues };
  const lines = numbered(text);
  if (lines.length === 0) return { ...nothing, unread: bad("text", "empty", "", expectedWords).issues };
  const sorted = sort(lines);
  const { tubes, unread: strange } = readLineUp(sorted.tubeLines);
  const fields = { ...sorted.fields, ...(sorted.bands.length > 0 ? { bands: sorted.bands.join("\n") } : {}) };
  const unread = [...sorted.unread, ...strange.map(asAnything)];
  const said = tubes.length > 0 || Object.keys(fields).length > 0;
  const made = said ? setFromTubes(fields, tubes) : undefined;
  if (made && !made.ok) unread.push(...made.issues);
  const issues = [...unread].sort((a, b) => lineOf(a) - lineOf(b));
  return { tubes, fields, rows: sorted.rows, unread: issues, set: made?.ok && issues.length === 0 ? made.value : undefined };
}
/** A line that is no tube might have been anything else. */
const asAnything = (i: Issue): Issue => (i.code === "not-a-tube" ? { ...i, code: "not-understood", expected: expectedWords } : i);
const lineOf = (i: Issue): number => Number(/line (\d+)/.exec(i.path)?.[1] ?? 0);
