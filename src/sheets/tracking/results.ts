import type { NoValue } from "../contract";
import { noneOf } from "../declare";
import { adjustment, blameSignal, drawnShares, perTurn, type Tracked, type TrackingInputs, trialOf } from "./solve";

export const noReadings: NoValue = { none: "no dial error was read" };
/** What is off in the signal circuit. */
export function signalOf(x: TrackingInputs, t: Tracked, xi: readonly number[]) {
  const found = blameSignal(x, t);
  if (!found) return noneOf(["signalCoilOff", "signalTrimmerOff"] as const, "no peak of the signal circuit was read");
  const [signalCoilOff, signalTrimmerOff] = drawnShares([found.coil[0], found.trimmer[0]], found.factor, xi);
  return { signalCoilOff, signalTrimmerOff };
}
/** The next adjustment of the oscillator, from what is off. */
export function nextOf(x: TrackingInputs, t: Tracked, now: readonly [number, number, number] | undefined) {
  const a = now && adjustment(x, t, now);
  if (!a || !now)
    return noneOf(
      ["slugBy", "trimmerBy", "afterwards", "slugTurns", "trimmerTurns"] as const,
      now ? "no setting brings both marks right" : noReadings.none,
    );
  const turns = (by: number, what: 0 | 1): number | NoValue => {
    const each = perTurn(x, t, now, what);
    return each === undefined || each === 0 ? { none: `no trial turn of the ${trialOf[what]} is recorded` } : by / each;
  };
  return {
    slugBy: a.slugShare,
    trimmerBy: a.trimmerF,
    afterwards: a.leftHz,
    slugTurns: turns(a.slugShare * (1 + now[0]), 0),
    trimmerTurns: turns(a.trimmerF, 1),
  };
}
/** What an IF that was moved does to the dial, and what takes it up. */
export function movedOf(x: TrackingInputs, t: Tracked) {
  if (x.ifMoved === 0) return noneOf(["dialShift", "shiftSlug", "shiftTrimmer", "shiftLeft"] as const, "the IF was not moved");
  const sign = x.oscillator === "above" ? 1 : -1;
  // what setting both marks right would change by itself is the design's, not the shift's
  const [still, a] = [adjustment(x, t, [0, 0, 0], 0), adjustment(x, t, [0, 0, 0], sign * x.ifMoved)];
  const none = { none: "no setting takes it up" };
  return still && a
    ? {
        dialShift: -sign * x.ifMoved,
        shiftSlug: (1 + a.slugShare) / (1 + still.slugShare) - 1,
        shiftTrimmer: a.trimmerF - still.trimmerF,
        shiftLeft: a.leftHz,
      }
    : { dialShift: -sign * x.ifMoved, shiftSlug: none, shiftTrimmer: none, shiftLeft: none };
}
