import { admit } from "../job/admit";
import type { Entry } from "../job/document";
import { carriedOnto } from "../job/sitting";
import type { JobView } from "../job/view";
import type { Told } from "../store/accounts/audit";
import type { StoredFile } from "../store/store";
import { orThrow } from "../units/issue";
import type { Desk } from "./actions";

/** What is to be recorded, where all of it is there already, by the same person under the same ids: its answer got lost on the way, and it was sent again. */
function recordedBefore(view: JobView, entries: readonly unknown[], who: string): readonly Entry[] | undefined {
  const ids = entries.map((e) => (e as { readonly id?: unknown } | null)?.id);
  const there = view.document.entries.filter((e) => e.who === who && ids.includes(e.id));
  return ids.length > 0 && there.length === ids.length ? there : undefined;
}

/**
 * Appends to a job: every face's one way to record anything, through the one gate.
 *
 * @param desk store and stamp
 * @param view the job as it stands
 * @param entries what is to be recorded, of unknown shape where it comes from a face
 * @param files files that go with it
 * @param told what the trail tells of it, where it is a keeper's act
 * @returns the entries as they were stored, and the job's new revision
 * @throws {InputError} with every issue; nothing is recorded then
 */
export async function record(
  desk: Desk,
  view: JobView,
  entries: readonly unknown[],
  files: readonly StoredFile[] = [],
  told?: Told,
): Promise<{ readonly revision: number; readonly entries: readonly Entry[] }> {
  const before = recordedBefore(view, entries, desk.stamp.who);
  if (before) return { revision: (await desk.store.revision(view.document.name)) ?? 0, entries: before };
  const { seen, received } = desk;
  const asSent = { ...(seen === undefined ? {} : { seen }), ...(received === undefined ? {} : { received }) };
  const admitted = orThrow(admit(view, entries)).map((e) => ({ ...carriedOnto(view, e), ...asSent }));
  return { revision: await desk.store.append(view.document.name, admitted, files, told), entries: admitted };
}
