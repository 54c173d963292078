import { type Issue, sayIssue } from "../units/issue";
import { estimateIssues } from "./admit";
import type { BroughtIn, Entry } from "./document";
import { legible } from "./legible";
import type { JobAsRead, Unreadable } from "./read-job";
import { placeIssues } from "./slots";
import { viewOf } from "./view";

/**
 * A job that comes from elsewhere, a file or another job of the store, as it may be kept here: everything in it says so, and what could not stand in this set is set aside, said and never
 * applied.
 *
 * @param read the job as it was read
 * @param broughtIn when, by whom, and of which job where it is a copy
 * @returns the job, each entry marked, and what is set aside
 * @source house frame
 */
export function fromElsewhere(read: JobAsRead, broughtIn: BroughtIn): JobAsRead {
  const { entries: _, ...head } = read.document;
  const document = { ...legible(head), broughtIn, entries: [] };
  const { set } = viewOf(document);
  const entries: Entry[] = [];
  const aside: Unreadable[] = [];
  const known = new Set<string>();
  for (const [i, original] of read.document.entries.entries()) {
    const e: Entry = { ...legible(original), broughtIn };
    const issues: readonly Issue[] = known.has(e.id)
      ? [{ path: "id", code: "known", read: e.id, expected: "an id that no other entry has" }]
      : e.kind === "fact"
        ? placeIssues(set, e.path, e.value)
        : e.kind === "rows"
          ? placeIssues(set, e.path, e.rows)
          : e.kind === "values"
            ? Object.entries(e.values).flatMap(([path, q]) => placeIssues(set, path, q))
            : e.kind === "estimate"
              ? estimateIssues(e)
              : [];
    known.add(e.id);
    if (issues.length === 0) entries.push(e);
    else aside.push({ seq: i + 1, id: e.id, why: sayIssue(issues[0]), stored: JSON.stringify(original) });
  }
  return { document: { ...document, entries }, unreadable: [...read.unreadable, ...aside] };
}
