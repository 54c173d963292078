import { admit } from "../job/admit";
import { cardRows } from "../job/cards";
import type { Entry, JobDocument } from "../job/document";
import { formatName, formatVersion } from "../job/format";
import { type Guess, guessesOf } from "../job/rollups/guesses";
import { type JobView, viewOf } from "../job/view";
import type { Stamp } from "../job/works";
import type { SetDescription } from "../set/describe";
import type { SaidRow } from "../set/line-up/read-chart-rows";
import { understand } from "../set/line-up/understand";
import { bulbOf } from "../standards/tube-bulbs";
import { bad, type Issue, orThrow } from "../units/issue";

/** What was understood of a description, and what recording it will do. Nothing is stored here. */
export interface Description {
  readonly name: string;
  /** whether the job is made by it; else only chart rows are added to the one that is there */
  readonly makes: boolean;
  readonly set: SetDescription | undefined;
  /** fields that were said, by their ids */
  readonly fields: Readonly<Record<string, string>>;
  readonly tubes: readonly { readonly socket: string; readonly type: string; readonly does: string; readonly stage: string }[];
  readonly rows: readonly SaidRow[];
  readonly guessed: readonly Guess[];
  /** each line that was not understood: nothing can be recorded while there is one that the person has not left out */
  readonly unread: readonly Issue[];
  /** lines that the person left out, as they were typed; the record keeps them */
  readonly leftOut: readonly string[];
  readonly entries: readonly Entry[];
}

/** Rows of the chart at their tubes: a half is told by its pin, an electrode by the type's basing. */
function rowsAt(set: SetDescription, said: readonly SaidRow[]): { readonly rows: readonly SaidRow[]; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const rows = said.flatMap((r): readonly SaidRow[] => {
    const own = set.tubes.filter((t) => t.socket === r.socket || t.socket.replace(/[abc]$/, "") === r.socket);
    const pin = bulbOf(own[0]?.type ?? "")?.pins.get(Number(r.pin));
    const tube = own.length > 1 && pin?.unit !== undefined ? own[pin.unit] : own[0];
    if (tube === undefined) {
      issues.push(
        ...bad(`line ${r.line}`, "no-such-socket", r.socket, `a socket of the list: ${set.tubes.map((t) => t.socket).join(", ")}`).issues,
      );
      return [];
    }
    const known = pin === undefined || pin.electrode === "other" ? "" : pin.electrode;
    if (r.electrode !== "" && known !== "" && r.electrode !== known && r.electrode !== "B+" && r.electrode !== "AVC")
      issues.push(...bad(`line ${r.line}`, "other-pin", r.electrode, `the ${known}, which is at pin ${r.pin} of a ${tube.type}`).issues);
    return [{ ...r, socket: own.length > 1 && pin?.unit === undefined ? r.socket : tube.socket, electrode: r.electrode || known }];
  });
  return { rows, issues };
}
/** Rows on the card of the voltage chart: behind what stands there, or in the place of the row of the same point. */
function onCard(view: JobView, rows: readonly SaidRow[]): Readonly<Record<string, string>> {
  const there = cardRows(view, "voltage-chart");
  let last = Math.max(0, ...there.map((r) => r.number));
  return Object.fromEntries(
    rows.flatMap((r) => {
      const same = there.find(
        (x) =>
          x.cells.Tube.split(" ")[0] === r.socket &&
          (r.pin !== "" && x.cells.Pin ? x.cells.Pin === r.pin : x.cells.Electrode === r.electrode),
      );
      const n = same?.number ?? ++last;
      const cells = [
        ["Tube", r.socket],
        ["Pin", r.pin],
        ["Electrode", r.electrode],
        ["Chart V", r.volts],
        ["Part Ω if known", r.ohms],
        ["Measured V", r.measured],
      ];
      return cells.filter(([, text]) => text !== "").map(([column, text]) => [`row ${n}: ${column}`, text]);
    }),
  );
}
const sayLeftOut = (lines: readonly string[]): string => `Not understood and left out, as typed: ${lines.map((l) => `“${l}”`).join(", ")}.`;
const emptyJob = (name: string, set: SetDescription, stamp: Stamp): JobDocument => ({
  format: formatName,
  version: formatVersion,
  id: "described",
  name,
  created: stamp.at,
  set,
  entries: [],
});
/** What may not be said of a job that is there: it has a description, which is corrected member by member. */
function knownIssues(view: JobView, u: ReturnType<typeof understand>): readonly Issue[] {
  const { name } = view.document;
  const other = u.tubes.filter(
    (t) => !view.set.tubes.some((own) => own.socket.replace(/[abc]$/, "") === t.socket && own.type.startsWith(t.type)),
  );
  return [
    ...other.map((t) => ({
      path: `line ${t.line}`,
      code: "known-job",
      read: `${t.socket ?? ""} ${t.type}`.trim(),
      expected: `only chart rows: "${name}" is described already. A tube of it is corrected by: fettle amend "${name}" tubes ${t.socket ?? "V1"} type=${t.type}`,
    })),
    ...Object.keys(u.fields).map((f) => ({
      path: f,
      code: "known-job",
      read: u.fields[f],
      expected: `only chart rows: "${name}" is described already, and corrected by fettle set and fettle amend`,
    })),
  ];
}

