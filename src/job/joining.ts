import { heeded, setFigures } from "../ask/care";
import { isSafeToJoin, liveChassisFinding } from "../ask/chassis";
import type { HeededFinding } from "../ask/findings";
import type { Due } from "./document";
import { type edgesOf, workKindById } from "./ripple";
import { benchOf, type JobView, titleOfStep } from "./view";

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

/** Where one stage was worked on: its own volts first, before and after told apart. */
function voltsAgain(view: JobView, step: string, subject: string): string | undefined {
  const sockets = view.set.tubes.filter((t) => `stages.${t.stage}` === subject).map((t) => t.socket);
  return step === "10" && sockets.length > 0 ? `Read the volts of ${sockets.join(" and ")} again, as left` : undefined;
}
/**
 * What work makes due again by one edge of the table, without its amount.
 *
 * @param view the job as it stands
 * @param e the edge
 * @param subject path of what was worked on
 * @returns the task: the edge's own, else the volts to be read again there, else the step's title
 * @source table in ripple.ts
 */
export const dueBy = (view: JobView, e: ReturnType<typeof edgesOf>[number], subject: string): Due => ({
  target: e.target,
  makes: e.makes,
  task: e.task ?? voltsAgain(view, e.target, subject) ?? titleOfStep(e.target),
  why: e.why,
  ...(e.after ? { after: e.after } : {}),
});
