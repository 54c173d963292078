import type { ChassisState } from "../ask/chassis";
import type { SetDescription } from "../set/describe";
import { insulationLeastOhm, touchLimitOf } from "../standards/touch-current";
import type { Issue } from "../units/issue";
import { printValue } from "../units/print";
import type { EntryOf } from "./document";
import { names } from "./said";

/** Resistance that stands for a body where a chassis is measured to earth. Source: touch-current networks use 1.5 to 2 kΩ; from memory. */
export const bodyOhm = 1500;
/** Most volts across it from a chassis that counts as dead: the strictest touch current allowed. */
export const deadMostV = touchLimitOf("0.5 mA").ampere * bodyOhm;

/** Most that the insulation testers of the trade can show; more is a slip of the unit. Common practice, no source. */
const mostOhm = 1e13;
/** The isolation transformer's rating over the set's own power. Common practice, no source. */
const transformerOver = 1.5;

type Claim = Pick<EntryOf<"chassis">, "state" | "evidence" | "meter" | "how" | "transformer" | "confirmed">;

/**
 * What the act that proves a chassis lacks. To say that it is live, or not known, needs no proof; to say that it may be touched needs what was measured,
 * with which meter, what was traced, and the same said once more.
 *
 * @param c state claimed and its evidence, SI
 * @param set what is described of the supply: a set fed from the line has no transformer of its own to isolate it
 * @returns an issue for each thing that is missing or fails
 * @source insulation and touch-current limits of touch-current.ts
 */
export function chassisIssues(c: Claim, set: Pick<SetDescription, "supplies" | "plateWatts">): Issue[] {
  if (c.state === "live" || c.state === "unstated") return [];
  const out: Issue[] = [];
  const put = (path: string, read: string, expected: string): void => {
    out.push({ path, code: "chassis-not-proved", read, expected });
  };
  const need = (name: string, holds: (v: number) => boolean, read: (v: number) => string, expected: string): void => {
    const q = c.evidence[name];
    if (!q) put(name, "", expected);
    else if (q.origin !== "measured") put(name, q.origin, "a measured value");
    else if (!holds(q.value)) put(name, read(q.value), expected);
  };
  if (c.state === "isolated") {
    if (/from the line/.test(set.supplies.rectifier))
      put(
        "chassis",
        c.state,
        `live or live-proved-dead: this set is described with its rectifier fed from the line (${set.supplies.rectifier}), so it has no transformer of its own`,
      );
    need(
      "ohms",
      (v) => v >= insulationLeastOhm.value && v < mostOhm,
      (v) => printValue(v, "resistance"),
      `at least ${printValue(insulationLeastOhm.value, "resistance")} from each blade of the plug to the chassis, unplugged, switch on: the lower of the two`,
    );
  } else {
    const va = Number(/(\d+(?:[.,]\d+)?)\s*(?:VA|W)\b/i.exec(c.transformer)?.[1]?.replace(",", ".") ?? Number.NaN);
    const least = transformerOver * set.plateWatts.value;
    if (!(va >= least))
      put(
        "transformer",
        c.transformer,
        `the line isolation transformer with its rating, ${printValue(least, "power", least / 20).replace(" W", " VA")} or more for this set`,
      );
    for (const name of ["voltsOneWay", "voltsOtherWay"])
      need(
        name,
        (v) => Math.abs(v) <= deadMostV,
        (v) => printValue(v, "voltage"),
        `at most ${printValue(deadMostV, "voltage")} from chassis to earth across ${printValue(bodyOhm, "resistance")}, set on, behind the transformer`,
      );
  }
  if (!names(c.meter)) put("meter", c.meter, "the meter that was used, by its name");
  if (!names(c.how)) put("how", c.how, "what was traced and how it was measured");
  if (!c.confirmed) put("confirm", "", `"${c.state}" said once more`);
  return out;
}

/**
 * What a chassis counts as, from the description and the acts in force: only an act that holds makes it safe.
 *
 * @param set as described
 * @param act the last act in force
 * @returns its state; live where it is described so, else not proved
 * @source chassisIssues
 */
export function chassisFrom(set: SetDescription, act: Claim | undefined): ChassisState {
  const described = set.chassis.state === "live" ? "live" : "unstated";
  if (!act) return described;
  return chassisIssues(act, set).length === 0 ? act.state : described;
}
