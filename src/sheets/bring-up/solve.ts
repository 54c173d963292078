import type { GroundOn } from "../../ask/contract";
import type { SupplyInputs } from "../inputs/supply-law";

export const lampSizes = [25, 40, 60, 100, 150, 200] as const;
export interface BringUpInputs extends SupplyInputs {
  readonly chassis: string;
  readonly heaters: "parallel" | "series";
  readonly touchOne: number | undefined;
  readonly touchOther: number | undefined;
  readonly plateWatts: number;
  readonly lampWatts: number;
  readonly lampRated: number;
  readonly setVolts: number | undefined;
  readonly setVoltsNoRectifier: number | undefined;
  readonly heaterRated: number;
}
export type BringUpNames =
  | "setExpected"
  | "currentExpected"
  | "currentShort"
  | "equivalentWatts"
  | "equivalentNoRectifier"
  | "overload"
  | "bPlusExpected"
  | "noLoad"
  | "rippleLast"
  | "lampWanted";
export type G = GroundOn<BringUpInputs, BringUpNames>;
/** Smallest usual lamp with some room over the set's power. Common practice, no source. */
export const lampFor = (watts: number): number => lampSizes.find((w) => w >= 1.3 * watts) ?? 200;
/** Whether the rectifier can be taken out for a reading: a tube in a string of heaters can't, the string would be open. */
export const mayPull = (x: Pick<BringUpInputs, "heaters" | "rectifierType">): boolean =>
  x.heaters === "parallel" || x.rectifierType === "silicon";
/** Whether the readings behind the lamp say stop: with the rectifier in, or already with it out. Nothing across the set is a dead short. */
export function overloads(g: G): { readonly whole: boolean; readonly primary: boolean; readonly clear: boolean; readonly dead: boolean } {
  const x = g.best;
  const pulls = mayPull(x);
  const dead = x.setVolts === 0 || (pulls && x.setVoltsNoRectifier === 0);
  const whole = g.figures.overload.value !== null && g.verdict((_, y) => y.overload > 1.5) !== "no";
  const out = g.figures.equivalentNoRectifier.value !== null;
  const primary = out && g.verdict((i, y) => y.equivalentNoRectifier > 1.1 * i.plateWatts) !== "no";
  return { whole, primary, dead, clear: out && g.verdict((i, y) => y.equivalentNoRectifier < 0.8 * i.plateWatts) === "yes" };
}
/** Touch currents of the record that are over what is allowed, A. */
const overLimit = (x: BringUpInputs): readonly number[] => [x.touchOne ?? 0, x.touchOther ?? 0].filter((a) => a > 0.5e-3);
/** What the record of the safety test says against any power at all. */
export const recordFails = (x: BringUpInputs): boolean => overLimit(x).length > 0;
export const worstTouch = (x: BringUpInputs): number => Math.max(...overLimit(x));
