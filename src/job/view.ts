import { type ChassisState, isSafeToJoin } from "../ask/chassis";
import type { DialPoint } from "../readings/zero-beats";
import { addressAt } from "../set/addresses";
import { stripAsFitted } from "../set/as-fitted";
import type { Bench } from "../set/bench";
import { rowsFromStore } from "../set/columns";
import type { SetDescription, StoredRow } from "../set/describe";
import { putMember } from "../set/members";
import { lookUp, putValue, quantityAt } from "../set/paths";
import { plannedConverter } from "../set/patterns/build";
import type { DescribedStrip } from "../set/strip";
import type { Estimate } from "../units/draws";
import { rowsOn, writingOn } from "./cards";
import { type ChassisGround, changesGround, chassisFrom, groundOf } from "./chassis-proof";
import type { Due, Entry, EntryOf, Instrument, JobDocument, Reading } from "./document";
import { formatName, formatVersion, isFromElsewhere } from "./format";
import { workKindById } from "./ripple";
import { insulationFails, recordedSteps, recordIssues } from "./safety-record";
import { safetyBefore, stepById, steps } from "./steps";

export type StepState = "untouched" | "found" | "in work" | "due again" | "proven";
export interface DueNow extends Due {
  /** the work that made it due, by entry */
  readonly because: string;
  readonly at: string;
}
export interface StepView {
  readonly id: string;
  readonly state: StepState;
  readonly due: readonly DueNow[];
}

/** The reading that an entry is, or was fitted to. */
function readingOf(view: JobView, e: Entry): string | undefined {
  if (e.kind === "reading") return e.reading.id;
  if (e.kind === "estimate") return e.estimate.fromReadings[0];
  if (e.kind !== "values") return undefined;
  return e.fit === undefined ? undefined : view.estimates.get(e.fit)?.fromReadings[0];
}

/**
 * Entries that fall together when one is taken back: with a reading the fit made of it, with a part of a fit the whole fit.
 *
 * @param view the job as it stands
 * @param entry the one to take back
 * @param whole whether a part of a fit takes its reading along
 * @returns entries in force, in order, `entry` among them
 * @source house frame
 */
export function fallWith(view: JobView, entry: Entry, whole = false): readonly Entry[] {
  const act = entry.kind === "work" ? entry.id : entry.partOf;
  // a piece of work and what it changed of the record are one act
  const together = act === undefined ? [] : view.inForce.filter((e) => e.id === act || e.partOf === act);
  if (together.length > 0) return together;
  const reading = readingOf(view, entry);
  if (reading === undefined) return [entry];
  return view.inForce.filter((e) => readingOf(view, e) === reading && (whole || entry.kind === "reading" || e.kind !== "reading"));
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
  for (let i = entries.length - 1; i >= 0; i--) {
    const e = entries[i];
    if (e.kind === "correction" && !out.has(e.id)) out.set(e.supersedes, e.id);
  }
  return out;
}

/** Safety steps that hand-over rests on. */
const underHandOver: readonly string[] = ["02", "03", "04", "08", "35"];

/**
 * Folds a job's entries into its state.
 *
 * @param document the job
 * @returns set with kept values, readings and estimates in force, state of every step
 * @source house frame, docs/job-format.md
 */
