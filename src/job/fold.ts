import type { ChassisState } from "../ask/chassis";
import type { SetDescription } from "../set/describe";
import { plannedConverter } from "../set/patterns/build";
import type { Estimate } from "../units/draws";
import { bothStates, statesLacking } from "./accessory-states";
import { type ChassisGround, chassisFrom, groundOf } from "./chassis-proof";
import type { Entry, EntryOf, Instrument, JobDocument, Reading } from "./document";
import { type DueNow, type Folding, foldEntry } from "./fold-entry";
import { historyNow } from "./history/card";
import { ofKind } from "./place-in";
import { insulationFails, recordIssues } from "./safety-record";
import { safetyBefore, stepById, steps } from "./steps";

export type StepState = "untouched" | "found" | "in work" | "due again" | "proven";
export interface StepView {
  readonly id: string;
  readonly state: StepState;
  readonly due: readonly DueNow[];
}

/** What a job amounts to now: everything recorded, folded in order, superseded entries left out. */
export interface JobView {
  readonly document: JobDocument;
  /** when the job was made, ISO 8601 */
  readonly created: string;
  readonly set: SetDescription;
  readonly inForce: readonly Entry[];
  readonly superseded: ReadonlyMap<string, string>;
  readonly instruments: readonly Instrument[];
  readonly readings: readonly Reading[];
  readonly estimates: ReadonlyMap<string, Estimate>;
  readonly works: readonly EntryOf<"work">[];
  readonly steps: readonly StepView[];
  /** what the chassis counts as: only an act with its evidence, newer than any work on the line side, makes it safe */
  readonly chassis: ChassisState;
  /** what a proof of the chassis rests on */
  readonly ground: ChassisGround;
  /** why the last proof of the chassis fell, where a fact that it rested on was changed since */
  readonly chassisFell?: string;
  /** kept values, by path: which entry put it there */
  readonly kept: ReadonlyMap<string, string>;
}

/** Which entries later corrections supersede; a correction of a correction brings the first one back. */
function supersededBy(entries: readonly Entry[]): Map<string, string> {
  const out = new Map<string, string>();
  for (const e of ofKind(entries, "correction").toReversed()) if (!out.has(e.id)) out.set(e.supersedes, e.id);
  return out;
}

/** A fold that has taken nothing in yet. */
function emptyFold(document: JobDocument, past: Folding["past"]): Folding {
  const set = structuredClone(document.set);
  // a job from before converters were known can plan one too
  if (!set.fittings.some((f) => f.kind === plannedConverter.kind)) set.fittings.push(structuredClone(plannedConverter));
  return {
    set,
    instruments: new Map(),
    readings: [],
    estimates: new Map(),
    works: [],
    kept: new Map(),
    found: new Set(),
    begun: new Set(),
    proven: new Set(),
    done: new Set(),
    due: new Map(),
    shakenMs: Number.NEGATIVE_INFINITY,
    workedMs: new Map(),
    past,
  };
}
/** How every step stands; what can kill, and both states of an accessory, are proved by what was read alone: said to be done without it, it is begun. */
function stepsOf(f: Folding, record: Parameters<typeof recordIssues>[0]): StepView[] {
  const { due, begun, found, proven, done } = f;
  const held = (id: string): boolean =>
    proven.has(id) &&
    recordIssues(record, id).length === 0 &&
    (id !== bothStates || statesLacking(f.set).length === 0) &&
    safetyBefore(id).every((n) => proven.has(n) || due.has(n));
  for (const { id } of steps)
    if (proven.has(id) && !held(id)) {
      proven.delete(id);
      begun.add(id);
    }
  const stateOf = (id: string): StepState =>
    due.has(id) && done.has(id)
      ? "due again"
      : proven.has(id)
        ? "proven"
        : begun.has(id)
          ? "in work"
          : found.has(id)
            ? "found"
            : "untouched";
  return steps.map((s) => ({ id: s.id, state: stateOf(s.id), due: due.get(s.id) ?? [] }));
}

/**
 * Folds a job's entries into its state.
 *
 * @param document the job
 * @returns set with kept values, readings and estimates in force, state of every step
 * @source house frame, docs/job-format.md
 */
export function viewOf(document: JobDocument): JobView {
  const superseded = supersededBy(document.entries);
  // where nothing was taken back they are the same list, with one index
  const inForce = superseded.size === 0 ? document.entries : document.entries.filter((e) => !superseded.has(e.id));
  const f = emptyFold(document, historyNow(inForce));
  for (const e of inForce) foldEntry(f, e);
  const { set, instruments, readings, estimates, works, kept, act, fell } = f;
  const ground = groundOf(document.set, inForce);
  const claimed = chassisFrom(set, ground, act);
  // an insulation that fails is the line on the chassis, whatever was proved before
  const chassis = claimed === "isolated" && insulationFails(inForce) ? "unstated" : claimed;
  const { created } = document;
  return {
    document,
    created,
    set,
    inForce,
    superseded,
    instruments: [...instruments.values()],
    readings,
    estimates,
    works,
    steps: stepsOf(f, { inForce, set, chassis, created, ...(fell ? { chassisFell: fell } : {}) }),
    chassis,
    ground,
    ...(fell ? { chassisFell: fell } : {}),
    kept,
  };
}

export const titleOfStep = (id: string): string => stepById(id)?.title ?? id;
