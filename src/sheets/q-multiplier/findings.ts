import type { G, Put } from "./ask";

/** Thresholds of "worth it". Common practice, no source: what an ear notices for sure. */
const worth = { amNoiseDb: 2, amRejectionDb: 8, amRejectionBeforeDb: 20, ssbDb: 1.5, cwDb: 3 } as const;

/** Whether any setting leaves the AM audio asked for, more often than not. */
const amUsable = (g: G): boolean => g.figures.amNoiseGainUsable.without < 0.5;

const amWorth = (g: G) =>
  g.verdict(
    (_, y) =>
      y.amNoiseGainUsable >= worth.amNoiseDb ||
      (y.amRejectionGainUsable >= worth.amRejectionDb && y.rejectionBefore < worth.amRejectionBeforeDb),
  );
const ssbWorth = (g: G) => g.verdict((_, y) => y.noiseImprovementSsb >= worth.ssbDb);
const cwWorth = (g: G) => g.verdict((_, y) => y.noiseImprovementCw >= worth.cwDb);

/**
 * The answer in short: what is gained, and whether it is worth fitting.
 *
 * @param g what the answer stands on
 * @returns one sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  if (g.best.function === "reject")
    return `As a null it takes ${g.say("nullDepth")} away over ${g.say("nullWidth")}, with the ${g.best.nullCircuit} circuit stated.`;
  const am = amUsable(g)
    ? `AM ${g.about("amNoiseGainUsable")} less noise and ${g.about("amRejectionGainUsable")} more against a station 5 kHz away, audio kept`
    : "AM gains nothing if the audio you asked for is kept";
  const figures = `${am}; SSB ${g.about("noiseImprovementSsb")} and CW ${g.about("noiseImprovementCw")} less noise`;
  if (!g.mayJoin) return `Computed gain: ${figures}.`;
  const modes = [
    ["AM", amWorth(g)],
    ["SSB", ssbWorth(g)],
    ["CW", cwWorth(g)],
  ] as const;
  const yes = modes.filter(([, v]) => v === "yes").map(([m]) => m);
  const open = modes.filter(([, v]) => v === "open").map(([m]) => m);
  const verdict =
    yes.length > 0
      ? `Worth fitting to this set for ${list(yes)}${open.length > 0 ? `; ${list(open)} too close to call` : ""}`
      : open.length > 0
        ? `Too close to call whether it is worth fitting for ${list(open)}`
        : "Hardly worth fitting to this set";
  return `${verdict}: ${figures}.`;
}

const list = (names: readonly string[]): string => names.join(", ").replace(/, ([^,]*)$/, " and $1");
const word = { yes: "gains", no: "gains little", open: "may gain" } as const;

/**
 * What the answer means at the bench, mode by mode.
 *
 * @param g what the answer stands on
 * @param put takes each finding
 * @source house frame
 */
