import { printExact } from "../../units/print";
import { mhz } from "../inputs/dial-figures";
import type { G, Put } from "./ask";
import { settingOf } from "./solve";

/** Whether the whole scale is true after the move. */
const isWhole = (g: G) => g.verdict((_, y) => y.overTolerance <= 0);

/**
 * The move in a sentence, and whether it makes the whole scale true.
 *
 * @param g the ground: inputs and results
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  const whole = {
    yes: "the whole scale is then true",
    no: "even then no one setting is true over the whole scale",
    open: "whether the whole scale is then true can't be told yet",
  }[isWhole(g)];
  return `Move the main dial so that the lowest mark goes ${(g.figures.shift.value ?? 0) >= 0 ? "up" : "down"} by ${g.about("shift").replace(/^-/, "")}: ${whole}, the worst mark being off by ${g.about("worstLeft")}.`;
}

/**
 * The move itself, and what is left after it.
 *
 * @param g the ground: inputs and results
 * @param put puts each finding
 * @source house frame
 */
export function findingsOf(g: G, put: Put): void {
  const x = g.best;
  const { lever, move } = settingOf(x);
  const { shift, left, worstLeft, runLeft } = move();
  // the mark that moves the dial best is the one whose own rest is smallest
  const rest = Array.from(left, Math.abs);
  const pick = rest.indexOf(Math.min(...rest));
  const marker = printExact(x.marks[pick].is, "frequency");
  const target = mhz(x.marks[pick].says - shift * lever[pick]);
  put(
    "set-point-move",
    Math.abs(shift) > x.tolerance / 4 ? "act" : "note",
    `With the bandspread scale at ${target} the marker at ${marker} should be in zero beat.`,
    {
      do: `Set the bandspread dial to ${target}, then turn the main dial, from its usual side, until the marker at ${marker} is in zero beat. Mark the main dial there: it is the set-point of this band.`,
      restsOn: ["shift"],
    },
  );
  const can = isWhole(g);
  if (can === "yes") return;
  put(
    `set-point-whole-${can}`,
    "check",
    `After the move the worst mark is off by ${g.say("worstLeft")}; the remaining error changes by ${g.say("runLeft")} along the scale.`,
    {
      do:
        Math.abs(runLeft) > 1.2 * Math.abs(worstLeft)
          ? "One end right and the other off is not the set-point's doing: the bandspread trimmer, or a plate of the bandspread capacitor, changes how the scale runs. Align the oscillator first, then come back."
          : "Set it true over the part of the scale you use, and use the dial's correction table for the rest.",
      restsOn: ["worstLeft", "runLeft"],
    },
  );
}
