import { isLiveSet } from "../ask/chassis";
import { planSteps, type SteppedPlan, type SteppedSaid } from "../readings/stepped/plan";
import type { Dimension } from "../units/dimensions";
import { InputError, orThrow } from "../units/issue";
import { parseQuantity } from "../units/parse";

/** A stepped sweep as a person types it. */
export interface SweepTyped extends Pick<SteppedSaid, "holds" | "avc"> {
  readonly from: string;
  readonly to: string;
  readonly points: number;
  readonly level: string;
  readonly most: string;
  readonly settle: string;
  readonly readings: number;
  readonly narrowest: string;
  readonly reads: "ac" | "dc";
  readonly modulation: string;
  readonly tone: string;
  readonly within: string;
}

/**
 * Why earthed instruments may not be joined to a chassis; nothing where they may.
 *
 * @param chassis as it was proved
 */
export const whyNotEarthed = (chassis: string): string | undefined =>
  isLiveSet(chassis)
    ? "a chassis proved isolated: the instruments' cases are earthed, and earth on a live chassis kills or burns; measure it and record what proves it"
    : undefined;

const inSi = (text: string, dimension: Dimension, path: string): number => orThrow(parseQuantity(text, dimension, path)).value;
/**
 * What was asked for, as a plan that can be stepped.
 *
 * @throws {InputError} that names the field
 */
export function planOf(said: SweepTyped): SteppedPlan {
  const percent = Number(said.modulation.replace("%", ""));
  if (!Number.isFinite(percent))
    throw new InputError([
      { path: "--modulation", code: "not-a-number", read: said.modulation, expected: "a depth in per cent, such as 30" },
    ]);
  if (said.reads === "ac" && percent === 0)
    throw new InputError([
      {
        path: "--modulation",
        code: "no-sound",
        read: said.modulation,
        expected: "a depth: an AC meter hears nothing of a plain carrier; --reads dc reads the detector",
      },
    ]);
  return orThrow(
    planSteps({
      fromHz: inSi(said.from, "frequency", "--from"),
      toHz: inSi(said.to, "frequency", "--to"),
      pointsCount: said.points,
      levelDbm: inSi(said.level, "dbm", "--level"),
      mostDbm: inSi(said.most, "dbm", "--most"),
      settleS: inSi(said.settle, "time", "--settle"),
      readingsCount: said.readings,
      holds: said.holds,
      avc: said.avc,
      narrowestHz: inSi(said.narrowest, "frequency", "--narrowest"),
      betweenPointsDb: inSi(said.within, "decibel", "--within"),
      modulation: percent === 0 ? undefined : { percent, toneHz: inSi(said.tone, "frequency", "--tone") },
    }),
  );
}
