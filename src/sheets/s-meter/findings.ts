import { inside } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { type G, lineThrough, type MeterNames } from "./solve";

/** What the meter's law and the AVC curve mean, and what to do at the set. */
export function findingsOf(g: G): Finding[] {
  const out: Finding[] = [];
  const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly MeterNames[]): void => {
    out.push({ id: `s-meter-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
  };
  if (g.figures.s9Off.low !== null) {
    const off = g.verdict((_, y) => Math.abs(y.s9Off) > 3);
    put(
      `s9-${off}`,
      off === "yes" ? "check" : "note",
      `S9 comes at ${g.say("s9Level")}: ${g.about("s9Off")} over where it should be.`,
      off !== "yes"
        ? undefined
        : "Zero first, antenna terminal shorted and RF gain full; then the sensitivity control at the S9 level; then zero again. With the set warm and the line as usual: both move it.",
      ["s9Off"],
    );
  }
  if (g.figures.perUnit.low !== null) {
    const other = g.verdict((_, y) => Math.abs(y.unitOff) > 0.5);
    if (other !== "no" && (g.figures.perUnit.value ?? 0) > 0)
      put(
        "unit",
        "note",
        `One S unit is ${g.say("perUnit")}, this meter's own law: write it on the card rather than force the meter to another.`,
        undefined,
        ["perUnit"],
      );
  }
  if (g.figures.flatness.low !== null) {
    const rises = g.verdict((_, y) => y.flatness > 6);
    put(
      `flat-${rises}`,
      rises === "no" ? "note" : "check",
      `From 10 µV to 10 mV the output changes by ${g.say("flatness")}${rises === "no" ? "" : "; a good set stays within some 3 to 6 dB (common practice, no source)"}.`,
      rises === "no"
        ? undefined
        : "Look for AVC volts that do not follow: a leaky AVC bypass or grid coupling, a controlled tube with grid current, a diode that is weak. High-impedance meter only.",
      ["flatness"],
    );
  }
  const x = g.best.steps;
  const backward = lineThrough(x.filter((s) => Number.isFinite(s.reading)).map((s) => [s.level, s.reading]));
  if (backward && backward.slope < 0)
    put(
      "backward",
      "act",
      "The meter falls as the signal rises: its leads or its bridge are the wrong way round, or the rows are.",
      "Look at the rows first. Then, power off, discharged and measured, check the meter's leads and its zero control.",
      ["s9Level"],
    );
  const atTop = x.filter((s) => Number.isFinite(s.audio));
  if (atTop.length > 3 && atTop[atTop.length - 1].audio < Math.max(...atTop.map((s) => s.audio)) - 3)
    put(
      "overload",
      "check",
      "At the strongest signal the output falls again: a stage is overdriven before the AVC holds it back.",
      "Find the first stage that clips: signal at its grid against its bias. Then the antenna trimmer, or a pad before the set.",
      ["flatness"],
    );
  const positive = x.findIndex((s) => s.avc > 0.2);
  if (positive >= 0)
    put(
      "avc-positive",
      "act",
      `The AVC line is positive in row ${positive + 1}; it never should be.`,
      "Power off, discharged and measured: leaky coupling or AVC bypass, silver mica in the IF can, or a gassy tube. Nothing aligned by it holds until that is mended.",
      ["avcDecade"],
    );
  return out;
}
