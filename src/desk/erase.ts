import type { Erased } from "../store/store";
import { InputError } from "../units/issue";
import { type Desk, exported, noJob } from "./actions";

/** How a person says that a job is to be erased. */
export interface ToErase {
  readonly name: string;
  /** the name, said once more: without it nothing is erased */
  readonly confirm: string;
  /** the job as the person has it in front of them or has exported it; as it stands now where it is not said */
  readonly revision?: number | undefined;
}

/**
 * Erases a job for good, with everything that belongs to it. Backups and exports made earlier are not in the store, and stay.
 *
 * @param desk store
 * @param said which, and its name once more
 * @param keep is given the job's zip before anything is erased, and keeps it; what it throws leaves the job as it is
 * @returns how much was erased, and what may be left of it
 */
export async function eraseJob(desk: Desk, said: ToErase, keep?: (zip: Uint8Array) => Promise<void>): Promise<Erased> {
  const { name, confirm } = said;
  const revision = said.revision ?? (await desk.store.revision(name));
  if (revision === undefined) throw await noJob(desk, name);
  if (confirm !== name)
    throw new InputError([
      {
        path: "confirm",
        code: "not-confirmed",
        read: confirm,
        expected: `the job's name again, "${name}": all of it will be gone from the store, readings and photographs too`,
      },
    ]);
  if (keep) await keep((await exported(desk, name)).zip);
  return desk.store.erase(name, revision, desk.stamp.who);
}

/** In sentences: what was erased, and where something of it may still be. */
export const sayErased = (name: string, e: Erased): readonly string[] => [
  `Erased "${name}": ${e.entriesCount} entries and ${e.filesCount} files are out of the store for good.`,
  ...(e.alsoIn.length > 0
    ? [`An identical photograph or file is also in ${e.alsoIn.map((n) => `"${n}"`).join(", ")}, and stays there.`]
    : []),
  ...(e.tracesLeft ? ["Traces of it may remain in the store's own files until every page and command using the store is closed."] : []),
  "Earlier backups and exports still hold it: delete those yourself.",
];