export function viewOf(document: JobDocument): JobView {
  const superseded = supersededBy(document.entries);
  const inForce = document.entries.filter((e) => !superseded.has(e.id));
  const instruments = new Map<string, Instrument>();
  const readings: Reading[] = [];
  const estimates = new Map<string, Estimate>();
  const works: EntryOf<"work">[] = [];
  const kept = new Map<string, string>();
  const found = new Set<string>();
  const begun = new Set<string>();
  const proven = new Set<string>();
  const due = new Map<string, DueNow[]>();
  let act: EntryOf<"chassis"> | undefined;
  let fell: string | undefined;
  const set = structuredClone(document.set);
  // a job from before converters were known can plan one too
  if (!set.fittings.some((f) => f.kind === plannedConverter.kind)) set.fittings.push(structuredClone(plannedConverter));
  const put = (path: string, value: unknown, id: string): void => {
    putValue(set, path, value);
    kept.set(path, id);
  };
  // a proof falls with any fact that it rested on, whichever face changed it
  const shake = (e: EntryOf<"fact"> | EntryOf<"values">): void => {
    const path = act && isSafeToJoin(act.state) ? changesGround(set, e) : undefined;
    if (path === undefined) return;
    act = undefined;
    fell = `${path} was changed on ${e.at.slice(0, 10)}, after it was proved`;
  };
  for (const e of inForce) {
    switch (e.kind) {
      case "instrument":
        instruments.set(e.instrument.id, e.instrument);
        break;
      case "reading":
        readings.push(e.reading);
        if (e.reading.state === "as-found") found.add(e.reading.step);
        else begun.add(e.reading.step);
        break;
      case "estimate":
        estimates.set(e.estimate.id, e.estimate as Estimate);
        break;
      case "values":
        shake(e);
        for (const [path, q] of Object.entries(e.values)) put(path, q, e.id);
        break;
      case "chassis":
        // what was proved elsewhere proves nothing here
        if (!isFromElsewhere(e) || !isSafeToJoin(e.state)) {
          act = e;
          fell = undefined;
        }
        break;
      case "fact":
        shake(e);
        put(e.path, e.value, e.id);
        break;
      case "rows":
        put(e.path, e.rows, e.id);
        break;
      case "work": {
        works.push(e);
        const kind = workKindById(e.work);
        // work done again is begun, not proved: its old proof and what was due of it fall
        if (kind?.does) {
          begun.add(kind.does);
          proven.delete(kind.does);
          due.delete(kind.does);
        }
        if (kind?.makesFitting && e.subject.startsWith("fittings.")) put(`${e.subject}.state`, kind.makesFitting, e.id);
        // hand-over falls with what it rests on, and is said anew once that is proved again
        if (e.makes.some((d) => underHandOver.includes(d.target)) && proven.delete("36")) begun.add("36");
        // what was proved of the chassis tells nothing after work on the line side
        if (act && isSafeToJoin(act.state) && e.makes.some((d) => d.target === "03")) act = undefined;
        for (const d of e.makes) {
          due.set(d.target, [...(due.get(d.target) ?? []).filter((x) => x.task !== d.task), { ...d, because: e.id, at: e.at }]);
          begun.add(d.target);
        }
        break;
      }
      case "done":
        if (isFromElsewhere(e) && recordedSteps.some((s) => s === e.step)) {
          begun.add(e.step);
          break;
        }
        proven.add(e.step);
        due.delete(e.step);
        break;
      case "described":
        putMember(set, e.list, e.member, e.as, e.after);
        break;
      case "fault":
      case "part":
      case "sitting":
      case "standing":
      case "waiting":
      case "form":
      case "attachment":
      case "correction":
        break;
    }
  }
  const ground = groundOf(document.set, inForce);
  const claimed = chassisFrom(set, ground, act);
  // an insulation that fails is the line on the chassis, whatever was proved before
  const chassis = claimed === "isolated" && insulationFails(inForce) ? "unstated" : claimed;
  // what can kill is proved by its record alone: said to be done without it, it is begun
  const held = (id: string): boolean =>
    proven.has(id) &&
    recordIssues({ inForce, set, chassis, created: document.created, ...(fell ? { chassisFell: fell } : {}) }, id).length === 0 &&
    safetyBefore(id).every((n) => proven.has(n) || due.has(n));
  for (const { id } of steps)
    if (proven.has(id) && !held(id)) {
      proven.delete(id);
      begun.add(id);
    }
  const stateOf = (id: string): StepState =>
    due.has(id) ? "due again" : proven.has(id) ? "proven" : begun.has(id) ? "in work" : found.has(id) ? "found" : "untouched";
  const stepViews = steps.map((s) => ({ id: s.id, state: stateOf(s.id), due: due.get(s.id) ?? [] }));
  return {
    document,
    created: document.created,
    set,
    inForce,
    superseded,
    instruments: [...instruments.values()],
    readings,
    estimates,
    works,
    steps: stepViews,
    chassis,
    ground,
    ...(fell ? { chassisFell: fell } : {}),
    kept,
  };
}

