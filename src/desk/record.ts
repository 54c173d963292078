import { admit } from "../job/admit";
import type { Entry } from "../job/document";
import { carriedOnto } from "../job/sitting";
import type { JobView } from "../job/view";
import type { StoredFile } from "../store/store";
import { orThrow } from "../units/issue";
import type { Desk } from "./actions";

/**
 * Appends to a job: every face's one way to record anything, through the one gate.
 *
 * @param desk store and stamp
 * @param view the job as it stands
 * @param entries what is to be recorded, of unknown shape where it comes from a face
 * @param files files that go with it
 * @returns the entries as they were stored, and the job's new revision
 * @throws {InputError} with every issue; nothing is recorded then
 */
export async function record(
  desk: Desk,
  view: JobView,
  entries: readonly unknown[],
  files: readonly StoredFile[] = [],
): Promise<{ readonly revision: number; readonly entries: readonly Entry[] }> {
  const admitted = orThrow(admit(view, entries)).map((e) => carriedOnto(view, e));
  return { revision: await desk.store.append(view.document.name, admitted, files), entries: admitted };
}
