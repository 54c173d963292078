import { chassisSaid } from "../../ask/chassis";
import { stateWord } from "../../standards/cautions";
import { momentInWords } from "../../units/day";
import { upperFirst } from "../../units/sentence";
import { crossedIn, sayCrossed } from "../crossed";
import { type Fault, faultsOf, isOpenFault } from "../faults/faults";
import { faultInShort } from "../faults/in-short";
import { type Past, sayPast, unsettled } from "../history/history";
import { stepCounts } from "../open-steps";
import { sayEntry } from "../say-entry";
import { hoursAway, overdueWaits, signerOf, standingOf, waitingFor } from "../sitting";
import type { JobView } from "../view";
import { type Foremost, foremost, inSentence } from "./foremost";

/** A line of what a person reads on sitting down again. */
export interface WhereLine {
  readonly head: "The set" | "Last" | "Wrong" | "Waiting" | "Next" | "Care";
  readonly says: string;
}
const powerSaid = { unplugged: "unplugged", off: "switched off, plugged in", on: "ON" } as const;

function setSays(view: JobView): string {
  const left = standingOf(view);
  const chassis = `Chassis ${chassisSaid[view.chassis]}.`;
  if (!left) return `How it was left is not on record: treat it as plugged in and charged. ${chassis}`;
  const { power, case: box, clipped, at } = left.entry;
  const worked =
    left.since > 0 ? ` ${left.since} ${left.since === 1 ? "entry" : "entries"} recorded since: check before you trust it.` : "";
  return `Left ${powerSaid[power]}, case ${box}${clipped ? `; clipped on or lifted: ${clipped}` : ""} (${momentInWords(at)}).${worked} ${chassis}`;
}
const ago = (hours: number): string => (hours < 48 ? `${Math.round(hours)} hours` : `${Math.round(hours / 24)} days`);
/** What does not hold any more after so long: asked again, and measured again before a hand goes in. */
function staleSays(view: JobView, now: string): string {
  const hours = hoursAway(view, now);
  if (hours === undefined) return "";
  const on = standingOf(view)?.entry.power === "on" ? " It was left ON: look before anything else." : "";
  return `Last at it ${ago(hours)} ago: no warm-up or soak counts any more; meter, line, warm or cold are asked again (sit down).${on} `;
}
/** What has had its time while nobody was there. */
function waitSays(view: JobView, now: string): string {
  const over = overdueWaits(view, now).map(
    (w) => `${w.for} was due ${momentInWords(w.until ?? "")}: has it come? A warm-up or soak begins anew if the set was off`,
  );
  const waits = waitingFor(view, now).map((w) => `${w.for}${w.until ? `, until ${momentInWords(w.until)}` : ""}`);
  const all = [...over, ...waits];
  return all.length === 0 ? "For nothing." : `${all.join("; ")}.`;
}
/** After so long the charge is not what it was, nor whether it was drained: the first thing before a hand goes in. */
const chargeAgain = "Unplug the set, discharge its capacitors and MEASURE them again: how they were left proves nothing now.";
function lastSays(view: JobView): string {
  const left = standingOf(view);
  const own = view.inForce.findLast((e) => !["standing", "correction", "sitting", "waiting"].includes(e.kind));
  const doing = left && left.entry.doing !== "" ? `Was doing: ${left.entry.doing}. ` : "";
  return own
    ? `${doing}${upperFirst(sayEntry(view.set, own))} (${momentInWords(own.at)}, ${signerOf(view, own)}).`
    : `${doing}Nothing recorded yet.`;
}
const shortly = (f: Fault): string => `${faultInShort(f)} (${f.state})`;
/** Open faults, the one that is acted on first. */
function wrongSays(faults: readonly Fault[], acted: string | undefined, past: readonly Past[]): string {
  const known = faults.filter(isOpenFault);
  const open = [...known.filter((f) => f.place === acted), ...known.filter((f) => f.place !== acted)];
  const [first, ...others] = past;
  const old = first ? ` From its past, not settled: ${sayPast(first)}${others.length > 0 ? `, and ${others.length} more` : ""}.` : "";
  if (open.length === 0) return `No open fault on record.${old}`;
  const shown = open.slice(0, 2).map(shortly).join("; ");
  return `${shown}${open.length > 2 ? `; and ${open.length - 2} more` : ""}.${old}`;
}
/** The next act: of the fault that is in hand, with the step that follows; else the step. */
function nextSays({ act, items, wants, waited }: Foremost): string {
  const [step] = items;
  if (act)
    return `${upperFirst(act.task)} (${stateWord[wants]}).${step ? ` After that: ${inSentence(step.task)} (step ${step.step}).` : ""}`;
  if (!step) return "Nothing: it can go home.";
  return `${step.task} (step ${step.step}; ${stateWord[wants]})${waited ? `, once this has come: ${waited}` : ""}.`;
}

/**
 * Where things stand, in six lines, for somebody who sits down again: how the set was left, what was done last, what is wrong, what is waited for, what
 * comes next, and what to heed before it.
 *
 * @param view the job
 * @param now ISO 8601
 * @returns the lines, in order
 * @source house frame
 */
export function whereOf(view: JobView, now: string): readonly WhereLine[] {
  const next = foremost(view, now);
  const past = unsettled(view);
  const { proved, due, all } = stepCounts(view);
  return [
    { head: "The set", says: `${staleSays(view, now)}${setSays(view)}` },
    { head: "Last", says: lastSays(view) },
    { head: "Wrong", says: [...crossedIn(view).map(sayCrossed), wrongSays(faultsOf(view), next.faulty, past)].join(" ") },
    {
      head: "Waiting",
      says: waitSays(view, now),
    },
    {
      head: "Next",
      says: `${nextSays(next)} ${proved} of ${all} steps proved, ${due} due again.`,
    },
    {
      head: "Care",
      says:
        [
          ...(hoursAway(view, now) === undefined ? [] : [chargeAgain]),
          ...[...past.slice(0, 1).map((p) => p.until), ...next.cautions.map((c) => c.says)].slice(0, past.length > 0 ? 3 : 2),
        ].join(" ") || "Nothing beyond the usual cautions.",
    },
  ];
}