/**
 * A set, or rows of its voltage chart, from what a person typed or pasted.
 *
 * @param name of the job
 * @param text as typed
 * @param known the job, where it is there already
 * @param stamp who, when, ids
 * @returns what was understood, what was guessed, what was not understood, and what is to be recorded
 */
export function describing(name: string, text: string, known: JobView | undefined, stamp: Stamp): Description {
  return described(name, text, known, stamp);
}
/** How often lines may be left out before what is left of the text is no description. */
const mostRounds = 20;
/**
 * The same, every line left out that is not understood, be it typed, pasted or of a table: all else stands, and the record says what was left out.
 *
 * @param name of the job
 * @param text as typed
 * @param known the job, where it is there already
 * @param stamp who, when, ids
 * @returns the same; what no line is to blame for stays unread
 */
export function describingRest(name: string, text: string, known: JobView | undefined, stamp: Stamp): Description {
  const lines = text.split(/\r?\n/);
  const left = new Map<number, string>();
  for (let round = 0; round < mostRounds; round++) {
    const now = lines.map((l, i) => (left.has(i) ? "#" : l)).join("\n");
    const d = described(name, now, known, stamp, [...left.values()]);
    const wrong = d.unread.flatMap((i) => {
      const n = Number(/\bline (\d+)/.exec(i.path)?.[1] ?? 0) - 1;
      return lines[n] !== undefined && !left.has(n) ? [n] : [];
    });
    if (wrong.length === 0) return d;
    for (const n of wrong) left.set(n, lines[n].trim());
  }
  return described(name, text, known, stamp);
}
function described(name: string, text: string, known: JobView | undefined, stamp: Stamp, leftOut: readonly string[] = []): Description {
  const said = understand(text);
  const u = said.set && leftOut.length > 0 ? { ...said, set: { ...said.set, note: `${said.set.note} ${sayLeftOut(leftOut)}` } } : said;
  const unread: Issue[] = [...u.unread, ...(known ? knownIssues(known, u) : [])];
  if (!known && u.set === undefined && u.unread.length === 0)
    unread.push(...bad("text", "no-tubes", "chart rows alone", "the tubes as well: no job has this name yet").issues);
  const set = known?.set ?? u.set;
  const at = set ? rowsAt(set, u.rows) : { rows: u.rows, issues: [] };
  unread.push(...at.issues);
  const view = known ?? (u.set && viewOf(emptyJob(name, u.set, stamp)));
  const entries: unknown[] =
    view && at.rows.length > 0
      ? [{ id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "form", form: "voltage-chart", fields: onCard(view, at.rows) }]
      : [];
  const admitted = view && entries.length > 0 && unread.length === 0 ? admit(view, entries) : undefined;
  if (admitted && !admitted.ok) unread.push(...admitted.issues);
  const labelOf = (id: string): string => view?.set.stages.find((s) => s.id === id)?.label ?? "beside the signal path";
  return {
    name,
    makes: known === undefined,
    set: u.set,
    fields: u.fields,
    tubes: view
      ? view.set.tubes.map((t) => ({ socket: t.socket, type: t.type, does: t.function, stage: labelOf(t.stage) }))
      : u.tubes.map((t) => ({ socket: t.socket ?? "", type: t.type, does: t.duties.map((d) => d.says).join(", "), stage: "" })),
    rows: at.rows,
    guessed: view ? guessesOf(view) : [],
    unread,
    leftOut,
    entries: admitted ? orThrow(admitted) : [],
  };
}
