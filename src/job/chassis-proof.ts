import type { ChassisState } from "../ask/chassis";
import { itself } from "../set/addresses/power";
import { safety } from "../set/addresses/safety";
import type { SetDescription } from "../set/describe";
import { lookUp, quantityAt } from "../set/paths";
import { insulationLeastOhm, touchLimitOf } from "../standards/touch-current";
import type { Issue } from "../units/issue";
import { printValue } from "../units/print";
import type { Quantity } from "../units/quantity";
import type { Entry, EntryOf } from "./document";
import { ofKind } from "./place-in";
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

/** Facts and values of the set that say how its chassis stands to the line: a proof holds for them as they were, and falls when one changes. */
const underProof: readonly string[] = [
  "supplies.rectifier",
  ...[safety.cord, safety.bypass, safety.bypassClass, itself.plateWatts].map((s) => s.address),
];

/** All that a proof of the chassis rests on of the description: every word in force, the earlier ones too, since a doubt once said stays. */
export interface ChassisGround {
  readonly rectifiers: readonly string[];
  /** W, the most that was said */
  readonly plateWatts: number;
}

/**
 * What the description, and everything said since, gives a proof of the chassis to rest on.
 *
 * @param first the set as it was first described
 * @param inForce entries in force
 * @returns every rectifier that was said, and the most watts: of an assumed figure only where no other was said
 * @source house frame
 */
export function groundOf(first: SetDescription, inForce: readonly Entry[]): ChassisGround {
  const said = ofKind(inForce, "values").flatMap((e) => (Object.hasOwn(e.values, "plateWatts") ? [e.values.plateWatts as Quantity] : []));
  const watts = [first.plateWatts as Quantity, ...said];
  const sure = watts.filter((q) => q.origin !== "assumed");
  return {
    rectifiers: [first.supplies.rectifier, ...ofKind(inForce, "fact").flatMap((e) => (e.path === "supplies.rectifier" ? [e.value] : []))],
    plateWatts: Math.max(...(sure.length > 0 ? sure : watts).map((q) => q.value)),
  };
}
/** The first rectifier said that is fed from the line; undefined where none was. */
export const fedFromLine = (ground: Pick<ChassisGround, "rectifiers">): string | undefined =>
  ground.rectifiers.find((r) => /from the line/i.test(r));

/**
 * Which of the facts that a proof of the chassis rests on an entry changes: what was only assumed, or not said at all, is said by it and not changed.
 *
 * @param set as it stood before the entry
 * @param e the entry
 * @returns the path; undefined where none is changed
 * @source house frame
 */
export function changesGround(set: SetDescription, e: EntryOf<"fact"> | EntryOf<"values">): string | undefined {
  const now: readonly (readonly [string, unknown])[] = e.kind === "fact" ? [[e.path, e.value]] : Object.entries(e.values);
  return now.find(([path, value]) => {
    if (!underProof.includes(path)) return false;
    const before = quantityAt(set, path);
    if (before) return before.origin !== "assumed" && before.value !== (value as Quantity).value;
    const word = lookUp(set, path);
    return typeof word === "string" && word !== value;
  })?.[0];
}

/**
 * What the act that proves a chassis lacks. To say that it is live, or not known, needs no proof; to say that it may be touched needs what was measured,
 * with which meter, what was traced, and the same said once more.
 *
 * @param c state claimed and its evidence, SI
 * @param ground what was said of the supply: a set fed from the line has no transformer of its own to isolate it
 * @returns an issue for each thing that is missing or fails
 * @source insulation and touch-current limits of touch-current.ts
 */
export function chassisIssues(c: Claim, ground: ChassisGround): Issue[] {
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
    const fed = fedFromLine(ground);
    if (fed !== undefined)
      put(
        "chassis",
        c.state,
        `live or live-proved-dead: this set ${ground.rectifiers.at(-1) === fed ? "is" : "was first"} described with its rectifier fed from the line (${fed}), so it has no transformer of its own${ground.rectifiers.at(-1) === fed ? "" : "; saying otherwise later does not settle it. Take back the entry that said it, or make a job of the set as it is"}`,
      );
    need(
      "ohms",
      (v) => v >= insulationLeastOhm.value && v < mostOhm,
      (v) => printValue(v, "resistance"),
      `at least ${printValue(insulationLeastOhm.value, "resistance")} from each blade of the plug to the chassis, unplugged, switch on: the lower of the two`,
    );
  } else {
    const va = Number(/(\d+(?:[.,]\d+)?)\s*(?:VA|W)\b/i.exec(c.transformer)?.[1]?.replace(",", ".") ?? Number.NaN);
    const least = transformerOver * ground.plateWatts;
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
  if (!names(c.how)) put("how", c.how, "what you traced and how you measured it");
  if (!c.confirmed) put("confirm", "", `"${c.state}" said once more`);
  return out;
}

/**
 * What a chassis counts as, from the description and the acts in force: only an act that holds makes it safe.
 *
 * @param set as described
 * @param ground what the description and every later word give it to rest on
 * @param act the last act in force
 * @returns its state; live where it is described so, else not proved
 * @source chassisIssues
 */
export function chassisFrom(set: SetDescription, ground: ChassisGround, act: Claim | undefined): ChassisState {
  const described = set.chassis.state === "live" ? "live" : "unstated";
  if (!act) return described;
  return chassisIssues(act, ground).length === 0 ? act.state : described;
}
