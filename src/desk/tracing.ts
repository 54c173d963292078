import { faultsOf, isSought } from "../job/faults/faults";
import { cardToRead, stillToRead } from "../job/faults/proving";
import type { JobView } from "../job/view";
import { sheetById } from "../sheets/index";
import { InputError } from "../units/issue";
import { ask } from "./actions";
import { explains } from "./explains";
import type { TracedFault } from "./traced";

/** What a traced answer is worth while others wait: a fraction of the usual draws. */
const quick = { draws: 400, points: 11 } as const;

/**
 * Every fault of a job, the open ones with the answer of the question that explains their place: suspects with their chances and the test that separates
 * them at a stage, causes of B+ at the supply.
 *
 * @param view the job
 * @returns in the order in which they were noticed
 */
export function tracedFaults(view: JobView): readonly TracedFault[] {
  return faultsOf(view).map((f): TracedFault => {
    const card = cardToRead(view, f.place);
    const read = { ...f, toRead: stillToRead(view, f), ...(card ? { readOn: card } : {}) };
    const question = explains(view.set, f.place);
    if (!question) return read;
    const asks = { sheet: question.sheet.id, at: question.at };
    const sheet = sheetById(asks.sheet);
    if (!sheet || !isSought(f)) return { ...read, asks };
    try {
      return { ...read, asks, explained: ask(sheet, view, asks.at || undefined, quick).headline };
    } catch (e) {
      // a question that can't be answered yet says so where it is asked
      if (!(e instanceof InputError)) throw e;
      return { ...read, asks };
    }
  });
}
