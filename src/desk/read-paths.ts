import type { QuantityInput } from "../ask/inputs";
import { keptPath } from "../ask/resolve";
import { declaredAt } from "../job/slots";
import { benchOf, type JobView, onceFor, subjectsIn } from "../job/view";
import { minutesTopic } from "../set/addresses/minutes";
import { type Bench, emptyBench } from "../set/bench";
import { quantityAt } from "../set/paths";
import { stripLeaves } from "../set/strip";
import { sheets } from "../sheets/index";
import { closest } from "../units/nearest";

/** Whether an input looks at a path when nothing is there. */
function looksAt(input: QuantityInput, at: string, path: string): boolean {
  const asked = new Set<string>();
  const quantity = (p: string): undefined => {
    asked.add(p);
    return undefined;
  };
  const bench: Bench = { ...emptyBench, at, quantity };
  input.from?.(bench, {});
  return asked.has(path);
}

/** Inputs of questions by the paths that they keep a value at, each with its subject, in the order of the questions. */
const inputsAt = onceFor((view: JobView): ReadonlyMap<string, readonly { readonly at: string; readonly input: QuantityInput }[]> => {
  const out = new Map<string, { readonly at: string; readonly input: QuantityInput }[]>();
  for (const sheet of sheets)
    for (const at of subjectsIn(view, sheet))
      for (const [name, input] of Object.entries(sheet.inputs)) {
        const path = input.kind === "quantity" ? keptPath(sheet, at, name) : undefined;
        if (input.kind !== "quantity" || path === undefined) continue;
        const there = out.get(path);
        if (there) there.push({ at, input });
        else out.set(path, [{ at, input }]);
      }
  return out;
});
const found = onceFor(
  (view: JobView, path: string): QuantityInput | undefined =>
    inputsAt(view)
      .get(path)
      ?.find(({ at, input }) => !(input.from?.(benchOf(view, at), {}) !== undefined && !looksAt(input, at.replace(/:.*$/, ""), path)))
      ?.input,
  (path) => path,
);
/**
 * The input of a question that reads a quantity of its own at a path. A value at a path that none reads would stand in the record and change nothing, and so
 * would one that the input passes over because the set gives it something else.
 *
 * @param view the job
 * @param path where a value would stand
 * @returns the first question's input; undefined where none reads it
 * @source house frame
 */
export const readAt = (view: JobView, path: string): QuantityInput | undefined =>
  inputsAt(view).has(path) ? found(view, path) : undefined;
/** Whether a roll-up of the job reads a path, though no question does: how long work takes this person. */
export const readByRollUps = (path: string): boolean => path.startsWith(`${minutesTopic}.`);

/** Whether the set's own description has a quantity at a path: described with it, not put there since. */
export const isDescribed = (view: JobView, path: string): boolean => quantityAt(view.document.set, path) !== undefined;

/** Paths of what the strip is made of. */
const leavesOf = (view: JobView): readonly string[] => {
  const strip = benchOf(view, "").strip();
  return strip ? stripLeaves(strip).map((l) => l.path) : [];
};
/** Paths of this set at which questions keep an input of a name. */
const pathsNamed = (view: JobView, name: string): readonly string[] => [
  ...new Set(
    sheets.flatMap((s) => (Object.hasOwn(s.inputs, name) ? subjectsIn(view, s).flatMap((at) => keptPath(s, at, name) ?? []) : [])),
  ),
];
/**
 * The path that a person means by a bare name, such as `firstCapacitance`.
 *
 * @param view the job
 * @param said a path, or the name of an input
 * @returns the path that alone has the name; what was said where none or several have it
 * @source house frame
 */
export function pathMeant(view: JobView, said: string): string {
  const named = said.includes(".") ? [] : pathsNamed(view, said);
  return named.length === 1 ? named[0] : said;
}

/**
 * What a person may have meant by a path that nothing reads: inputs by that very name first, choices with their words, then paths that look like it.
 *
 * @param view the job
 * @param path as written
 * @returns three paths at most, each with what it is
 * @source house frame
 */
export function nearestPaths(view: JobView, path: string): string {
  const last = path.split(".").pop() ?? "";
  const byName = pathsNamed(view, last);
  const leaves = leavesOf(view);
  // what is read is found out of those alone that look like it, the nearest first
  const nearest: string[] = [];
  for (const p of closest(path, [...inputsAt(view).keys(), ...leaves], Number.POSITIVE_INFINITY)) {
    if (nearest.length === 3) break;
    if (leaves.includes(p) || readAt(view, p)) nearest.push(p);
  }
  const says = (p: string): string | undefined => {
    const at = declaredAt(p);
    return readAt(view, p)?.meaning ?? (at?.kind === "choice" ? `one of ${at.options.join(", ")}` : at?.meaning);
  };
  const near = [...new Set([...byName, ...nearest])].filter((p) => says(p) !== undefined).slice(0, 3);
  return near.map((p) => `${p} (${says(p)})`).join("; ");
}
