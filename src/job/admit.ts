import { type SetDescription, setSchema } from "../set/describe";
import { putMember } from "../set/members";
import { bad, good, type Issue, type Read } from "../units/issue";
import { idsOf, oneOf } from "../units/nearest";
import { cardIssues } from "./cards";
import { chassisIssues } from "./chassis-proof";
import type { Entry, EntryOf } from "./document";
import { faultsOf } from "./faults/faults";
import { actIssues } from "./faults/proving";
import { formById, forms, hasField } from "./forms";
import { legible } from "./legible";
import { proofIssues } from "./next";
import { entryIn, placeIn } from "./place-in";
import { isPlace, placesOf } from "./places";
import { isShallow, readEntry } from "./read-job";
import { entryOfReading } from "./readings-in";
import { workKindById, workKinds } from "./ripple";
import { placeIssues } from "./slots";
import { stepById } from "./steps";
import { type JobView, viewOf } from "./view";

const mostEntries = 10_000;
/**
 * The one gate that everything passes which is to be appended to a job, whichever face it comes from: each entry is read by the definition that every
 * stored entry is read by, and judged against the job as it stands.
 *
 * @param view the job as it stands
 * @param entries what is to be appended, in order
 * @returns the entries as they will be stored, or every issue, each at its place; nothing is to be appended where there is one
 * @source house frame
 */
export function admit(view: JobView, entries: readonly unknown[]): Read<readonly Entry[]> {
  if (entries.length === 0 || entries.length > mostEntries)
    return bad("entries", "wrong-number", String(entries.length), `1 to ${mostEntries} entries at once`);
  const out: Entry[] = [];
  const issues: Issue[] = [];
  for (const data of entries) {
    const read = readEntry(isShallow(data) ? legible(data) : data);
    if (!read.ok) {
      issues.push(...read.issues.map((i) => inWords(i, data)));
      continue;
    }
    const e = read.value;
    // what proves a step, is taken back, or is of a fault may be recorded in the same go
    const leans = out.length > 0 && (e.kind === "done" || e.kind === "correction" || e.kind === "fault");
    issues.push(...entryIssues(leans ? viewOf({ ...view.document, entries: [...view.document.entries, ...out] }) : view, e));
    out.push(e);
  }
  return issues.length > 0 ? { ok: false, issues } : good(out);
}

/** An issue of the definition, told by what a person knows: the kind of entry, and a figure by its name. */
function inWords(issue: Issue, data: unknown): Issue {
  const e = data as Partial<EntryOf<"reading">>;
  const kind: string = e?.kind ?? "entry";
  const figure = /figures\.(\d+)\./.exec(issue.path)?.[1];
  const named = figure === undefined ? undefined : e.reading?.figures?.[Number(figure)]?.name;
  const rest = issue.path.replace(/^entry\.?/, "").replace(new RegExp(`^${kind}\\.`), "");
  return { ...issue, path: named ? `${kind}, ${named}` : [kind, rest].filter((t) => t !== "").join(" ") };
}

function entryIssues(view: JobView, e: Entry): Issue[] {
  if (placeIn(view.document.entries, e.id) >= 0) return bad("entry", "known", e.id, "an entry that is not recorded yet").issues.slice();
  switch (e.kind) {
    case "form":
      return formIssues(e);
    case "done":
      return stepById(e.step) ? proofIssues(view, e.step) : [unknownStep(e.step)];
    case "work":
      return workKindById(e.work)
        ? []
        : [
            {
              path: "work",
              code: "unknown-work",
              read: e.work,
              expected: oneOf(e.work, idsOf(workKinds)),
            },
          ];
    case "reading":
      return readingIssues(view, e);
    case "estimate":
      return estimateIssues(e);
    case "values":
      return Object.entries(e.values).flatMap(([path, q]) => placeIssues(view.set, path, q));
    case "fact":
      return placeIssues(view.set, e.path, e.value);
    case "rows":
      return placeIssues(view.set, e.path, e.rows);
    case "correction":
      return placeIn(view.document.entries, e.supersedes) >= 0
        ? []
        : [{ path: "entry", code: "no-entry", read: e.supersedes, expected: "the id of an entry of this job" }];
    case "chassis":
      return chassisIssues(e, view.ground);
    case "described":
      return describedIssues(view, e);
    case "fault":
      return isPlace(view.set, e.place)
        ? faultIssues(view, e)
        : [{ path: "place", code: "no-place", read: e.place, expected: placesOf(view.set).join(", ") }];
    case "part":
      return isPlace(view.set, e.place)
        ? []
        : [{ path: "place", code: "no-place", read: e.place, expected: placesOf(view.set).join(", ") }];
    case "waiting":
      return e.ends === undefined || entryIn(view.inForce, e.ends)?.kind === "waiting"
        ? []
        : [{ path: "waiting", code: "no-entry", read: e.ends, expected: "the id of something that is waited for" }];
    case "instrument":
    case "attachment":
    case "sitting":
    case "standing":
      return [];
  }
}

