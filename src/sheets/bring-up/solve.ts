import type { GroundOn } from "../contract";

export const lampSizes = [25, 40, 60, 100, 150, 200] as const;
export interface BringUpInputs {
  readonly chassis: string;
  readonly rectifierType: string;
  readonly heaters: "parallel" | "series";
  readonly touchOne: number | undefined;
  readonly touchOther: number | undefined;
  readonly lineVoltage: number;
  readonly ratedLine: number;
  readonly plateWatts: number;
  readonly lampWatts: number;
  readonly lampRated: number;
  readonly setVolts: number;
  readonly setVoltsNoRectifier: number;
  readonly bPlus: number;
  readonly heaterRated: number;
}
export type BringUpNames =
  | "setExpected"
  | "currentExpected"
  | "currentShort"
  | "equivalentWatts"
  | "equivalentNoRectifier"
  | "overload"
  | "lampWanted";
export type G = GroundOn<BringUpInputs, BringUpNames>;
/** Smallest usual lamp with some room over the set's power. Common practice, no source. */
export const lampFor = (watts: number): number => lampSizes.find((w) => w >= 1.3 * watts) ?? 200;
/** Whether the readings behind the lamp say stop: with the rectifier in, or already with it out. */
export function overloads(g: G): { readonly whole: boolean; readonly primary: boolean; readonly clear: boolean } {
  const x = g.best;
  const whole = x.setVolts > 0 && g.figures.overload.value !== null && g.verdict((_, y) => y.overload > 1.5) !== "no";
  const out = x.setVoltsNoRectifier > 0 && g.figures.equivalentNoRectifier.value !== null;
  const primary = out && g.verdict((i, y) => y.equivalentNoRectifier > 1.1 * i.plateWatts) !== "no";
  return { whole, primary, clear: out && g.verdict((i, y) => y.equivalentNoRectifier < 0.8 * i.plateWatts) === "yes" };
}
/** What the record of the safety test says against any power at all. */
export const recordFails = (x: BringUpInputs): boolean => Math.max(x.touchOne ?? 0, x.touchOther ?? 0) > 0.5e-3;
