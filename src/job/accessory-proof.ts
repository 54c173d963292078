import { answer } from "../ask/answer";
import { addressAt } from "../set/addresses";
import { accessoryProof } from "../sheets/accessory-proof/sheet";
import type { Issue } from "../units/issue";
import { accessoriesOf, bothStates, statePaths, statesLacking } from "./accessory-states";
import { placeIn } from "./place-in";
import { benchOf, type JobView } from "./view";

const few = { draws: 400, points: 11 };
/** A reading by its meaning; of one of several accessories with its name. */
function meaningOf(view: JobView, path: string): string {
  const all = accessoriesOf(view.set);
  const own = all.length > 1 ? all.find((f) => path.startsWith(`fittings.${f.id}.`)) : undefined;
  return `${own ? `${own.label}, ` : ""}${addressAt(path)?.meaning ?? "a reading"}`;
}
/** How it was before the accessory came is read once: no later work makes that old. */
const wasBefore = /Before$/;
/** What is read with the accessory unplugged is the receiver's alone: work inside the accessory does not make it old. */
const readUnplugged = /Without$/;
const insideAccessory: readonly string[] = ["accessory-mended", "accessory-tube-replaced"];

/** Readings of both states that are older than work that touched them. */
function oldOnes(view: JobView): Issue[] {
  const touched = (path: string): number =>
    placeIn(
      view.inForce,
      view.works.findLast(
        (e) => e.makes.some((d) => d.target === bothStates) && !(readUnplugged.test(path) && insideAccessory.includes(e.work)),
      )?.id,
    );
  return accessoriesOf(view.set)
    .flatMap((f) => statePaths(view.set, f))
    .filter((path) => !wasBefore.test(path) && placeIn(view.inForce, view.kept.get(path)) < touched(path))
    .map((path) => ({
      path,
      code: "older-reading",
      read: meaningOf(view, path),
      expected: "a reading taken after the work that touched it",
    }));
}

/**
 * Why both states of the accessories can't be said to be proved: what was not read, what is older than work that touched it, and what does not hold.
 *
 * @param view the job
 * @returns an issue for each reading that lacks, is old or fails
 * @source sheets/accessory-proof
 */
export function stateIssues(view: JobView): Issue[] {
  const lacking = statesLacking(view.set);
  if (lacking.length > 0)
    return lacking.map((path) => ({ path, code: "not-read", read: "", expected: meaningOf(view, path), needs: path }));
  const old = oldOnes(view);
  if (old.length > 0) return old;
  return accessoriesOf(view.set).flatMap((f) => {
    const a = answer(accessoryProof, benchOf(view, `fittings.${f.id}`), few);
    if (!a.ok) return [...a.issues];
    return a.value.findings
      .filter((x) => /^proof-.*-no$/.test(x.id))
      .map((x) => ({ path: `fittings.${f.id}`, code: "fails", read: f.label, expected: `both states to hold. ${x.says}` }));
  });
}