export function findingsOf(g: G, put: Put): void {
  if (g.best.function === "reject") {
    asNull(g, put);
    return;
  }
  onAm(g, put);
  onSsbAndCw(g, put);
  aboutReach(g, put);
  aboutMargin(g, put);
  aboutSetting(g, put);
}
function onAm(g: G, put: Put): void {
  const am = amWorth(g);
  put(
    `multiplier-am-${am}`,
    am === "open" ? "check" : "note",
    amUsable(g)
      ? `AM ${word[am]}: with the audio kept, ${g.say("amNoiseGainUsable")} less noise and ${g.say("amRejectionGainUsable")} more rejection 5 kHz away (${g.say("rejectionBefore")} before). Regeneration for that: ${g.say("amSetting")} of the oscillation point.`
      : "AM gains little: the tank alone already leaves less audio than asked for, so on AM it can only be switched out.",
    { restsOn: ["amNoiseGainUsable", "amRejectionGainUsable", "rejectionBefore", "amSetting"] },
  );
}
function onSsbAndCw(g: G, put: Put): void {
  const ssb = ssbWorth(g);
  put(
    `multiplier-ssb-${ssb}`,
    ssb === "open" ? "check" : "note",
    `SSB ${word[ssb]}: ${g.say("noiseImprovementSsb")} at this setting, after the stated audio filter; at most 3 dB can be gained, the noise of the other sideband.`,
    { restsOn: ["noiseImprovementSsb"] },
  );
  const cw = cwWorth(g);
  put(
    `multiplier-cw-${cw}`,
    cw === "open" ? "check" : "note",
    `CW ${word[cw]}: ${g.say("noiseImprovementCw")} at this setting, after the stated audio filter; the nose is ${g.say("width6dB")} wide.`,
    { restsOn: ["noiseImprovementCw", "width6dB"] },
  );
}
function aboutReach(g: G, put: Put): void {
  const reach = g.verdict((x, y) => y.reachesOscillation > x.regeneration);
  if (reach === "yes") return;
  put(
    `multiplier-reach-${reach}`,
    reach === "no" ? "act" : "check",
    `Even with no series resistance the tube gives only ${g.say("reachesOscillation")} of the oscillation point: this setting is ${reach === "no" ? "out of reach" : "perhaps out of reach"}.`,
    {
      do: "Raise the feedback (divider nearer to one half, a tube with more gain) or lower the losses: cable coil of higher Q, larger tank.",
      restsOn: ["reachesOscillation"],
    },
  );
}
function aboutMargin(g: G, put: Put): void {
  // without regeneration there is nothing that could start
  const across = g.best.regeneration === 0 ? "yes" : g.verdict((_, y) => y.oscillationAcrossTuning > 0);
  if (across !== "yes")
    put(
      `multiplier-across-${across}`,
      across === "no" ? "act" : "check",
      `Set here at the IF, it ${across === "no" ? "oscillates" : "may oscillate"} at an end of its tuning range: ${g.say("oscillationAcrossTuning")} left there.`,
      {
        do: `Set regeneration at the end of the tuning range where it starts first; ${g.say("survivingRegeneration")} of the oscillation point survives tuning and the line change.`,
        restsOn: ["oscillationAcrossTuning", "survivingRegeneration"],
      },
    );
  const line = g.verdict((x, y) => y.survivingRegeneration >= x.regeneration);
  if (line !== "yes" && across === "yes")
    put(
      `multiplier-line-${line}`,
      "check",
      `A rise of the line by the stated amount leaves ${g.say("survivingRegeneration")} of the oscillation point as the highest safe setting.`,
      {
        do: "Use more series resistance with more feedback behind it: regeneration then follows the tube less.",
        restsOn: ["survivingRegeneration"],
      },
    );
}
function aboutSetting(g: G, put: Put): void {
  put("multiplier-centre", "act", "The accessory must sit on the IF, or it cuts a slice off the side of the pass band.", {
    do: "Set on, without it: tune a steady weak carrier for maximum output. Switch off, unplug, discharge, MEASURE; connect it at the mixer plate. Set on again, regeneration low: tune its coil for the cable until the gain is back, then its tank until the carrier peaks again, then raise regeneration and touch up. Re-peak the first primary last.",
    restsOn: ["peakFrequency", "gainChange"],
    state: "open-live",
  });
  put(
    "multiplier-skirts",
    "note",
    `It narrows the nose, not the skirts: ${g.say("width6dB")} at -6 dB, still ${g.say("width60dB")} at -60 dB (model without strays).`,
    { restsOn: ["width6dB", "width60dB"] },
  );
  put("multiplier-gm-assumed", "note", "How the tube follows the line voltage is assumed, not measured; the margin rests on it.", {
    restsOn: ["survivingRegeneration"],
  });
}
function asNull(g: G, put: Put): void {
  const moved = g.best.nullCircuit === "shunt" ? " The small capacitor also detunes the first can by its own value." : "";
  put(
    "multiplier-null",
    "note",
    `Deepest at ${g.say("nullFrequency")}: ${g.say("nullDepth")}, over ${g.say("nullWidth")}. Depth and narrowness are traded against each other.${moved}`,
    { restsOn: ["nullFrequency", "nullDepth", "nullWidth"] },
  );
  put(
    "multiplier-null-circuit",
    "check",
    "Which null circuit an accessory uses must come from its schematic; the response alone does not tell a shunt from inverse feedback.",
    { do: "Look at the schematic, then set the input nullCircuit.", restsOn: ["nullDepth"] },
  );
}
