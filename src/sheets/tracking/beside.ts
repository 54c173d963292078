import { printValue } from "../../units/print";
import { marksOf } from "./adjust";
import type { G, Put } from "./ask";
import { isSure, sayOff } from "./verdict";

/**
 * A frequency as a person reads it.
 *
 * @param v Hz
 * @param u what it is known to, Hz
 * @returns value and unit
 * @source house rule
 */
export const hz = (v: number, u: number): string => printValue(v, "frequency", u);
/**
 * The marks that the band is set at.
 *
 * @param g inputs and results
 * @returns the two, with their unit
 * @source house rule
 */
export const marksSaid = (g: G): string[] => marksOf(g.best).map((f) => hz(f, f / 200));

/**
 * The signal circuit by its peaks.
 *
 * @param g inputs and results
 * @param put puts a finding
 * @source house rule
 */
export function aboutSignal(g: G, put: Put): void {
  if (g.figures.signalCoilOff.low === null) return;
  const sure = (
    [
      ["coil", "signalCoilOff"],
      ["trimmer", "signalTrimmerOff"],
    ] as const
  ).filter(([, n]) => isSure(g.figures[n]));
  const restsOn = ["signalCoilOff", "signalTrimmerOff"] as const;
  if (sure.length === 0) {
    put("tracking-signal-none-sure", "note", "The signal circuit peaks where it should, as far as these readings tell.", { restsOn });
    return;
  }
  const marks = marksSaid(g);
  put(
    `tracking-signal-${sure.map(([n]) => n).join("-")}`,
    "act",
    `${sure.map(([n, r]) => sayOff(`signal ${n}`, g.figures[r])).join("; ")}. Assumed: the gang's sections alike, and that the peak is not the image's.`,
    {
      do: `Oscillator first, since the dial follows it alone. Then coil or slug at ${marks[0]}, trimmer at ${marks[1]}, twice, with the tuning rocked; a trial of a quarter turn tells which way.`,
      restsOn,
    },
  );
}
/**
 * An IF that was moved.
 *
 * @param g inputs and results
 * @param put puts a finding
 * @source house rule
 */
export function aboutMovedIf(g: G, put: Put): void {
  const x = g.best;
  if (x.ifMoved === 0) return;
  const fits = g.verdict((i, y) => Math.abs(y.shiftSlug) <= i.slugRange && Math.abs(y.shiftTrimmer) <= i.trimmerTravel);
  const by = hz(Math.abs(x.ifMoved), 50);
  const reach = { yes: "", no: ": more than they can", open: ", if they go that far" }[fits];
  const taken =
    g.figures.shiftSlug.low === null
      ? "What would correct it is not worked out here."
      : `Coil by ${g.about("shiftSlug")} and trimmer by ${g.about("shiftTrimmer")} correct it, within ${g.about("shiftLeft")} on this band${reach}.`;
  put(
    `tracking-if-moved-${fits}`,
    fits === "yes" ? "act" : "check",
    `With the IF ${by} ${x.ifMoved > 0 ? "up" : "down"} every mark receives ${by} ${(g.figures.dialShift.value ?? 0) > 0 ? "higher" : "lower"} than it says. ${taken}${x.readings.length > 0 ? " Readings taken after the move include it already: then leave the shift at zero, or it counts twice." : ""}`,
    {
      do:
        fits === "no"
          ? "Leave the IF where the service sheet has it, unless its filter can't be had otherwise; else make a correction card for the dial."
          : `Set it at ${marksSaid(g).join(" and ")} on every band; then the BFO, and the bandspread. The signal circuits hardly notice.`,
      restsOn: ["dialShift", "shiftSlug", "shiftTrimmer", "shiftLeft"],
    },
  );
}
/**
 * What the design itself costs.
 *
 * @param g inputs and results
 * @param put puts a finding
 * @source house rule; 3 dB is common practice, no source
 */
export function aboutCost(g: G, put: Put): void {
  const much = g.verdict((_, y) => y.worstLoss > 3);
  if (much === "no") return;
  put(
    `tracking-costs-${much}`,
    "check",
    `Even with every part right the signal circuit is off its peak by up to ${g.say("worstLoss")} somewhere on the band.`,
    { do: "That is the design: peak the signal trimmer where you listen most.", restsOn: ["worstLoss"] },
  );
}
