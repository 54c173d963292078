import { inSeriesF } from "../physics/resonance";
import { type Quantity, standardUncertainty } from "../units/quantity";
import type { SetDescription } from "./describe";
import type { DescribedStrip } from "./strip";

/** What a cable that is fitted but not yet tuned out hangs on its can: Cc in series with C' l, with its uncertainty to first order. */
function hangingCapacitance(values: Readonly<Record<string, Quantity>>, label: string): Quantity | undefined {
  const { cableLength: l, cableCapacitancePerLength: c, couplingCapacitance: cc } = values;
  if (!l || !c || !cc) return undefined;
  const cable = l.value * c.value;
  const value = inSeriesF(cable, cc.value);
  const share = cc.value / (cc.value + cable);
  const ofCable = Math.hypot(standardUncertainty(l.spread) / l.value, standardUncertainty(c.spread) / c.value);
  const u = value * Math.hypot(ofCable * share, (standardUncertainty(cc.spread) / cc.value) * (1 - share));
  return { value, spread: { shape: "normal", u }, origin: "computed", source: `cable of ${label}, fitted, not yet tuned out` };
}

/**
 * The strip as it stands on the bench: with what fitted cables hang on it, until the accessory has been set and the can re-peaked.
 *
 * @source cable capacitance in series with the coupling capacitor
 */
export function stripAsFitted(set: SetDescription): DescribedStrip {
  let strip: DescribedStrip = set.strip;
  for (const fitting of set.fittings) {
    if (fitting.state !== "fitted") continue;
    const at = set.taps.find((t) => t.id === fitting.tap);
    const added = hangingCapacitance(fitting.values as Record<string, Quantity>, fitting.label);
    if (!at || !added) continue;
    strip = { ...strip, cans: strip.cans.map((c, i) => (i === at.can - 1 ? { ...c, addedCapacitance: added } : c)) };
  }
  return strip;
}
