import { type ChassisState, chassisStates } from "../ask/chassis";
import { chassisIssues } from "../job/chassis-proof";
import type { Entry } from "../job/document";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { withBareDoubt } from "../units/bare";
import { bad, good, type Issue, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import type { Quantity } from "../units/quantity";

/** What a person says who proves a chassis, as typed. */
export interface ChassisSaid {
  readonly state: string;
  readonly ohms?: string;
  readonly voltsOneWay?: string;
  readonly voltsOtherWay?: string;
  readonly transformer?: string;
  readonly meter?: string;
  readonly how?: string;
  /** the state said once more */
  readonly confirm?: string;
}
const figures = [
  ["ohms", "resistance"],
  ["voltsOneWay", "voltage"],
  ["voltsOtherWay", "voltage"],
] as const;

/**
 * The act that says how a chassis stands to the line, as an entry: refused until its evidence holds and it was said once more.
 *
 * @param view the job
 * @param said as typed
 * @param stamp time, person, ids
 * @returns the entry, or everything that is missing or fails
 */
export function chassisAct(view: JobView, said: ChassisSaid, stamp: Stamp): Read<Entry> {
  const state = chassisStates.find((s): s is ChassisState => s === said.state);
  if (!state) return bad("chassis", "not-an-option", said.state, `one of ${chassisStates.join(", ")}`);
  const issues: Issue[] = [];
  const evidence: Record<string, Quantity> = {};
  for (const [name, dimension] of figures) {
    const text = said[name]?.trim() ?? "";
    if (text === "") continue;
    const q = parseQuantity(text, dimension, name);
    const source = said.meter?.trim() || "meter not named";
    if (q.ok) evidence[name] = withBareDoubt({ ...q.value, origin: "measured", source }, { dimension }, { text });
    else issues.push(...q.issues);
  }
  const claim = {
    state,
    evidence,
    meter: said.meter?.trim() ?? "",
    how: said.how?.trim() ?? "",
    transformer: said.transformer?.trim() ?? "",
    confirmed: said.confirm === state,
  };
  issues.push(...chassisIssues(claim, view.ground));
  if (issues.length > 0) return { ok: false, issues };
  return good({ id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "chassis", ...claim });
}
