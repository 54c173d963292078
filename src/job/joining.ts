import { heeded, setFigures } from "../ask/care";
import { isSafeToJoin, liveChassisFinding } from "../ask/chassis";
import type { HeededFinding } from "../ask/findings";
import type { Due } from "./document";
import { workKindById } from "./ripple";
import { benchOf, type JobView } from "./view";

/**
 * What is to be said first where work joins something to a chassis that is live or not stated.
 *
 * @param view the job as it stands
 * @param work id of the kind of work
 * @returns nothing where it joins nothing, or the chassis is proved
 * @source house frame
 */
export const joiningDanger = (view: JobView, work: string): HeededFinding | undefined =>
  workKindById(work)?.joins && !isSafeToJoin(view.chassis)
    ? heeded([liveChassisFinding(view.chassis)], "open-dead", setFigures(benchOf(view, "")))[0]
    : undefined;

/** What such work makes due before all else. */
export const dueOfDanger: Due = {
  target: "03",
  makes: "redo",
  task: "Stop: unplug the set, and prove the chassis before anything else",
  why: "something is joined to a chassis that is live or not stated: what was joined may be at line voltage",
};

/**
 * What is to be read again where one stage was worked on: its own volts first, before and after told apart.
 *
 * @param view the job as it stands
 * @param step that is due again
 * @param subject path of what was worked on
 * @returns undefined where the step's own title says it
 * @source house frame
 */
export function voltsAgain(view: JobView, step: string, subject: string): string | undefined {
  const sockets = view.set.tubes.filter((t) => `stages.${t.stage}` === subject).map((t) => t.socket);
  return step === "10" && sockets.length > 0 ? `Read the volts of ${sockets.join(" and ")} again, as left` : undefined;
}
