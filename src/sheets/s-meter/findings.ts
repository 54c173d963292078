import type { Asked, G, Put } from "./ask";
import { lineThrough } from "./solve";

/**
 * What the meter's law and the AVC curve mean, and what to do at the set.
 *
 * @param g inputs at their best, and results with their intervals
 * @param put takes each finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  aboutNine(g, put);
  aboutUnit(g, put);
  aboutOutput(g, put);
  aboutDirection(g.best.steps, put);
  aboutTop(g.best.steps, put);
  aboutLine(g.best.steps, put);
}
function aboutNine(g: G, put: Put): void {
  if (g.figures.s9Off.low === null) return;
  const off = g.verdict((_, y) => Math.abs(y.s9Off) > 3);
  put(
    `s-meter-s9-${off}`,
    off === "yes" ? "check" : "note",
    `S9 comes at ${g.say("s9Level")}: ${g.about("s9Off")} above where it should be.`,
    {
      ...(off === "yes"
        ? {
            do: "Zero first, antenna terminal shorted and RF gain full; then the sensitivity control at the S9 level; then zero again. With the set warm and the line as usual: both move it.",
          }
        : {}),
      restsOn: ["s9Off"],
    },
  );
}
function aboutUnit(g: G, put: Put): void {
  if (g.figures.perUnit.low === null || !((g.figures.perUnit.value ?? 0) > 0)) return;
  if (g.verdict((_, y) => Math.abs(y.unitOff) > 0.5) === "no") return;
  put(
    "s-meter-unit",
    "note",
    `One S unit is ${g.say("perUnit")}, this meter's own law: write it on the card rather than force the meter to another.`,
    { restsOn: ["perUnit"] },
  );
}
function aboutOutput(g: G, put: Put): void {
  if (g.figures.flatness.low === null) return;
  const rises = g.verdict((_, y) => y.flatness > 6);
  put(
    `s-meter-flat-${rises}`,
    rises === "no" ? "note" : "check",
    `From 10 µV to 10 mV the output changes by ${g.say("flatness")}${rises === "no" ? "" : "; a good set stays within some 3 to 6 dB (common practice, no source)"}.`,
    {
      ...(rises === "no"
        ? {}
        : {
            do: "Look for AVC volts that do not follow: a leaky AVC bypass or grid coupling, a controlled tube with grid current, a weak diode. High-impedance meter only.",
          }),
      restsOn: ["flatness"],
    },
  );
}
function aboutDirection(steps: Asked["steps"], put: Put): void {
  const read = lineThrough(steps.filter((s) => Number.isFinite(s.reading)).map((s) => [s.level, s.reading]));
  if (!read || read.slope >= 0) return;
  put("s-meter-backward", "act", "The meter falls as the signal rises: its leads or its bridge are the wrong way round, or the rows are.", {
    do: "Check the rows first. Then, power off, discharged and measured, check the meter's leads and its zero control.",
    restsOn: ["s9Level"],
  });
}
function aboutTop(steps: Asked["steps"], put: Put): void {
  const heard = steps.filter((s) => Number.isFinite(s.audio)).map((s) => s.audio);
  if (heard.length <= 3 || heard[heard.length - 1] >= Math.max(...heard) - 3) return;
  put("s-meter-overload", "check", "At the strongest signal the output falls again: a stage is overdriven before the AVC holds it back.", {
    do: "Find the first stage that clips: signal at its grid against its bias. Then the antenna trimmer, or a pad ahead of the set.",
    restsOn: ["flatness"],
  });
}
function aboutLine(steps: Asked["steps"], put: Put): void {
  const positive = steps.findIndex((s) => s.avc > 0.2);
  if (positive < 0) return;
  put("s-meter-avc-positive", "act", `The AVC line is positive in row ${positive + 1}; it never should be.`, {
    do: "Power off, discharged and measured: leaky coupling or AVC bypass, silver mica in the IF can, or a gassy tube. Nothing aligned by this line holds until that is mended.",
    restsOn: ["avcDecade"],
  });
}
