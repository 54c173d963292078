import { inside } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { type DriftNames, fitOf, type G, steadyWhy } from "./solve";

/** What the log means, and which capacitor would still the set. */
export function findingsOf(g: G): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly DriftNames[]): void => {
    out.push({ id: `drift-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
  };
  if (g.figures.perKelvin.why === steadyWhy) {
    put("steady", "note", "Nothing needs compensating.", undefined, ["whole"]);
    return out;
  }
  if (g.figures.whole.low === null) {
    const read = fitOf(x);
    const told = read.ok ? read.value : undefined;
    if (told?.told.noEnd === "open")
      put(
        "end-open",
        "check",
        "Warm-ups with very different ends fit these readings equally well, so no end value is given; what the log itself shows stands.",
        `Log again from a cold start for ${Math.max(9, Math.ceil(told.fit.untilS / 300)) * 10} minutes at least, and twice as long as this one, cover on, nothing touched meanwhile.`,
        ["atEnd", "inLog"],
      );
    else
      put(
        "no-law",
        "check",
        "No warm-up goes through these readings: something besides heat moved the set, so no end value is given.",
        "Look at the curve where the readings leave it: a control touched, the lid lifted, a draught, the line. Note line volts and the room's temperature beside each reading and log again from a cold start.",
        ["miss", "inLog"],
      );
  }
  if (g.figures.byLine.low !== null)
    put("line", "note", `A change of 1 % in line voltage moves it by ${g.say("byLine")}; heat is separated from that.`, undefined, [
      "byLine",
    ]);
  else
    put(
      "line-unknown",
      "check",
      "Heat and line voltage can't be separated: the line was not logged, did not move, or moved along with the warm-up.",
      "With the set warm through, change the line by 5 % for a minute with a variable transformer behind an isolation transformer, and note the shift. Line and B+ are in reach then.",
      ["byLine"],
    );
  if (g.figures.needed.low !== null) {
    put(
      "compensate",
      "check",
      `${g.say("needed")} of N${Math.round(x.compensator * 1e6)} in place of as much of the capacitor it replaces would stop the drift here; at the other place on the dial ${g.say("otherEnd")} per kelvin is then left.`,
      "Power off, discharged and measured. Try half of it first, close to the oscillator's coil where the heat is, then trim the dial again and log once more. A capacitor that warms sooner or later than the coil leaves a hump in the first half hour, even with the end right.",
      ["needed", "otherEnd"],
    );
    if (g.verdict((i, y) => y.needed > i.fixedCapacitance) !== "no")
      put("too-much", "check", "That is more than there is of fixed capacitance to replace: take one of a larger coefficient.", undefined, [
        "needed",
      ]);
    const worse = g.verdict((_, y) => Math.abs(y.otherEnd) > Math.abs(y.perKelvin));
    if (worse !== "no")
      put(
        `elsewhere-${worse}`,
        "check",
        "Compensated here, it would drift more at that other place on the dial than it does now: choose the place you use most.",
        undefined,
        ["otherEnd", "perKelvin"],
      );
  } else if ((g.figures.perKelvin.value ?? 0) > 0)
    put(
      "rises",
      "check",
      "The frequency rises as it warms: there is too much negative coefficient in the circuit already, or the coil's dust core does it.",
      "Power off, discharged and measured: replace part of a negative-coefficient capacitor by an NP0 one of the same size.",
      ["perKelvin"],
    );
  return out;
}