const unknownStep = (step: string): Issue => ({
  path: "step",
  code: "no-step",
  read: step,
  expected: "the number of a step, such as 20 or 33b",
});

function formIssues(e: EntryOf<"form">): Issue[] {
  const form = formById(e.form);
  if (!form)
    return [
      {
        path: "card",
        code: "no-card",
        read: e.form,
        expected: oneOf(e.form, idsOf(forms)),
      },
    ];
  const names = Object.keys(e.fields);
  if (names.length === 0) return [{ path: "card", code: "nothing-written", read: "", expected: "at least one field that is changed" }];
  const cells = (form.columns ?? []).map((c) => `row 1: ${c}`);
  const strange = names.filter((n) => !hasField(form, n));
  if (strange.length > 0)
    return strange.map((n) => ({ path: n, code: "no-field", read: n, expected: oneOf(n, [...form.fields, ...cells]) }));
  return cardIssues(e.form, e.fields);
}

/** A member that makes of the description what could not be read back, or takes out what is not there. */
function describedIssues(view: JobView, e: EntryOf<"described">): Issue[] {
  const set = structuredClone(view.set);
  if (!putMember(set, e.list, e.member, e.as, e.after))
    return [{ path: e.list, code: "no-member", read: e.member, expected: `one of the set's ${e.list}` }];
  const read = setSchema.safeParse(set);
  if (read.success) return danglingIssues(view.set, set, `${e.list} ${e.member}`);
  const [first] = read.error.issues;
  return [{ path: `${e.list} ${e.member}`, code: first.code, read: first.path.map(String).join("."), expected: first.message }];
}

/** An act on a fault that is not known, or that its life does not allow yet. */
function faultIssues(view: JobView, e: EntryOf<"fault">): Issue[] {
  if (e.does === "notice")
    return e.words.trim() === "" ? [{ path: "words", code: "no-words", read: "", expected: "what was noticed, in your words" }] : [];
  const known = faultsOf(view).find((f) => f.id === e.fault && !f.unrecorded);
  return known
    ? actIssues(view, known, e)
    : [{ path: "fault", code: "no-fault", read: e.fault, expected: "a fault that was noticed (fettle fault JOB notice)" }];
}

/** What stands at a member that is no more: it is moved or taken out first. */
function danglingIssues(before: SetDescription, after: SetDescription, path: string): Issue[] {
  const dangling = (set: SetDescription): readonly (readonly [what: string, at: string])[] => {
    const [stages, taps, nodes] = [set.stages, set.taps, set.supplies.nodes].map((l) => new Set(["", ...l.map((m) => m.id)]));
    return [
      ...set.tubes.flatMap((t) => (stages.has(t.stage) ? [] : [[`tubes ${t.socket}`, t.stage] as const])),
      ...set.taps.flatMap((t) =>
        stages.has(t.stage) && nodes.has(t.node) && t.can <= set.strip.cans.length ? [] : [[`taps ${t.id}`, t.stage] as const],
      ),
      ...set.fittings.flatMap((f) => (taps.has(f.tap) ? [] : [[`fittings ${f.id}`, f.tap] as const])),
    ];
  };
  const old = dangling(before).map(([what]) => what);
  return dangling(after)
    .filter(([what]) => !old.includes(what))
    .map(([what, at]) => ({
      path,
      code: "stands-at-it",
      read: `${what} at ${at}`,
      expected: `${what} to be at something that the set has: amend that first`,
    }));
}

function readingIssues(view: JobView, { reading: r }: EntryOf<"reading">): Issue[] {
  const out: Issue[] = [];
  if (entryOfReading(view.document.entries).has(r.id))
    out.push({ path: "reading", code: "known", read: r.id, expected: "a reading that is not recorded yet" });
  if (r.step !== "" && !stepById(r.step)) out.push(unknownStep(r.step));
  if (r.stage !== "" && !view.set.stages.some((s) => s.id === r.stage))
    out.push({
      path: "stage",
      code: "no-stage",
      read: r.stage,
      expected: oneOf(
        r.stage,
        view.set.stages.map((s) => s.id),
      ),
    });
  return out;
}

/**
 * A fit whose parts do not belong together would be drawn wrongly, or not at all.
 *
 * @returns nothing where names, values and covariance are of one size
 * @source house format, docs/job-format.md
 */
export function estimateIssues({ estimate: x }: EntryOf<"estimate">): Issue[] {
  const n = x.names.length;
  const square = x.covariance.length === n && x.covariance.every((row) => row.length === n);
  return x.values.length === n && x.logarithmic.length === n && square
    ? []
    : [{ path: "fit", code: "uneven", read: `${n} names`, expected: "a value and a row of the covariance for each name" }];
}
