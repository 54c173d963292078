import { crossedIn, fieldOf } from "../job/crossed";
import type { Entry } from "../job/document";
import { entryIn } from "../job/place-in";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { InputError } from "../units/issue";

/** The same value again, of one place alone. */
function again(e: Entry, key: string, why: string): object | undefined {
  if (e.kind === "values") return { kind: "values", values: { [key]: e.values[key] }, why };
  if (e.kind === "fact") return { kind: "fact", path: e.path, value: e.value, why };
  if (e.kind === "rows") return { kind: "rows", path: e.path, rows: e.rows, why };
  const at = fieldOf(key);
  return e.kind === "form" && at ? { kind: "form", form: e.form, fields: { [at.field]: e.fields[at.field] } } : undefined;
}

/**
 * What is recorded when a person says which of two values is right: that value again, by one who has both before them.
 *
 * @param view the job
 * @param said the place, and the entry that is right, by its id or how that begins
 * @param stamp when and by whom
 * @returns entries to record, and what is told
 * @throws {InputError} where nothing crossed there, or the entry is none of those
 */
export function settled(
  view: JobView,
  said: { readonly place: string; readonly take: string },
  stamp: Stamp,
): { readonly entries: readonly unknown[]; readonly says: string } {
  const all = crossedIn(view);
  const crossed = all.find((c) => c.key === said.place);
  if (!crossed) {
    const expected = all.length === 0 ? "a place with two values: there is none" : `one of ${all.map((c) => `"${c.key}"`).join(", ")}`;
    throw new InputError([{ path: "place", code: "not-crossed", read: said.place, expected }]);
  }
  const right = crossed.claims.filter((c) => c.entry.startsWith(said.take));
  if (said.take === "" || right.length !== 1)
    throw new InputError([
      {
        path: "--take",
        code: "not-there",
        read: said.take,
        expected: `one of ${crossed.claims.map((c) => `${c.entry} (${c.says}, ${c.who})`).join(", ")}`,
      },
    ]);
  const [claim] = right;
  const others = crossed.claims.filter((c) => c !== claim).map((c) => `${c.says} (${c.who})`);
  const why = `settled: not ${others.join(", nor ")}`;
  const of = entryIn(view.document.entries, claim.entry);
  const entry = of && again(of, crossed.key, why);
  return {
    entries: entry ? [{ ...entry, id: stamp.newId(), at: stamp.at, who: stamp.who }] : [],
    says: `${crossed.place} is ${claim.says}, as ${claim.who} wrote; ${others.join(" and ")} stays in the history.`,
  };
}