/** So much of a card's field is looked at where a sheet reads a figure or a kind out of it. */
const longestCell = 200;
/** A path without the set-point that a band may be asked about at: `bands.80:3.5 MHz.low` is `bands.80.low`. */
const withoutSetPoint = (path: string): string => path.replace(/^(bands\.[^.:]+):.*?(?=\.[A-Za-z]+$|$)/, "$1");

/** Readings of a band's dial as it stands: those from before work that moved it tell of a dial that is no more. */
function dialReadings(view: JobView, band: string): readonly Reading[] {
  const moved = view.inForce.findLastIndex(
    (e) =>
      e.kind === "work" && workKindById(e.work)?.movesDial === true && (!e.subject.startsWith("bands.") || e.subject === `bands.${band}`),
  );
  const since = new Set(view.inForce.slice(moved + 1).flatMap((e) => (e.kind === "reading" ? [e.reading.id] : [])));
  return view.readings.filter((r) => r.as === "dial" && r.band === band && (moved < 0 || since.has(r.id)));
}
/** Set-points of a band with zero beats of its dial as it stands, the latest first. */
export function setPointsOf(view: JobView, band: string): readonly string[] {
  return [
    ...new Set(
      dialReadings(view, band)
        .map((r) => r.setPoint ?? "")
        .reverse(),
    ),
  ];
}

/** A zero beat in force, and where it stands: which reading of the job, and which of its rows. */
export interface RecordedBeat extends DialPoint {
  readonly readingId: string;
  readonly row: number;
  /** how many zero beats the reading holds */
  readonly ofCount: number;
}
/** Zero beats of a band's dial as it stands, in the order in which they were taken, each with the reading that holds it. */
export function dialBeats(view: JobView, at: string): readonly RecordedBeat[] {
  const [, band, named] = /^bands\.([^.:]+)(?::(.*))?$/.exec(at) ?? [];
  const setPoint = named ?? setPointsOf(view, band ?? "")[0];
  return dialReadings(view, band ?? "").flatMap((r) =>
    (r.setPoint ?? "") === setPoint
      ? (r.columns.reading ?? []).map((reading, row, all) => ({
          reading,
          frequencyHz: r.columns.frequencyHz?.[row] ?? Number.NaN,
          approach: Math.sign(r.columns.approach?.[row] ?? 0) as DialPoint["approach"],
          readingId: r.id,
          row,
          ofCount: all.length,
        }))
      : [],
  );
}
/** Zero beats in force on a band, in the order in which they were taken. */
export const dialPoints = (view: JobView, at: string): readonly DialPoint[] =>
  dialBeats(view, at).map(({ reading, frequencyHz, approach }) => ({ reading, frequencyHz, approach }));

/** Readings with figures of their own, and, in a line each, the dials whose zero beats stand for themselves. */
export function readingsAndDials(view: JobView): { readonly readings: readonly Reading[]; readonly dials: readonly string[] } {
  const dials = view.set.bands.flatMap((b) =>
    setPointsOf(view, b.id).map((p) => {
      const count = dialPoints(view, `bands.${b.id}:${p}`).length;
      const invented = view.readings.some(
        (r) => r.as === "dial" && r.band === b.id && (r.setPoint ?? "") === p && r.invented !== undefined,
      );
      return `${count} zero beat${count === 1 ? "" : "s"} on ${b.label}${p ? `, main dial at ${p}` : ""}${invented ? ", INVENTED" : ""}`;
    }),
  );
  return { readings: view.readings.filter((r) => r.as !== "dial"), dials };
}

