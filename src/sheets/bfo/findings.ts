import type { G, Put } from "./ask";
import { mostDistortion } from "./solve";

/**
 * The answer in short: where the BFO goes, or why it does not.
 *
 * @param g what the answer stands on
 * @returns one sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  if (g.best.strip.cans.some((c) => c.addedCapacitance > 0))
    return "Not yet: a cable hangs on a can and is not tuned out, so the pass band is not yet what it will be.";
  if (g.verdict((_, y) => y.rangeSpare > 0) === "no")
    return `This BFO does not reach both sidebands: beyond the farther one its travel has ${g.about("rangeSpare")} to spare.`;
  return `Upper sideband with the BFO ${g.about("upperOff")} from the middle, lower with ${g.about("lowerOff")}; the other sideband is ${g.about("opposite")} down at 1 kHz.`;
}

/**
 * What is wrong with the BFO, and which way sidebands lie. Gains and switches are at the panel, its can and its coupling are inside.
 *
 * @param g what the answer stands on
 * @param put takes each finding
 * @source lessons and handbooks on BFOs (read); common practice
 */
export function findingsOf(g: G, put: Put): void {
  const reach = g.verdict((_, y) => y.rangeSpare > 0);
  if (reach !== "yes")
    put(
      `bfo-range-${reach}`,
      "check",
      `The BFO ${reach === "no" ? "does not reach" : "may not reach"} both sidebands: beyond the farther one its travel has ${g.say("rangeSpare")} to spare.`,
      {
        do: "Centre it first: knob at the middle, generator at the middle of the pass band, trim for zero beat. A capacitor that turns all the way round has two middles.",
        restsOn: ["rangeSpare"],
      },
    );
  aboutStrength(g, put);
  if (g.best.avcWithBfo === "on") aboutAvc(g, put);
  if (g.verdict((_, y) => y.opposite < 20) === "yes")
    put("bfo-wide", "note", `This strip is too wide to reject the other sideband (${g.say("opposite")} at 1 kHz): both are heard.`, {
      restsOn: ["opposite"],
    });
  put(
    "bfo-turned",
    "note",
    g.best.oscillator === "above"
      ? "The oscillator is above the signal, so sidebands come out inverted: the BFO goes above the pass band for upper sideband."
      : "The oscillator is below the signal: sidebands keep their order, and the BFO goes below the pass band for upper sideband.",
    { restsOn: ["upperAt"] },
  );
}
function aboutStrength(g: G, put: Put): void {
  const product = g.best.cwDetector === "product";
  const weak = product ? g.verdict((_, y) => y.injection < 10) : g.verdict((_, y) => y.distortion > mostDistortion);
  if (weak === "no") return;
  put(
    `bfo-weak-${weak}`,
    "check",
    product
      ? `A product detector wants ten times the signal from the BFO; here it is ${g.say("injection")} times.`
      : `On a diode the BFO is ${g.say("injection")} times the signal: speech is distorted by ${g.about("distortion")}, and more on peaks.`,
    {
      do: `Turn the RF gain down, volume up: keep the signal under ${g.about("signalMost")} at the detector. Or bring more BFO to it, a few pF more of coupling.`,
      restsOn: ["injection", "signalMost"],
      state: "panel",
    },
  );
}
function aboutAvc(g: G, put: Put): void {
  const moved = g.verdict((x) => x.avcFromBfo > 0.5);
  put(
    `bfo-avc-${moved}`,
    "check",
    moved === "yes"
      ? "The BFO alone drives the AVC and holds weak signals down."
      : "AVC on with the BFO: it follows each syllable, and the BFO may drive it.",
    {
      do:
        moved === "yes"
          ? "Switch the AVC off for CW and SSB and use the RF gain, or cut down how much of the BFO reaches the AVC diode."
          : "Switch the AVC off for CW and SSB and set the level with the RF gain.",
      restsOn: ["injection"],
      state: "panel",
    },
  );
}
