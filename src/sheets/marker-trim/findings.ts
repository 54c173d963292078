import type { GroundOn } from "../../ask/contract";
import { inside } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { timeStations } from "../../standards/time-stations";
import type { solveTrim, TrimInputs } from "./solve";

export type G = GroundOn<TrimInputs, keyof ReturnType<typeof solveTrim>>;

/** Whether it is good enough, what the trimmer does about it, and the traps of the station. */
export function findingsOf(g: G): Finding[] {
  const good = g.verdict((x, y) => Math.abs(y.errorAtTarget) <= x.wanted);
  return [...(good === "yes" ? [goodAlready(g)] : [...turning(g), listening(g, good)]), ...byEar(g), ...stations(g)];
}
const goodAlready = (g: G): Finding => ({
  id: "trim-good-yes",
  severity: "note",
  says: `It is good enough as it is, ${g.say("errorAtTarget")} at the marker asked for: leave the trimmer alone.`,
  restsOn: ["errorAtTarget"],
  hazards: ["none"],
});
const listening = (g: G, good: "no" | "open"): Finding => ({
  id: `trim-good-${good}`,
  severity: "check",
  says: `Good enough is one beat in ${g.say("listenTime")}: listen for longer than that. Below ${g.say("bestReachable")} the sky wave hides it.`,
  restsOn: ["errorAtTarget", "listenTime", "bestReachable"],
  hazards: ["none"],
});
function turning(g: G): Finding[] {
  if (g.best.sign === "unknown")
    return [
      {
        id: "trim-sign",
        severity: "act",
        says: "A beat has no sign: too high and too low by as much sound alike.",
        do: "Add a little capacitance across the crystal (a finger near an insulated trimmer will do): the beat slows if the markers are high, quickens if they are low. Then set the input sign.",
        restsOn: ["crystalError"],
        hazards: inside,
      },
    ];
  const beyond = g.verdict((x, y) => !(Math.abs(y.trimmerChange) <= x.trimmerTravel));
  const high = g.best.sign === "markers-high";
  const reach = `From where it stands it can ${high ? `lower the crystal by ${g.about("lowersBy")}` : `raise the crystal by ${g.about("raisesBy")}`}`;
  if (beyond === "yes")
    return [
      {
        id: "trim-beyond",
        severity: "act",
        says: `The crystal is off by ${g.say("crystalError")}, more than the trimmer pulls. ${reach}.`,
        do: high
          ? "Power off, discharged and measured: put a fixed capacitor across the trimmer, a few pF at a time, until the beat comes into its travel. If the beat hardly follows, the crystal is off: another one."
          : "Power off, discharged and measured: take away what is fixed across the trimmer, or put a capacitor in series with it, until the beat comes into its travel. If the beat hardly follows, the crystal is off: another one.",
        restsOn: ["crystalError", "lowersBy", "raisesBy"],
        hazards: inside,
        state: "open-dead",
      },
    ];
  return [
    {
      id: beyond === "no" ? "trim-turn" : "trim-turn-open",
      severity: beyond === "no" ? "act" : "check",
      says: `The trimmer must change by ${g.say("trimmerChange")}; one picofarad more pulls by ${g.say("pullPerPicofarad")}.${beyond === "no" ? "" : ` ${reach}: perhaps not far enough.`}`,
      do: "Turn it with an insulated tool, a little at a time, and watch the flutter slow; take the tool away before you judge.",
      restsOn: ["trimmerChange", "pullPerPicofarad"],
      hazards: inside,
    },
  ];
}
const byEar = (g: G): Finding[] =>
  g.best.method === "ear"
    ? [
        {
          id: "trim-ear",
          severity: "check",
          says: "By ear a beat slower than the audio chain passes sounds like zero beat.",
          do: "Watch the slow flutter of the S meter or of the noise instead, for ten seconds or more.",
          restsOn: ["crystalError"],
          hazards: inside,
          state: "panel",
        },
      ]
    : [];
function stations(g: G): Finding[] {
  const here = timeStations.filter((s) => s.hz.includes(g.best.stationFrequency));
  return [
    ...here.map(
      (s): Finding => ({
        id: `trim-station-${s.id.toLowerCase()}`,
        severity: "note",
        says: `${s.id}, ${s.place}: ${s.trap}.`,
        restsOn: ["crystalError"],
        hazards: ["none"],
      }),
    ),
    ...(g.best.stationFrequency % 100e3 === 0
      ? []
      : [
          {
            id: "trim-raster",
            severity: "check",
            says: "This carrier does not lie on a multiple of 100 kHz, so the 100 kHz markers do not fall on it.",
            do: "Use a station on the raster, or a spacing that divides its frequency.",
            restsOn: ["crystalError"],
            hazards: inside,
            state: "panel",
          } as const,
        ]),
    ...(here.length > 1
      ? [
          {
            id: "trim-several",
            severity: "check",
            says: `${here.length} stations of the table share this channel: their carriers beat with each other by Doppler.`,
            do: "Switch the markers off: a flutter that stays is not yours.",
            restsOn: ["crystalError"],
            hazards: inside,
            state: "panel",
          } as const,
        ]
      : []),
  ];
}
