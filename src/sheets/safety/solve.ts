import type { GroundOn } from "../../ask/contract";
import { lastPreferred } from "../../standards/preferred";

export interface SafetyInputs {
  readonly chassis: string;
  readonly cord: string;
  readonly bypassClass: string;
  readonly touchLimit: string;
  readonly ratedLine: number;
  readonly highLine: number;
  readonly lineFrequency: number;
  readonly secondaryVoltage: number;
  readonly plateWatts: number;
  readonly bypass: number;
  readonly firstCapacitance: number;
  readonly secondCapacitance: number;
  readonly thirdCapacitance: number;
  readonly bleeder: number;
  readonly bond: number | undefined;
  readonly insulation: number | undefined;
  readonly touchOne: number | undefined;
  readonly touchOther: number | undefined;
  readonly connectorVolts: number;
}
export type SafetyNames =
  | "bypassCurrent"
  | "largestBypass"
  | "fuseLow"
  | "fuseHigh"
  | "stored"
  | "noLoad"
  | "falls"
  | "fallsOpen"
  | "bleederPower"
  | "bleederWanted";
export type G = GroundOn<SafetyInputs, SafetyNames>;

/** Largest preferred value that stays under the limit. */
export const allowedF = (g: G): number => lastPreferred(g.figures.largestBypass.low ?? 1e-9, 6);
