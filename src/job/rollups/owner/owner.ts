import { type Using, usingOf } from "../../../standards/using";
import { dayInWords } from "../../../units/day";
import { upperFirst } from "../../../units/sentence";
import { writingOn } from "../../cards";
import { sayBroughtIn } from "../../format";
import { type Past, pastOf } from "../../history/history";
import type { JobView } from "../../view";
import { foundAndLeftOf } from "../chart-lines";
import type { ProofLine } from "../proof/line";
import { proofOf } from "../proof/proof";
import { ratedLineSaid } from "../rated-line";
import { type LeftLine, leftOf, type SafetySaid, safetyOf, watchOf } from "./state";
import { type DoneLine, doneOf, type ExchangedLine, exchangedOf, type WrongLine, wrongOf } from "./work";

/** The report to the owner as plain words and figures, in the order in which an owner asks. */
export interface OwnersReport {
  readonly title: string;
  readonly note: string;
  /** the day of the last entry */
  readonly day: string;
  readonly invented: boolean;
  readonly what: readonly (readonly [string, string])[];
  readonly short: readonly string[];
  readonly wrong: readonly WrongLine[];
  /** what others did before it came */
  readonly past: readonly Past[];
  readonly exchanged: readonly ExchangedLine[];
  readonly done: readonly DoneLine[];
  /** measured, before and after: the figures of the record, then volts and ohms where they differ */
  readonly figures: readonly ProofLine[];
  readonly points: readonly ProofLine[];
  readonly use: readonly (Using & { readonly label: string })[];
  readonly watch: readonly string[];
  readonly safety: SafetySaid;
  readonly left: readonly LeftLine[];
  readonly original: string;
  readonly signature: string;
}
const text = (view: JobView, card: string, field: string): string => writingOn(view, card).get(field)?.text.trim() ?? "";
const count = (n: number, one: string, many = `${one}s`): string => (n === 0 ? `no ${one}` : n === 1 ? `one ${one}` : `${n} ${many}`);

function whatOf(view: JobView): readonly (readonly [string, string])[] {
  const { set, document } = view;
  const intake = (field: string): string => text(view, "intake", field);
  const fitted = set.fittings.filter((f) => f.state === "fitted" || f.state === "set").map((f) => f.label);
  const rows: (readonly [string, string])[] = [
    ["The set", set.title],
    ["Serial or marks", intake("Serial or marks")],
    ["Owner", intake("Owner")],
    ["Came in", dayInWords(intake("Date") || document.created)],
    ["Said to be", intake("What it is said to be")],
    ["Condition then", intake("Condition")],
    ["Past work found in it", intake("Past work found in it")],
    ["The owner's wish", intake("The owner's wish")],
    ["How original", text(view, "handover", "How original it stayed") || intake("How original it must stay")],
    ["For a line of", ratedLineSaid(set)],
    ["Tubes", set.tubes.map((t) => `${t.socket} ${t.type}`.trim()).join(", ")],
    ["Fitted with", fitted.join(", ")],
    ["From elsewhere", document.broughtIn ? sayBroughtIn(document.broughtIn) : ""],
  ];
  return rows.filter(([, t]) => t !== "");
}
function shortOf(view: JobView, wrong: readonly WrongLine[], exchanged: readonly ExchangedLine[], safety: SafetySaid): readonly string[] {
  const symptoms = text(view, "intake", "Symptoms");
  const mended = wrong.filter((w) => /^(Mended|Proved)/.test(w.became)).length;
  const own = [text(view, "handover", "What was wrong"), text(view, "handover", "What was done")].filter((t) => t !== "");
  return [
    ...(symptoms === "" ? [] : [`It came in with this complaint: ${symptoms}.`]),
    ...own.map((t) => upperFirst(/[.!?]$/.test(t) ? t : `${t}.`)),
    `${upperFirst(count(wrong.length, "fault"))} on record${wrong.length === 0 ? "" : mended === wrong.length ? ", mended" : `, ${mended || "none"} mended`}; ${count(exchanged.length, "part")} changed.`,
    safety.verdict,
  ];
}
/** What a figure says to its owner: how it changed. What is said of the model and of steps is for the bench. */
const forOwner = (l: ProofLine): ProofLine => {
  const says = l.says
    .split(/(?<=\.) /)
    .filter((s) => !/model|^due again/i.test(s))
    .join(" ");
  return { ...l, says: l.before ? `${says} Measured before the last work.`.trim() : says };
};
/** Points that were read twice, or that don't read as they should. */
const telling = (l: ProofLine): boolean => l.left !== "" || (l.says !== "" && !/as it should be/i.test(l.says));

/**
 * The report to the owner: what it is, what was wrong, what was done and why, before and after, how to use what was fitted, what to watch, the safety
 * record with its day, what was left.
 *
 * @param view the job
 * @param toGet parts that the answers still ask for, a line each
 * @returns its words and figures; every figure as it was measured, with its unit and doubt
 * @source house frame
 */
export function ownersReportOf(view: JobView, toGet: readonly string[]): OwnersReport {
  const wrong = wrongOf(view);
  const exchanged = exchangedOf(view);
  const safety = safetyOf(view);
  return {
    title: view.document.name,
    note: view.set.note,
    day: dayInWords(view.document.entries.at(-1)?.at ?? view.created),
    invented: view.readings.some((r) => r.invented),
    what: whatOf(view),
    short: shortOf(view, wrong, exchanged, safety),
    past: pastOf(view),
    wrong,
    exchanged,
    done: doneOf(view),
    figures: proofOf(view)
      .filter((l) => l.found !== "" || l.left !== "")
      .map(forOwner),
    points: foundAndLeftOf(view).filter((l) => l.chart !== undefined && telling(l)),
    use: view.set.fittings.flatMap((f) => {
      const using = f.state === "fitted" || f.state === "set" ? usingOf(f.kind) : undefined;
      return using ? [{ ...using, label: f.label }] : [];
    }),
    watch: watchOf(view),
    safety,
    left: leftOf(view, toGet),
    original: text(view, "handover", "How original it stayed"),
    signature: text(view, "handover", "Signature and date"),
  };
}
