import { accessory } from "../set/addresses/accessory";
import type { Fitting, SetDescription } from "../set/describe";
import { lookUp, quantityAt } from "../set/paths";
import { readingsThatProve } from "../sheets/inputs/accessory";

/** The step that proves the receiver without its accessory and with it. */
export const bothStates = "31e";

/**
 * Accessories whose both states are to be proved: one that is only offered is none yet.
 *
 * @param set the set
 * @returns fittings, planned or there
 * @source house rule
 */
export const accessoriesOf = (set: SetDescription): readonly Fitting[] => set.fittings.filter((f) => f.state !== "offered");

/**
 * Paths of the readings that prove both states of an accessory.
 *
 * @param set the set
 * @param f the accessory
 * @returns paths, such as `fittings.qm.levelWith`
 * @source readingsThatProve
 */
export function statePaths(set: SetDescription, f: Fitting): readonly string[] {
  const from = lookUp(set, `fittings.${f.id}.powerFrom`) ?? accessory.powerFrom.usual;
  return readingsThatProve(f.kind, from === "the receiver").map((name) => `fittings.${f.id}.${name}`);
}
/**
 * Paths of the readings that the proof of both states still lacks, accessory by accessory: what is only assumed was not read.
 *
 * @param set the set as it stands
 * @returns none where everything was read
 * @source statePaths
 */
export const statesLacking = (set: SetDescription): readonly string[] =>
  accessoriesOf(set).flatMap((f) => statePaths(set, f).filter((path) => (quantityAt(set, path)?.origin ?? "assumed") === "assumed"));
/**
 * Whether a subject concerns this job: every one but an accessory that is only offered, of which nobody has said or read anything.
 *
 * @param view the job
 * @param at path of the subject
 * @returns whether it belongs in the job's papers
 * @source house frame
 */
export const isAskedFor = (view: { readonly set: SetDescription; readonly kept: ReadonlyMap<string, string> }, at: string): boolean =>
  !at.startsWith("fittings.") ||
  accessoriesOf(view.set).some((f) => `fittings.${f.id}` === at) ||
  [...view.kept.keys()].some((path) => path.startsWith(`${at}.`));
