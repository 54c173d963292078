import type { AnySheet } from "../ask/contract";
import { keptPath } from "../ask/resolve";
import type { Entry } from "../job/document";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { bad, good, type Issue, type Read } from "../units/issue";
import { own } from "../units/own";
import type { Origin } from "../units/quantity";
import { assignment } from "./assignment";

/**
 * What was tried on a sheet, as entries that record it at the addresses of its inputs.
 *
 * @param view the job
 * @param sheet the sheet
 * @param tried its subject, and what was written by the name of the input
 * @param how where the values come from, and why they are recorded
 * @param stamp who and when
 * @returns an entry for each, or what is wrong at its name: what makes a set safe is proved by an act, and what no job stores is only tried
 * @source house frame
 */
export function keepTried(
  view: JobView,
  sheet: AnySheet,
  tried: { readonly at: string; readonly written: Readonly<Record<string, string>> },
  how: { readonly origin: Origin; readonly why: string },
  stamp: Stamp,
): Read<readonly Entry[]> {
  const entries: Entry[] = [];
  const issues: Issue[] = [];
  for (const [said, text] of Object.entries(tried.written)) {
    const name = own(sheet.aliases, said) ?? said;
    const input = own(sheet.inputs, name);
    const path = keptPath(sheet, tried.at, name);
    const one =
      input?.kind === "choice" && input.recordedOnly
        ? bad(name, "proved-by-an-act", text, "the act that proves it, with what was measured")
        : path === undefined
          ? bad(name, "only-tried", text, "an input that a job stores: no job keeps this one, so try it without recording it")
          : assignment(view, path, text, how, stamp);
    if (one.ok) entries.push(one.value);
    else issues.push(...one.issues);
  }
  return issues.length > 0 ? { ok: false, issues } : good(entries);
}
