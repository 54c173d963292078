import type { Entry } from "../job/document";
import { isFromElsewhere } from "../job/format";
import { fallWith, type JobView } from "../job/view";
import { bad, good, type Read } from "../units/issue";
import type { Desk } from "./actions";
import { record } from "./record";

export interface TakenBack {
  readonly entry: Entry;
  /** all that falls with it, in order */
  readonly fallen: readonly Entry[];
}

/** The entry that a person means by its id or the beginning of it. */
export function entryNamed(view: JobView, said: string): Read<Entry> {
  const hits = view.document.entries.filter((e) => e.id.startsWith(said));
  const [hit] = hits.length > 1 ? hits.filter((e) => e.id === said) : hits;
  if (hit && said !== "") return good(hit);
  const expected =
    hits.length > 1 ? "more of the entry's id: several begin like that" : "the id of an entry (fettle show JOB --entries lists them)";
  return bad("entry", "no-entry", said, expected);
}

/**
 * What taking back would take: the entry named, or the last one that this person recorded here; with it whatever was made of it.
 *
 * @param view the job
 * @param who the person
 * @param said an entry's id; empty for the last of one's own
 * @returns the entry and all that falls with it
 */
export function whatFalls(view: JobView, who: string, said = ""): Read<TakenBack> {
  if (said === "") {
    const last = view.inForce.findLast((e) => e.kind !== "correction" && e.who === who && !isFromElsewhere(e));
    return last
      ? good({ entry: last, fallen: fallWith(view, last, true) })
      : bad(
          "entry",
          "nothing-of-yours",
          "nothing of yours",
          `something that ${who} recorded: name an entry to take back another's (fettle show JOB --entries lists them)`,
        );
  }
  const named = entryNamed(view, said);
  if (!named.ok) return named;
  if (view.superseded.has(named.value.id)) return bad("entry", "taken-back", said, "an entry that has not been taken back");
  return good({ entry: named.value, fallen: fallWith(view, named.value) });
}

/** Takes entries back: each stays in the history, superseded. */
export const takeBack = (desk: Desk, view: JobView, fallen: readonly Entry[], why: string): Promise<{ readonly revision: number }> =>
  record(
    desk,
    view,
    fallen.map((e) => ({ id: desk.stamp.newId(), at: desk.stamp.at, who: desk.stamp.who, kind: "correction", supersedes: e.id, why })),
  );