/** The view of the job that sheets may ask. */
export function benchOf(view: JobView, at: string): Bench {
  const { set } = view;
  return {
    at,
    points: (where) => dialPoints(view, where),
    card: (id) =>
      rowsOn(view, id).map((row) => Object.fromEntries(Object.entries(row).map(([c, text]) => [c, text.slice(0, longestCell)]))),
    cardField: (id, field) => writingOn(view, id).get(field)?.text.slice(0, longestCell),
    tubes: () => set.tubes,
    stageKinds: () => set.stages.map((stage) => stage.kind),
    bands: () => set.bands.map((b) => ({ label: b.label, low: b.low.value, high: b.high.value, oscillator: b.oscillator })),
    quantity: (path) => quantityAt(set, withoutSetPoint(path)),
    choice: (path) => {
      if (path === "chassis") return view.chassis;
      if (path === "readings.reach60dB")
        return view.readings.some((r) => r.as === "if-sweep" && r.figures.some((f) => f.name === "width at -60 dB" && f.quantity))
          ? "yes"
          : "no";
      const x = lookUp(set, withoutSetPoint(path));
      return typeof x === "string" ? x : undefined;
    },
    rows: (path) => {
      const stored = lookUp(set, withoutSetPoint(path));
      const at = addressAt(withoutSetPoint(path));
      return Array.isArray(stored) && at?.kind === "list" ? rowsFromStore(stored as readonly StoredRow[], at.columns) : undefined;
    },
    strip: () => set.strip as unknown as DescribedStrip,
    stripAsFitted: () => stripAsFitted(set),
    estimate: (id) => view.estimates.get(id),
  };
}

/** Bench of a described set that is no job, its chassis as described: for studies and tests. In a job the chassis is proved. */
export function benchOfSet(set: SetDescription, at: string): Bench {
  const view = viewOf({ format: formatName, version: formatVersion, id: "none", name: set.pattern, created: "", set, entries: [] });
  const { state, isolation } = set.chassis;
  return benchOf({ ...view, chassis: state === "live" && isolation === "proved-dead" ? "live-proved-dead" : state }, at);
}

/** Paths of the subjects that a sheet may be asked about in this set. */
export function subjectsOf(set: SetDescription, subject: string, fitting?: string, stageKinds?: readonly string[]): string[] {
  if (subject === "fitting") return set.fittings.filter((f) => fitting === undefined || f.kind === fitting).map((f) => `fittings.${f.id}`);
  if (subject === "stage")
    return set.stages.filter((s) => stageKinds === undefined || stageKinds.includes(s.kind)).map((s) => `stages.${s.id}`);
  if (subject === "band") return set.bands.map((b) => `bands.${b.id}`);
  if (subject === "tube") return set.tubes.map((t) => `tubes.${t.socket}`);
  return [""];
}

/** Subjects of a sheet in a job: with each band its set-points, where several have zero beats; bands with zero beats first. */
export function subjectsIn(
  view: JobView,
  sheet: {
    readonly subject: string;
    readonly fitting?: string;
    readonly stageKinds?: readonly string[];
    readonly keptRows?: readonly string[];
  },
): string[] {
  const known = subjectsOf(view.set, sheet.subject, sheet.fitting, sheet.stageKinds);
  if (sheet.subject !== "band") return known;
  const all = known.map((at) => ({ at, points: setPointsOf(view, at.slice("bands.".length)) }));
  const named = ({ at, points }: (typeof all)[number]): string[] => [at, ...(points.length > 1 ? points.map((p) => `${at}:${p}`) : [])];
  // what a person read for this very sheet comes first, then bands with zero beats
  const read = ({ at }: (typeof all)[number]): number =>
    sheet.keptRows?.some((n) => lookUp(view.set, `${at}.${n}`) !== undefined) ? 2 : 0;
  const rank = (a: (typeof all)[number]): number => read(a) + (a.points.length > 0 ? 1 : 0);
  return [...all].sort((a, b) => rank(b) - rank(a)).flatMap(named);
}

/** A subject as a person calls it. */
export function subjectLabel(set: SetDescription, at: string): string {
  const [, band, point] = /^bands\.([^.:]+)(?::(.*))?$/.exec(at) ?? [];
  if (band !== undefined) {
    const label = set.bands.find((b) => b.id === band)?.label ?? band;
    return point === undefined ? label : `${label}, main dial at ${point || "no set-point"}`;
  }
  return set.fittings.find((f) => `fittings.${f.id}` === at)?.label ?? set.stages.find((s) => `stages.${s.id}` === at)?.label ?? at;
}

export const titleOfStep = (id: string): string => stepById(id)?.title ?? id;
