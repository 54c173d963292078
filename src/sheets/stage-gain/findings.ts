import { printValue } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import type { Asked, G, Put } from "./ask";
import { firstShort, lostAtBest, points } from "./solve";

const pointOf = (x: Asked, row: number): string => points[x.injected[row].point];

/**
 * The first stage that gives less than the chart, as one sentence.
 *
 * @param g inputs at their best, and results with their intervals
 * @returns the sentence
 * @source house rule
 */
export function headlineOf(g: G): string {
  const x = g.best;
  const lost = lostAtBest(x);
  const short = firstShort(x, lost);
  if (!lost.some(Number.isFinite))
    return `From ${pointOf(x, 0)} to ${pointOf(x, x.injected.length - 1)} the set gains ${g.about("whole")}; there is no chart to compare it with.`;
  return short >= 0
    ? `Look between ${pointOf(x, short)} and ${short > 0 ? pointOf(x, short - 1) : "the output"}: that stage gives ${printValue(lost[short], "decibel", 0.5)} less than the chart.`
    : `Every stage gives what the chart says, within ${printValue(x.stageLimit, "decibel")}.`;
}

/**
 * Stages short of the chart or above it, what spoils the levels, and the oscillator on every band.
 *
 * @param g inputs at their best, and results with their intervals
 * @param put takes each finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  const lost = lostAtBest(g.best);
  aboutShort(g, lost, put);
  aboutTooMuch(g.best, lost, put);
  aboutLevels(g, put);
  for (const i of g.best.gridCurrents.keys()) aboutOscillator(g.best.gridCurrents[i], i + 1, put);
  if (g.best.gridCurrents.length === 0)
    put(
      "stage-gain-oscillator-not-read",
      "check",
      "The oscillator was not read: a set that hears nothing on part of a band often has one that stops there.",
      { do: "Read the grid leak's volts at both ends and the middle of every band.", restsOn: ["gridLow"] },
    );
}
function aboutShort(g: G, lost: Float64Array, put: Put): void {
  const x = g.best;
  const short = firstShort(x, lost);
  if (short < 0) return;
  const sure = g.verdict((_, y) => y.worst > x.stageLimit) === "yes";
  put(
    "stage-gain-short",
    sure ? "act" : "check",
    `${upperFirst(pointOf(x, short))} needs ${printValue(lost[short], "decibel", 0.5)} more than the chart where the point behind it does not: that one stage is ${sure ? "" : "perhaps "}weak. What comes before it can't be judged yet.`,
    {
      do: "Volts of that stage first, on its chart; then its tube; then the bypass of its screen and cathode, its plate circuit, and what couples it on. Don't change every tube for the sake of one.",
      restsOn: ["worst", "badPoint"],
    },
  );
}
function aboutTooMuch(x: Asked, lost: Float64Array, put: Put): void {
  const strong = lost.findIndex((l) => l < -10);
  if (strong < 0) return;
  put(
    "stage-gain-too-much",
    "check",
    `${upperFirst(pointOf(x, strong))} takes far less than the chart: the stage regenerates, or something besides the generator was feeding it.`,
    {
      do: "Touch nothing inside: turn the gain down and see whether it breaks into a whistle; look at grounding, tube shields and bypasses with the power off, discharged.",
      restsOn: ["worst"],
    },
  );
}
function aboutLevels(g: G, put: Put): void {
  if (g.best.avcState !== "clamped")
    put(
      "stage-gain-avc",
      "check",
      "With AVC at work every level reads higher than it is: the gains of early stages come out too good or too bad.",
      { do: "Clamp the AVC line with a battery of 1.5 to 3 V, positive to the chassis, and read again.", restsOn: ["whole"] },
    );
  if (g.verdict((_, y) => y.lostInSeries > 1) !== "no")
    put("stage-gain-series", "check", `Some ${g.about("lostInSeries")} may be lost in the capacitor in the generator's lead.`, {
      do: `Take 0.01 µF or more at the IF, less only at signal frequency, rated ${g.rating.says}: some points carry B+.`,
      restsOn: ["lostInSeries"],
    });
}
const places = ["low end", "middle", "high end"] as const;
function aboutOscillator(row: Asked["gridCurrents"][number], band: number, put: Put): void {
  const volts = [row.low, row.middle, row.high].map(Math.abs);
  const dead = volts.findIndex((v) => v < 0.5);
  const mean = volts.reduce((s, v) => s + v, 0) / 3;
  if (dead >= 0)
    put(
      `stage-gain-oscillator-${band}-dead`,
      "act",
      `On band ${band} the oscillator does not run at its ${places[dead]}: nothing can be received there.`,
      {
        do: "Its tube first; then its plate volts; then the ohms of its coil and the band switch's contacts, power off and discharged.",
        restsOn: ["gridLow"],
      },
    );
  else if (volts.some((v) => Math.abs(v / mean - 1) > 0.3))
    put(
      `stage-gain-oscillator-${band}-uneven`,
      "check",
      `On band ${band} the oscillator's grid current changes by more than 30 % over the band: it is weak at one end.`,
      {
        do: "Clean the switch and the gang's wipers, power off; try another tube; look for a leaky padder or grid capacitor.",
        restsOn: ["gridLow", "gridHigh"],
      },
    );
}
