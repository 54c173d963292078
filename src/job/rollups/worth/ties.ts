import { resolveInputs, unreadOf } from "../../../ask/resolve";
import { type Mend, type StageWorth, type TestWorth, worthAtStage } from "../../../infer/worth/at-a-stage";
import type { Asked } from "../../../sheets/suspects/ask";
import { fewReadings } from "../../../sheets/suspects/findings";
import { suspects } from "../../../sheets/suspects/sheet";
import { evidenceOf, positiveGrid, rankOf, tolerancesOf } from "../../../sheets/suspects/solve";
import { middle } from "../../../standards/minutes";
import { printChance, printValue } from "../../../units/print";
import { type Fault, faultsOf, isOpenFault } from "../../faults/faults";
import { benchOf, type JobView } from "../../view";
import { type Choice, percent } from "./choice";
import { takesFor } from "./costs";

/** A test that is expected to remove less than this of what is uncertain about the cause is not told. Source: house rule. */
export const leastShare = 0.05;
/** A mend whose chance is less is not told, however cheap. Source: house rule. */
export const leastChance = 0.5;

/** An open fault at a stage whose readings the question on causes takes. */
export interface Sought {
  readonly fault: Fault;
  readonly asked: Asked;
}
/** A fault whose causes can be weighed: minutes to its mend as they are expected, and what is worth doing about it. */
export interface Tie {
  readonly fault: Fault;
  readonly minutes: number;
  readonly choices: readonly Choice[];
}
interface StageTie extends Sought {
  readonly worth: StageWorth;
}
/** States of a fault whose cause is still sought. Source: house rule. */
export const sought: readonly string[] = ["noticed", "being traced", "open again"];

/**
 * Open faults at stages whose causes are sought, with what is asked of them.
 *
 * @param view the job
 * @returns in the order in which they were noticed
 * @source house rule
 */
export function soughtOf(view: JobView): readonly Sought[] {
  return faultsOf(view).flatMap((fault): Sought[] => {
    const id = /^stages\.(.+)$/.exec(fault.place)?.[1];
    const stage = view.set.stages.find((s) => s.id === id);
    if (!isOpenFault(fault) || !sought.includes(fault.state) || !stage || !suspects.stageKinds?.includes(stage.kind)) return [];
    const inputs = resolveInputs(suspects, benchOf(view, fault.place));
    if (!inputs.ok || inputs.value.missing.length > 0 || unreadOf(suspects, inputs.value).length > 0) return [];
    return [{ fault, asked: inputs.value.plain as Asked }];
  });
}
/**
 * Those whose causes can be weighed, each with its tests and mends.
 *
 * @param view the job
 * @param all faults whose causes are sought
 * @returns in their order; none of a stage with too few pins read, or whose readings no single fault explains
 * @source infer/worth
 */
export function tiesOf(view: JobView, all: readonly Sought[]): readonly Tie[] {
  return all.flatMap(({ fault, asked }): Tie[] => {
    const ranking = fewReadings(asked) === undefined ? rankOf(asked) : undefined;
    if (!ranking?.explained) return [];
    const worth = worthAtStage(ranking, tolerancesOf(asked), evidenceOf(asked), {
      test: (t) => middle(takesFor(view, "test", t.id).hands),
      mend: (m) => middle(takesFor(view, "mend", m).hands),
    });
    return [{ fault, minutes: worth.minutes, choices: choicesAt(view, { fault, asked, worth }) }];
  });
}
/**
 * What stops everything else: a grid that stands positive ruins its tube and a transformer while the set is on.
 *
 * @param all faults whose causes are sought
 * @returns in words
 * @source common practice, no source
 */
export const stopsOf = (all: readonly Sought[]): readonly string[] =>
  all.flatMap(({ fault, asked }) => {
    const v = positiveGrid(asked);
    return v === undefined
      ? []
      : [
          `Switch off: the grid at ${fault.label} is at ${printValue(Number(v.toPrecision(3)), "voltage")}, and the tube draws too much. On again only for the reading itself.`,
        ];
  });

const about = (v: number, t: TestWorth): string =>
  t.test.reads === "fraction"
    ? percent(v)
    : t.test.reads === "resistance" && v > 1e8
      ? "over 100 MΩ"
      : printValue(Number(v.toPrecision(2)), t.test.reads);
/** What a test tells, in one line: how much of the cause, and what it should read by the likeliest ones. */
function tells(t: TestWorth): string {
  const reads = t.foretells.map((f) => `${about(f.reads, t)} if ${f.says}`);
  const saves = t.saves >= 1 ? `, and saves about ${Math.round(t.saves)} min of mending` : "";
  return `removes ${percent(t.share)} of the uncertainty about the cause${saves}${reads.length > 0 ? `: ${reads.join(", ")}` : ""}`;
}
const hazards = ["b-plus", "stored-charge"] as const;
function testChoice(view: JobView, { fault }: StageTie, t: TestWorth): Choice {
  const { what, hands, itself } = takesFor(view, "test", t.test.id);
  const value = { resistance: "OHMS", voltage: ", VOLTS", fraction: ", , PART" }[t.test.reads];
  return {
    id: `test:${fault.place}:${t.test.id}`,
    kind: "test",
    does: what,
    place: fault.label,
    why: tells(t),
    how: t.test.how,
    removes: [{ of: `cause of the fault at ${fault.label}`, share: t.share }],
    wants: t.test.state,
    warm: false,
    hazards,
    takes: { hands, itself },
    about: fault.id,
    with: `set JOB "${fault.place}.tests=${t.test.id}, ${value}"`,
  };
}
function mendChoice(view: JobView, { fault, worth }: StageTie, mend: Mend): Choice {
  const { what, hands, itself } = takesFor(view, "mend", mend);
  const chance = worth.mends.find((m) => m.mend === mend)?.chance ?? 0;
  return {
    id: `mend:${fault.place}:${mend}`,
    kind: "mend",
    does: what,
    place: fault.label,
    why: `most likely what is wrong (${printChance(chance)}), and no test saves more time than it takes; you need the part to hand`,
    removes: [{ of: `cause of the fault at ${fault.label}`, share: chance }],
    wants: "open-dead",
    warm: false,
    hazards,
    takes: { hands, itself },
    about: fault.id,
    with: `mend JOB PART --at ${fault.place} --fault ${fault.id}`,
  };
}

/** What is worth doing about it: its tests, and the mend where that comes first. */
function choicesAt(view: JobView, tie: StageTie): readonly Choice[] {
  const { first } = tie.worth.plan;
  const [top] = tie.worth.mends;
  const mend =
    first && "repair" in first && first.repair.id === top.mend && top.chance >= leastChance ? [mendChoice(view, tie, top.mend)] : [];
  return [...mend, ...tie.worth.tests.filter((t) => t.share >= leastShare).map((t) => testChoice(view, tie, t))];
}
