import type { ChassisState } from "../sheets/chassis";
import { insulationLeastOhm, touchLimitOf } from "../standards/touch-current";
import type { Issue } from "../units/issue";
import { printValue } from "../units/print";
import type { EntryOf } from "./document";

/** Resistance that stands for a body where a chassis is measured to earth. Source: touch-current networks use 1.5 to 2 kΩ; from memory. */
export const bodyOhm = 1500;
/** Most volts across it from a chassis that counts as dead: the strictest touch current allowed. */
export const deadMostV = touchLimitOf("0.5 mA").ampere * bodyOhm;

type Claim = Pick<EntryOf<"chassis">, "state" | "evidence" | "meter" | "how" | "transformer" | "confirmed">;

/**
 * What the act that proves a chassis lacks. To say that it is live, or not known, needs no proof; to say that it may be touched needs what was measured,
 * with which meter, what was traced, and the same said once more.
 *
 * @param c state claimed and its evidence, SI
 * @returns an issue for each thing that is missing or fails
 * @source insulation and touch-current limits of touch-current.ts
 */
export function chassisIssues(c: Claim): Issue[] {
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
  if (c.state === "isolated")
    need(
      "ohms",
      (v) => v >= insulationLeastOhm.value,
      (v) => printValue(v, "resistance"),
      `at least ${printValue(insulationLeastOhm.value, "resistance")} from each blade of the plug to the chassis, unplugged, switch on: the lower of the two`,
    );
  else {
    if (c.transformer.trim() === "") put("transformer", "", "the line isolation transformer: its rating");
    for (const name of ["voltsOneWay", "voltsOtherWay"])
      need(
        name,
        (v) => Math.abs(v) <= deadMostV,
        (v) => printValue(v, "voltage"),
        `at most ${printValue(deadMostV, "voltage")} from chassis to earth across ${printValue(bodyOhm, "resistance")}, set on, behind the transformer`,
      );
  }
  if (c.meter.trim() === "") put("meter", "", "the meter that was used");
  if (c.how.trim() === "") put("how", "", "what was traced and how it was measured");
  if (!c.confirmed) put("confirm", "", `"${c.state}" said once more`);
  return out;
}

/**
 * A set that rectifies the line itself has no transformer between the two: no ohms prove it isolated, and what is joined to it meets the line.
 *
 * @param c state claimed
 * @param rectifier what rectifies, as the set is described
 * @returns an issue where the one speaks against the other
 * @source a half-wave supply's return is one side of the line
 */
export function supplyIssues(c: Pick<Claim, "state">, rectifier: string): Issue[] {
  if (c.state !== "isolated" || !/from the line/i.test(rectifier)) return [];
  const expected =
    "live-proved-dead, behind a line isolation transformer: this set rectifies the line itself, without a transformer of its own. Where that is wrong, first record what rectifies (supplies.rectifier)";
  return [{ path: "chassis", code: "no-transformer", read: c.state, expected }];
}

/** What a chassis counts as, from the set as described and the acts in force: only an act that holds makes it safe. */
export const chassisFrom = (
  set: { readonly chassis: { readonly state: string }; readonly supplies: { readonly rectifier: string } },
  act: Claim | undefined,
): ChassisState => {
  if (!act) return set.chassis.state === "live" ? "live" : "unstated";
  return chassisIssues(act).length + supplyIssues(act, set.supplies.rectifier).length === 0 ? act.state : "unstated";
};
