import { dueBy, dueOfDanger, joiningDanger } from "../../../job/joining";
import { edgesOf, workKindById } from "../../../job/ripple";
import type { JobView } from "../../../job/view";
import type { Planned } from "../api";

/**
 * What work makes due again, and what it asks for, as far as this page can tell by itself while the server is away: the amounts are the server's.
 *
 * @param view the job as it is shown
 * @param work id of the kind of work
 * @param subject path of what is worked on
 */
export function plannedHere(view: JobView, work: string, subject: string): Planned {
  const danger = joiningDanger(view, work);
  const due = edgesOf(work).map((e) => dueBy(view, e, subject));
  const asks = (workKindById(work)?.changes ?? []).map((c) => ({
    path: c.path.replace("{subject}", subject),
    asks: c.asks,
    stands: "see the set's page",
  }));
  return { due: danger ? [dueOfDanger, ...due] : due, asks, ...(danger ? { danger } : {}), isHere: true };
}
/** What was said to what a plan asks; what was left empty on this page's own plan is left to the server. */
export const saidNow = (plan: Planned | undefined, now: Readonly<Record<string, string>>): Record<string, string> =>
  Object.fromEntries((plan?.asks ?? []).flatMap((a) => (plan?.isHere && !now[a.path] ? [] : [[a.path, now[a.path] ?? ""]])));
