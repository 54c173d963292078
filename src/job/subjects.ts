import type { SetDescription } from "../set/describe";
import { lookUp } from "../set/paths";
import { setPointsOf } from "./dial-beats";
import type { JobView } from "./fold";

/**
 * Paths of the subjects that a sheet may be asked about in this set.
 *
 * @param subject kind of subject: fitting, stage, band, tube or set
 * @param fitting kind of fitting, where only one will do
 * @param stageKinds kinds of stage, where only some will do
 * @returns paths in the order of the set; one empty path for the whole set
 * @source house frame
 */
export function subjectsOf(set: SetDescription, subject: string, fitting?: string, stageKinds?: readonly string[]): string[] {
  if (subject === "fitting") return set.fittings.filter((f) => fitting === undefined || f.kind === fitting).map((f) => `fittings.${f.id}`);
  if (subject === "stage")
    return set.stages.filter((s) => stageKinds === undefined || stageKinds.includes(s.kind)).map((s) => `stages.${s.id}`);
  if (subject === "band") return set.bands.map((b) => `bands.${b.id}`);
  if (subject === "tube") return set.tubes.map((t) => `tubes.${t.socket}`);
  return [""];
}

/**
 * Subjects of a sheet in a job: with each band its set-points, where several have zero beats; bands with zero beats first.
 *
 * @returns paths, the one to take where none is said first
 * @source house frame
 */
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

/**
 * A subject as a person calls it.
 *
 * @source house format
 */
export function subjectLabel(set: SetDescription, at: string): string {
  const [, band, point] = /^bands\.([^.:]+)(?::(.*))?$/.exec(at) ?? [];
  if (band !== undefined) {
    const label = set.bands.find((b) => b.id === band)?.label ?? band;
    return point === undefined ? label : `${label}, main dial at ${point || "no set-point"}`;
  }
  return set.fittings.find((f) => `fittings.${f.id}` === at)?.label ?? set.stages.find((s) => `stages.${s.id}` === at)?.label ?? at;
}
