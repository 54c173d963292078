import { chassisSaid, isLiveSet } from "../../../ask/chassis";
import { hazardousDcV } from "../../../standards/cautions";
import { dayInWords } from "../../../units/day";
import { closed, lowerFirst, upperFirst } from "../../../units/sentence";
import { writingOn } from "../../cards";
import { faultsOf, isOpenFault } from "../../faults/faults";
import { formById } from "../../forms";
import { isDueAgain } from "../../open-steps";
import { recordIssues } from "../../safety-record";
import { concerns, stepById } from "../../steps";
import type { JobView } from "../../view";

/** One figure of the safety record, as it came in and as it goes out. */
export interface SafetyLine {
  readonly what: string;
  readonly came: string;
  readonly goes: string;
}
export interface SafetySaid {
  /** whether everything that hand-over rests on is proved */
  readonly holds: boolean;
  readonly verdict: string;
  readonly chassis: string;
  readonly lines: readonly SafetyLine[];
  /** what the record lacks or fails */
  readonly lacks: readonly string[];
  readonly by: string;
}
const text = (view: JobView, card: string, field: string): string => writingOn(view, card).get(field)?.text.trim() ?? "";
/** A field's name without its unit, and its text with it. */
function withUnit(field: string, value: string): readonly [string, string] {
  const [, what, unit] = /^(.*), (MΩ|kΩ|Ω|mA|V|A)$/.exec(field) ?? [];
  return what === undefined ? [field, value] : [what, value === "" || !/^[+-]?[\d.,]+$/.test(value) ? value : `${value} ${unit}`];
}

/**
 * The safety record as its owner reads it: how it came in, how it goes out, by whom and when, and what it lacks.
 *
 * @param view the job
 * @returns the verdict first: nothing is called safe that isn't proved
 * @source limits of touch-current.ts; house frame
 */
export function safetyOf(view: JobView): SafetySaid {
  const signed = "Date and sign";
  const fields = (formById("safety-out")?.fields ?? []).filter((f) => f !== signed && f !== "Tester used");
  const lines = fields.flatMap((field): SafetyLine[] => {
    const [what, goes] = withUnit(field, text(view, "safety-out", field));
    const [, came] = withUnit(field, text(view, "safety-in", field));
    return came === "" && goes === "" ? [] : [{ what, came, goes }];
  });
  const issues = recordIssues(view, "35");
  const fieldOf = (path: string): string => withUnit(path.replace(/^.* card, /, ""), "")[0];
  const blank = issues.filter((i) => i.code === "not-measured").map((i) => lowerFirst(fieldOf(i.path)));
  const lacks = [
    ...issues
      .filter((i) => i.code !== "not-measured")
      .map((i) =>
        closed(`${upperFirst(fieldOf(i.path))}: ${i.read === "" ? "not on record" : `it says ${i.read}`}, expected ${i.expected}`),
      ),
    ...(blank.length === 0 ? [] : [`Nothing on record yet for: ${blank.join(", ")}.`]),
  ];
  const proved = view.steps.find((s) => s.id === "35")?.state === "proven";
  const holds = proved && lacks.length === 0;
  const by = [text(view, "safety-out", "Tester used"), text(view, "safety-out", signed).replace(/^\d{4}-\d\d-\d\d/, dayInWords)]
    .filter((t) => t !== "")
    .join("; ");
  return {
    holds,
    verdict: holds
      ? "The safety test before hand-over was done and passed."
      : "NOT proved safe to hand over: don't plug this set in until its safety record is complete.",
    chassis: `${upperFirst(chassisSaid[view.chassis])}.${isLiveSet(view.chassis) ? " Nothing earthed may be joined to it: no earth wire, no earthed antenna, no instrument, except through what the bench has fitted for it." : ""}`,
    lines,
    lacks,
    by,
  };
}

/**
 * What the owner should keep an eye on.
 *
 * @param view the job
 * @returns sentences
 * @source house frame; common practice, no source
 */
export function watchOf(view: JobView): readonly string[] {
  const fuse = text(view, "safety-out", "Fuse rating and type") || text(view, "safety-in", "Fuse rating and type");
  const said = ["Warnings given", "Care", "Next check due"].flatMap((f) => {
    const t = text(view, "handover", f);
    return t === "" ? [] : [closed(f === "Next check due" ? `Next check due: ${t}` : upperFirst(t))];
  });
  return [
    ...said,
    ...(fuse === "" ? [] : [closed(`Fuse: ${fuse}. Never a larger one; if it blows twice, there is a reason`)]),
    "Unplug it when you are away, and at once if there is smoke, a smell of tar, a new hum, or a blown fuse.",
    `Leave the case closed: more than ${hazardousDcV.value} V can remain inside for minutes after unplugging.`,
  ];
}

/** What was left: a sentence, or a heading with its list. */
export interface LeftLine {
  readonly says: string;
  readonly all?: readonly string[];
}
/**
 * What was left: faults with the reason, work that was not done, parts to get, steps that are not proved.
 *
 * @param view the job
 * @param toGet parts that the answers still ask for, a line each
 * @returns sentences and lists; none where nothing was left
 * @source house frame
 */
export function leftOf(view: JobView, toGet: readonly string[]): readonly LeftLine[] {
  const faults = faultsOf(view).flatMap((f) =>
    f.state === "left"
      ? [`${upperFirst(f.label)}: ${f.cause ?? f.words}. Left, since ${f.reason}`]
      : isOpenFault(f) && f.state !== "proved"
        ? [`${upperFirst(f.label)}: ${f.cause ?? f.words}. ${f.state === "mended" ? "Mended, not proved yet" : "Not mended yet"}`]
        : [],
  );
  const notDone = text(view, "handover", "What was not done");
  const mine = view.steps.filter((s) => concerns(s.id, view.set));
  const titles = (state: (s: (typeof mine)[number]) => boolean): readonly string[] =>
    mine.filter(state).map((s) => stepById(s.id)?.title ?? s.id);
  const lists: readonly LeftLine[] = [
    { says: "Parts still to be got and fitted:", all: toGet.map(upperFirst) },
    { says: "To be done again after the work:", all: titles(isDueAgain) },
    { says: "Not done or not proved:", all: titles((s) => !isDueAgain(s) && s.state !== "proven") },
  ];
  const sentences = [...faults, ...(notDone === "" ? [] : [upperFirst(notDone)])];
  return [...sentences.map((says) => ({ says: closed(says) })), ...lists.filter((l) => l.all?.length)];
}
