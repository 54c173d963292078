import { printValue } from "../../units/print";
import type { G, Put } from "./ask";
import { definitionOf, sayDefinition, setLimitDb, worldLimitDb } from "./solve";

/** A cost under this is told in words, not as a figure. Source: house rule. */
const leastToldDb = 0.05;

/**
 * What limits the set, as one sentence.
 *
 * @param g inputs at their best, and results with their intervals
 * @returns the sentence
 * @source house rule
 */
export function headlineOf(g: G): string {
  const x = g.best;
  const world = g.verdict((_, y) => y.lossNow < worldLimitDb);
  const own = g.verdict((_, y) => y.lossNow > setLimitDb);
  if (x.level > 0 && farShort(g) === "yes")
    return `Mend it first: its noise figure of ${g.about("receiverNoise")} is far from the ${g.about("predictedNoise")} that its tubes and circuits give. Only then can you tell how much external noise matters.`;
  const where = `at ${printValue(x.listenAt, "frequency", 1e4)} in ${x.place === "city" ? "a city" : `a ${x.place} area`}`;
  if (world === "yes") {
    const cost = (g.figures.lossNow.value ?? 0) < leastToldDb ? "next to nothing" : `only ${g.about("lossNow")}`;
    return `External noise is the limit ${where}: this set's own noise costs ${cost}. A better front end does not help.`;
  }
  if (own === "yes") return `The receiver's own noise is the limit ${where}: it costs ${g.about("lossNow")}. A better front end helps.`;
  const loss = g.figures.lossNow.value ?? 0;
  if (loss < worldLimitDb) return `External noise is most likely the limit ${where}: this set's own costs ${g.say("lossNow")}.`;
  if (loss > setLimitDb) return `The receiver's own noise is most likely the limit ${where}: it costs ${g.say("lossNow")}.`;
  return `Both limit ${where}: the set's own noise costs ${g.about("lossNow")}.`;
}
/** Whether the measured noise figure is more than 6 dB over what tubes and circuits give. */
const farShort = (g: G): "yes" | "no" | "open" => g.verdict((_, y) => y.receiverNoise > y.predictedNoise + 6);

/**
 * What the level means, whether the set falls short of its tubes, and whether what stands before it helps.
 *
 * @param g inputs at their best, and results with their intervals
 * @param put takes each finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  if (g.best.level > 0) aboutLevel(g, put);
  else
    put(
      "sensitivity-predicted",
      "check",
      `Nothing was measured: going by its tubes, the set would need ${g.about("levelAsked")} for ${sayDefinition(definitionOf(g.best))}.`,
      {
        do: "The plain test: tune to a quiet spot, put a resistor of the antenna's impedance in place of the antenna, then the antenna back. The noise must rise with the antenna. Then measure with a generator.",
        restsOn: ["levelAsked"],
      },
    );
  if (g.best.before !== "nothing") aboutGain(g, put);
}
function aboutLevel(g: G, put: Put): void {
  const { level } = g.best;
  put(
    "sensitivity-defined",
    "note",
    `${printValue(level, "voltage", level / 30)} for ${sayDefinition(definitionOf(g.best))} is a noise figure of ${g.about("receiverNoise")}.`,
    { restsOn: ["receiverNoise"] },
  );
  const worse = farShort(g);
  if (worse === "no") return;
  put(
    `sensitivity-short-${worse}`,
    worse === "yes" ? "act" : "check",
    `Its tubes and circuits would give ${g.about("predictedNoise")}: the set is ${worse === "yes" ? "" : "perhaps "}more than 6 dB short of that.`,
    {
      do: "Weak RF tube or mixer, mistracked or leaky signal circuits, too little oscillator: measure the gain of each stage, and the oscillator's grid current.",
      restsOn: ["receiverNoise", "predictedNoise"],
    },
  );
}
function aboutGain(g: G, put: Put): void {
  const harm = g.verdict((x, y) => x.aheadGain > y.gainEnough + 3);
  if (harm !== "no")
    put(
      `sensitivity-gain-harm-${harm}`,
      "check",
      `What is ahead of the receiver has ${harm === "yes" ? "" : "perhaps "}more gain than is useful here (${g.about("gainEnough")}): the rest only brings strong signals up to where they overload it.`,
      {
        do: "A pad between the two, or less gain there, until the noise falls just noticeably when the antenna comes off.",
        restsOn: ["gainEnough"],
      },
    );
  else if (g.verdict((x, y) => x.aheadGain < y.gainForOneDb) === "yes")
    put(
      "sensitivity-gain-short",
      "check",
      `What is ahead of the receiver has too little gain to bring the loss to 1 dB: ${g.about("gainForOneDb")} would.`,
      { do: "Look for a weak tube or a mistuned circuit in it first.", restsOn: ["gainForOneDb"] },
    );
}
