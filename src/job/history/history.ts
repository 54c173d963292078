import { carefully, setFigures } from "../../ask/care";
import { type HistoryName, type HistoryWord, history, historyNames, isSo } from "../../set/addresses/history";
import { lookUp, quantityAt } from "../../set/paths";
import type { Caution } from "../../standards/cautions";
import { writingOn } from "../cards";
import { entryIn, placeIn } from "../place-in";
import { stepById } from "../steps";
import { benchOf, type JobView } from "../view";
import { historyKinds, type Lead } from "./kinds";

/** A measurement that something of the past leads to, and whether it is done. */
export interface PastLead extends Lead {
  readonly done: boolean;
}
/** Something that others may have done, what anybody knows of it, and what settles it. */
export interface Past {
  readonly name: HistoryName;
  readonly meaning: string;
  readonly howSeen: string;
  readonly word: HistoryWord;
  /** in the person's words */
  readonly words: string;
  readonly widens: string;
  readonly until: string;
  readonly leads: readonly PastLead[];
  /** the first that is not done; undefined once it is settled, or where it is not so */
  readonly next: PastLead | undefined;
  /** what is to be heeded before the next */
  readonly cautions: readonly Caution[];
}

/** Whether what was said of a path counts: recorded since the past was, or measured. */
function isSaid(view: JobView, path: string, since: string): boolean {
  const by = view.kept.get(path);
  const place = (id: string | undefined): number => placeIn(view.inForce, id);
  return by !== undefined && (place(by) > place(since) || quantityAt(view.set, path)?.origin === "measured");
}
function isDone(view: JobView, lead: Lead, since: string): boolean {
  if (lead.path !== undefined) return isSaid(view, lead.path, since);
  return view.steps.find((s) => s.id === lead.step)?.state === "proven";
}

/**
 * What others did to the set, as far as anybody knows, with its measurements in order.
 *
 * @param view the job
 * @returns every question of the past in the order of the card, answered or not
 * @source kinds.ts
 */
export function pastOf(view: JobView): readonly Past[] {
  const written = writingOn(view, "history");
  const figures = setFigures(benchOf(view, ""));
  return historyNames.map((name, i) => {
    const at = history[name];
    const kind = historyKinds[name];
    const stands = lookUp(view.set, at.address);
    const word = at.options.find((o) => o === stands) ?? "unknown";
    const since = view.kept.get(at.address) ?? "";
    const fact = entryIn(view.inForce, since);
    const leads = kind.leads.map((l) => ({ ...l, done: isSo(word) && isDone(view, l, since) }));
    const next = isSo(word) ? leads.find((l) => !l.done) : undefined;
    return {
      name,
      meaning: at.meaning,
      howSeen: at.howMeasured,
      word,
      words: fact?.kind === "fact" ? fact.why : (written.get(`row ${i + 1}: In words`)?.text ?? ""),
      widens: kind.widens,
      until: kind.until,
      leads,
      next,
      cautions: next ? carefully(figures)({ state: next.state, hazards: kind.hazards }) : [],
    };
  });
}
/** Of the past, what is so and not settled yet. */
export const unsettled = (view: JobView): readonly Past[] => pastOf(view).filter((p) => p.next !== undefined);

/** What is to be measured, with the command that records it or the step that it is of. */
export const sayLead = (l: Lead, job = "JOB"): string => {
  if (l.path !== undefined)
    return `${l.says}: fettle set "${job}" ${l.path}=VALUE${l.sheet ? `, then fettle sheet ${l.sheet} "${job}"` : ""}`;
  return `${l.says} (step ${l.step}, ${stepById(l.step ?? "")?.title ?? ""}${l.sheet ? `; fettle sheet ${l.sheet} "${job}"` : ""})`;
};
/** In a line: what is so of the past and not settled. */
export const sayPast = (p: Past): string => `${p.meaning} (${p.word}${p.words ? `: ${p.words}` : ""})`;
/**
 * The step at which something of the past is to be settled next: that of its next measurement, or of the first after it that has one.
 *
 * @param p of the past
 * @returns number of the step; undefined where it is settled or not so
 * @source house frame
 */
export function stepOfPast(p: Past): string | undefined {
  const from = p.next ? p.leads.indexOf(p.next) : p.leads.length;
  return p.leads.slice(from).find((l) => l.step !== undefined && !l.done)?.step ?? (p.next ? "09" : undefined);
}
