import type { Ground } from "../../ask/contract";
import type { Finding } from "../../ask/findings";
import type { Figure } from "../../ask/results";
import type { MultiplierInputs } from "./solve";

type Num = Readonly<Record<string, number>>;
export type G = Omit<
  Ground<MultiplierInputs & { readonly chassis: string }, Readonly<Record<string, never>>>,
  "verdict" | "say" | "about" | "best" | "figures"
> & {
  readonly best: MultiplierInputs;
  readonly say: (result: string) => string;
  readonly about: (result: string) => string;
  readonly figures: Readonly<Record<string, Figure>>;
  readonly verdict: (holds: (x: MultiplierInputs, y: Num) => boolean) => "yes" | "no" | "open";
};
const plate: Finding["hazards"] = ["b-plus", "stored-charge"];

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

export function multiplierHeadline(g: G): string {
  if (g.best.function === "reject")
    return `As a null it takes ${g.say("nullDepth")} away over ${g.say("nullWidth")}, with the ${g.best.nullCircuit} circuit stated.`;
  const am = amUsable(g)
    ? `AM ${g.about("amNoiseGainUsable")} less noise and ${g.about("amRejectionGainUsable")} more against a station 5 kHz away, audio kept`
    : "AM nothing that leaves the audio asked for";
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

/** What the answer means at the bench, mode by mode. */
export function multiplierFindings(g: G): Finding[] {
  return g.best.function === "reject" ? rejectFindings(g) : [...modeFindings(g), ...marginFindings(g), ...settingFindings(g)];
}

const list = (names: readonly string[]): string => names.join(", ").replace(/, ([^,]*)$/, " and $1");

function modeFindings(g: G): Finding[] {
  const out: Finding[] = [];
  const word = { yes: "gains", no: "gains little", open: "may gain" } as const;
  const am = amWorth(g);
  out.push({
    id: `multiplier-am-${am}`,
    severity: am === "open" ? "check" : "note",
    says: !amUsable(g)
      ? "AM gains little: the tank alone already leaves less audio than asked for, so on AM it can only be switched out."
      : `AM ${word[am]}: with the audio kept, ${g.say("amNoiseGainUsable")} less noise and ${g.say("amRejectionGainUsable")} more rejection 5 kHz away (${g.say("rejectionBefore")} before). Regeneration for that: ${g.say("amSetting")} of the oscillation point.`,
    restsOn: ["amNoiseGainUsable", "amRejectionGainUsable", "rejectionBefore", "amSetting"] as never,
    hazards: ["none"],
  });
  const ssb = ssbWorth(g);
  out.push({
    id: `multiplier-ssb-${ssb}`,
    severity: ssb === "open" ? "check" : "note",
    says: `SSB ${word[ssb]}: ${g.say("noiseImprovementSsb")} at this setting, after the stated audio filter; at most the other sideband's noise, 3 dB, can be gained.`,
    restsOn: ["noiseImprovementSsb"] as never,
    hazards: ["none"],
  });
  const cw = cwWorth(g);
  out.push({
    id: `multiplier-cw-${cw}`,
    severity: cw === "open" ? "check" : "note",
    says: `CW ${word[cw]}: ${g.say("noiseImprovementCw")} at this setting, after the stated audio filter; the nose is ${g.say("width6dB")} wide.`,
    restsOn: ["noiseImprovementCw", "width6dB"] as never,
    hazards: ["none"],
  });
  return out;
}

function marginFindings(g: G): Finding[] {
  const out: Finding[] = [];
  const reach = g.verdict((_, y) => y.reachesOscillation > g.best.regeneration);
  if (reach !== "yes")
    out.push({
      id: `multiplier-reach-${reach}`,
      severity: reach === "no" ? "act" : "check",
      says: `Even with no series resistance the tube gives only ${g.say("reachesOscillation")} of the oscillation point: this setting is ${reach === "no" ? "out of reach" : "perhaps out of reach"}.`,
      do: "Raise the feedback (divider nearer to one half, a tube with more gain) or lower the losses: cable coil of higher Q, larger tank.",
      restsOn: ["reachesOscillation"] as never,
      hazards: plate,
    });
  // without regeneration there is nothing that could start
  const across = g.best.regeneration === 0 ? "yes" : g.verdict((_, y) => y.oscillationAcrossTuning > 0);
  if (across !== "yes")
    out.push({
      id: `multiplier-across-${across}`,
      severity: across === "no" ? "act" : "check",
      says: `Set here at the IF, it ${across === "no" ? "oscillates" : "may oscillate"} at an end of its tuning range: ${g.say("oscillationAcrossTuning")} left there.`,
      do: `Set regeneration at the end of the tuning range where it starts first; ${g.say("survivingRegeneration")} of the oscillation point survives tuning and the line change.`,
      restsOn: ["oscillationAcrossTuning", "survivingRegeneration"] as never,
      hazards: plate,
    });
  const line = g.verdict((_, y) => y.survivingRegeneration >= g.best.regeneration);
  if (line !== "yes" && across === "yes")
    out.push({
      id: `multiplier-line-${line}`,
      severity: "check",
      says: `A rise of the line by the stated amount leaves ${g.say("survivingRegeneration")} of the oscillation point as the highest safe setting.`,
      do: "Use more series resistance with more feedback behind it: regeneration then follows the tube less.",
      restsOn: ["survivingRegeneration"] as never,
      hazards: plate,
    });
  return out;
}

function settingFindings(g: G): Finding[] {
  return [
    {
      id: "multiplier-centre",
      state: "open-live",
      severity: "act",
      says: "The accessory must sit on the IF, or it cuts a slice off the side of the pass band.",
      do: "Set on, without it: tune a steady weak carrier for most output. Switch off, unplug, discharge, MEASURE; connect it at the mixer plate. Set on again, regeneration low: tune its coil for the cable until the gain is back, then its tank until the carrier peaks again, then raise regeneration and touch up. Re-peak the first primary last.",
      restsOn: ["peakFrequency", "gainChange"] as never,
      hazards: plate,
    },
    {
      id: "multiplier-skirts",
      severity: "note",
      says: `It narrows the nose, not the skirts: ${g.say("width6dB")} at -6 dB, still ${g.say("width60dB")} at -60 dB (model without strays).`,
      restsOn: ["width6dB", "width60dB"] as never,
      hazards: ["none"],
    },
    {
      id: "multiplier-gm-assumed",
      severity: "note",
      says: "How the tube follows the line voltage is assumed, not measured; the margin rests on it.",
      restsOn: ["survivingRegeneration"] as never,
      hazards: ["none"],
    },
  ];
}

function rejectFindings(g: G): Finding[] {
  const moved = g.best.nullCircuit === "shunt" ? " The small capacitor also detunes the first can by its own value." : "";
  return [
    {
      id: "multiplier-null",
      severity: "note",
      says: `Deepest at ${g.say("nullFrequency")}: ${g.say("nullDepth")}, over ${g.say("nullWidth")}. Depth and narrowness are traded against each other.${moved}`,
      restsOn: ["nullFrequency", "nullDepth", "nullWidth"] as never,
      hazards: ["none"],
    },
    {
      id: "multiplier-null-circuit",
      severity: "check",
      says: "Which null circuit an accessory uses must come from its schematic; the response alone does not tell a shunt from inverse feedback.",
      do: "Look at the schematic, then set the input nullCircuit.",
      restsOn: ["nullDepth"] as never,
      hazards: plate,
    },
  ];
}
