import type { ResonanceFit } from "../../infer/resonance/fit";
import { printValue } from "../../units/print";
import { standardUncertainty } from "../../units/quantity";
import { type FigureRow, plain } from "./figures";

/** Figures of a resonance that was fitted to a sweep. */
export const resonanceRows = (r: ResonanceFit, name: string): FigureRow[] => [
  plain("resonance, fitted", "frequency", r.centreHz, name, r.centreU),
  plain("loaded Q, fitted", "ratio", r.loadedQ, name, r.loadedQU),
  plain("width, fitted", "frequency", r.widthHz, name, (r.widthHz * r.loadedQU) / r.loadedQ),
  ...(r.unloaded
    ? [
        plain("unloaded Q, fitted", "ratio", r.unloaded.q, name, r.unloaded.qU),
        plain("coupling of the loop, fitted", "ratio", r.unloaded.coupling, name, r.unloaded.couplingU),
      ]
    : []),
];
/** What is odd about a fit of a resonance: misses beyond the noise, and a Q by widths that the fit does not bear out. */
export function resonanceWarnings(r: ResonanceFit, figures: readonly FigureRow[]): string[] {
  const out: string[] = [];
  if (r.misfit.verdict === "widen")
    out.push(
      `the fit misses the sweep ${r.misfit.patterned ? "in a pattern" : `by ${r.misfit.timesNoise.toFixed(1)} times its noise`}: its intervals are widened ${r.misfit.widenRatio.toFixed(1)} times`,
    );
  const byWidth = figures.find((f) => f.name === "loaded Q")?.quantity;
  if (!byWidth) return out;
  const apart = Math.abs(byWidth.value - r.loadedQ);
  if (apart > 2 * Math.hypot(standardUncertainty(byWidth.spread), r.loadedQU) && apart > 0.03 * r.loadedQ)
    out.push(
      `loaded Q is ${printValue(byWidth.value, "ratio", byWidth.value / 100)} by the width and ${printValue(r.loadedQ, "ratio", r.loadedQ / 100)} by the fit: ${
        r.misfit.verdict === "ok"
          ? `trust the fit, which misses no reading; ${r.pointsWithin < 8 ? `only ${r.pointsWithin.toFixed(0)} points lie within the width, and straight lines between them misjudge it` : "a leak past the resonance bends the width"}`
          : "trust neither until you sweep again, narrower and with more points"
      }`,
    );
  return out;
}
