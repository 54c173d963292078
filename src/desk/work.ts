import type { Entry } from "../job/document";
import { workKindById } from "../job/ripple";
import { type JobView, viewOf } from "../job/view";
import { planWork, type Stamp, type WorkPlan } from "../job/works";
import { lookUp, quantityAt } from "../set/paths";
import { InputError, orThrow } from "../units/issue";
import { printValue } from "../units/print";
import { assignment } from "./assignment";
import { pathMeant } from "./read-paths";

/** What a person says of a piece of work. */
export interface WorkSaid {
  readonly work: string;
  readonly subject: string;
  readonly note: string;
  /** what it changes in the set's record, by path or by a name that one path alone has: a value as written, or "same" where it stayed as it was */
  readonly now: Readonly<Record<string, string>>;
}
export interface Planned extends WorkPlan {
  /** what the work changes of the record and was not said yet: it can't be recorded without */
  readonly asks: readonly { readonly path: string; readonly asks: string; readonly stands: string }[];
}

/** Said where the record holds nothing of what a piece of work changes. */
const nothingRecorded = "nothing recorded";

/**
 * What a piece of work will do, with the facts and values that it changes recorded in the same act.
 *
 * @param also what else changes with it, recorded before it and taken back with it
 */
export function planned(view: JobView, said: WorkSaid, stamp: Stamp, also: readonly Entry[] = []): Planned {
  const wanted = (workKindById(said.work)?.changes ?? []).map((c) => ({ ...c, path: c.path.replace("{subject}", said.subject) }));
  const asked = wanted.map((c) => c.path);
  const now = Object.fromEntries(Object.entries(said.now).map(([p, text]) => [asked.includes(p) ? p : pathMeant(view, p), text]));
  const why = `as it is after: ${workKindById(said.work)?.title ?? said.work}`;
  const changed = [...asked, ...Object.keys(now).filter((p) => !asked.includes(p))].flatMap((path) => {
    const text = now[path];
    if (text === undefined || text === "" || text === "same") return [];
    // a tap is read off the transformer, and a new part is marked: neither with a meter
    const origin = path !== "line.voltage" && asked.includes(path) ? "measured" : "stated";
    return [orThrow(assignment(view, path, text, { origin, why }, stamp))];
  });
  const before = [...also, ...changed];
  const after = viewOf({ ...view.document, entries: [...view.document.entries, ...before] });
  const plan = orThrow(planWork(after, said, stamp));
  const asks = wanted
    .filter((c) => !now[c.path])
    .map((c) => {
      const q = quantityAt(view.set, c.path);
      const stands = lookUp(view.set, c.path);
      return { ...c, stands: q ? printValue(q.value, dimensionAt(c.path)) : typeof stands === "string" ? stands : nothingRecorded };
    });
  // what the work changed falls with it when it is taken back
  const act = plan.entries.find((e) => e.kind === "work")?.id;
  return { ...plan, entries: [...before.map((e) => (act ? { ...e, partOf: act } : e)), ...plan.entries], asks };
}

const dimensionAt = (path: string) =>
  path.endsWith("Length") ? ("length" as const) : path.endsWith("ypass") ? ("capacitance" as const) : ("voltage" as const);

/** Why a piece of work can't be recorded yet: what it changes was not said. */
export const unsaidOf = (plan: Planned): InputError | undefined =>
  plan.asks.length === 0
    ? undefined
    : new InputError(
        plan.asks.map((a) => ({
          path: a.path,
          code: "not-said",
          read: "",
          expected: `${a.asks}${a.stands === nothingRecorded ? "" : `, or "same" if it stayed at ${a.stands}`} (--now ${a.path}=VALUE)`,
        })),
      );

/** What a piece of work was done on, where a person doesn't say: work on a cable or an accessory is on the first that is fitted. */
export const workedOn = (view: JobView, work: string): string =>
  /^(?:cable|accessory)/.test(work) ? `fittings.${view.set.fittings[0]?.id ?? ""}` : "";
