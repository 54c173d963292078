import { printValue } from "../../units/print";
import type { Asked, G, Put } from "./ask";
import { steadyWhy, toldBy } from "./solve";

const isSteady = (g: G): boolean => g.figures.perKelvin.why === steadyWhy;
/** A log that never drifts faster than the limit doesn't tell when the set became so. */
function readySays(g: G): string {
  const { fitAfter } = g.figures;
  if (fitAfter.low === null) return "It is not ready to use within this log";
  const firstS = g.best.driftLog.reduce((s, r) => Math.min(s, r.time), Number.POSITIVE_INFINITY);
  return fitAfter.high !== null && fitAfter.high <= firstS
    ? `It drifts no more than ${printValue(g.best.minuteLimit, "frequency")} a minute, the limit that was chosen, from the log's beginning on`
    : `The set is ready to use after ${g.about("fitAfter")}`;
}
/**
 * When the set is ready to use, and what is still to come, as one sentence.
 *
 * @param g inputs at their best, and results with their intervals
 * @returns the sentence
 * @source house rule
 */
export function headlineOf(g: G): string {
  if (isSteady(g)) return "It is steady: over the whole log its drift is lost in the scatter of the readings.";
  const { whole, atEnd } = g.figures;
  const use = readySays(g);
  if (whole.low === null)
    return atEnd.low === null
      ? `No end value: ${whole.why}.`
      : `${use}; at the end of the log it still drifts ${g.about("atEnd")} a minute. Where it will settle can't be told.`;
  return `${use}; ${printValue(g.best.warmUp, "time")} after switching on ${g.about("left")} of ${g.about("whole")} is still to come.`;
}

/**
 * What the log means, and which capacitor would still the set.
 *
 * @param g inputs at their best, and results with their intervals
 * @param put takes each finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  if (isSteady(g)) {
    put("drift-steady", "note", "Nothing needs compensating.", { restsOn: ["whole"] });
    return;
  }
  if (g.figures.whole.low === null) aboutNoEnd(g.best.driftLog, put);
  aboutLine(g, put);
  if (g.figures.needed.low !== null) aboutCompensator(g, put);
  else if ((g.figures.perKelvin.value ?? 0) > 0)
    put(
      "drift-rises",
      "check",
      "The frequency rises as it warms: there is too much negative coefficient in the circuit already, or the coil's dust core does it.",
      {
        do: "Power off, discharged and measured: replace part of a negative-coefficient capacitor by an NP0 one of the same size.",
        restsOn: ["perKelvin"],
      },
    );
}
function aboutNoEnd(rows: Asked["driftLog"], put: Put): void {
  const read = toldBy(rows);
  if (read.ok && read.value.told.noEnd === "open")
    put(
      "drift-end-open",
      "check",
      "Warm-ups with very different ends fit these readings equally well, so no end value is given; what the log itself shows stands.",
      {
        do: `Log again from a cold start for ${Math.max(9, Math.ceil(read.value.fit.untilS / 300)) * 10} minutes at least, and twice as long as this one, cover on, nothing touched meanwhile.`,
        restsOn: ["atEnd", "inLog"],
      },
    );
  else
    put("drift-no-law", "check", "No warm-up curve fits these readings: something besides heat moved the set, so no end value is given.", {
      do: "Look at the curve where the readings leave it: a control touched, the lid lifted, a draught, the line. Note line volts and the room's temperature beside each reading and log again from a cold start.",
      restsOn: ["miss", "inLog"],
    });
}
function aboutLine(g: G, put: Put): void {
  if (g.figures.byLine.low !== null)
    put("drift-line", "note", `A change of 1 % in line voltage moves it by ${g.say("byLine")}; heat is separated from that.`, {
      restsOn: ["byLine"],
    });
  else
    put(
      "drift-line-unknown",
      "check",
      "Heat and line voltage can't be separated: the line was not logged, did not move, or moved along with the warm-up.",
      {
        do: "With the set warm through, change the line by 5 % for a minute with a variable transformer behind an isolation transformer, and note the shift. Line and B+ are in reach then.",
        restsOn: ["byLine"],
      },
    );
}
function aboutCompensator(g: G, put: Put): void {
  put(
    "drift-compensate",
    "check",
    `${g.say("needed")} of N${Math.round(g.best.compensator * 1e6)} in place of an equal part of the old capacitor would stop the drift here; at the other place on the dial ${g.say("otherEnd")} per kelvin would be left.`,
    {
      do: "Power off, discharged and measured. Try half of it first, close to the oscillator's coil where the heat is, then trim the dial again and log once more. A capacitor that warms sooner or later than the coil leaves a hump in the first half hour, even where the end comes out right.",
      restsOn: ["needed", "otherEnd"],
    },
  );
  if (g.verdict((x, y) => y.needed > x.fixedCapacitance) !== "no")
    put("drift-too-much", "check", "That is more than the fixed capacitance there is to replace: take one of a larger coefficient.", {
      restsOn: ["needed"],
    });
  const worse = g.verdict((_, y) => Math.abs(y.otherEnd) > Math.abs(y.perKelvin));
  if (worse === "no") return;
  put(
    `drift-elsewhere-${worse}`,
    "check",
    "Compensated here, it would drift more at that other place on the dial than it does now: choose the place you use most.",
    { restsOn: ["otherEnd", "perKelvin"] },
  );
}
