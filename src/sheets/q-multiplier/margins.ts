import type { NoValue } from "../../ask/results";
import { type Feedback, feedbackConductanceS, seriesResistanceOhm } from "../../physics/q-multiplier";
import type { Plate } from "../inputs/multiplier-plate";
import type { MultiplierInputs } from "./ask";

const off: NoValue = { none: "regeneration is off" };
const cannotReach: NoValue = { none: "the tube cannot regenerate that far" };

/**
 * How far the setting is from oscillation, there, over the tuning and with the line's rise.
 *
 * @param plate the strip, loaded; the tank hangs there afterwards, tuned to the setting, without regeneration
 * @param x plain inputs, SI
 * @returns S, ohm, ratios and parts; what does not apply says why
 * @source src/physics/q-multiplier.ts
 */
export function margins(plate: Plate, x: MultiplierInputs) {
  const tuned = x.strip.intermediateFrequency + x.tuningOffset;
  const low = plate.hang(x, tuned - x.tuningRange, 0).criticalS;
  const high = plate.hang(x, tuned + x.tuningRange, 0).criticalS;
  const critical = plate.hang(x, tuned, 0).criticalS;
  const across = Math.min(low / critical, high / critical, 1);
  const feedback = { dividerRatio: x.dividerRatio, transconductanceS: x.transconductance, amplificationRatio: x.amplificationFactor };
  const series = seriesResistanceOhm(feedback, x.regeneration * critical);
  const none = x.regeneration === 0 ? off : undefined;
  return {
    criticalConductance: critical,
    seriesResistance: none ?? (series >= 0 ? series : cannotReach),
    reachesOscillation: feedbackConductanceS(feedback, 0) / critical,
    regenerationMargin: none ?? 1 / x.regeneration - 1,
    oscillationAcrossTuning: none ?? across / x.regeneration - 1,
    survivingRegeneration: survivingPart(feedback, critical, across, (1 + x.lineChange) ** x.gmLineExponent),
  };
}
/**
 * The highest part of the oscillation point that neither the tuning nor the tube's rise takes into oscillation: the series resistance that the
 * risen tube would just oscillate with at the worst end, and what the tube makes of it as it is.
 */
function survivingPart(feedback: Feedback, criticalS: number, across: number, rise: number): number {
  const risen = { ...feedback, transconductanceS: feedback.transconductanceS * rise };
  const ohm = Math.max(0, seriesResistanceOhm(risen, across * criticalS));
  return Math.min(across, feedbackConductanceS(feedback, ohm) / criticalS);
}
