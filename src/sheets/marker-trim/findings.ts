import { timeStations } from "../../standards/time-stations";
import { printValue } from "../../units/print";
import type { G, Put } from "./ask";

/** The beat that is good enough, as it can be counted: a swell that takes seconds, else so many a second. */
function enough(g: G): string {
  const s = g.figures.listenTime.value ?? 0;
  return s >= 1
    ? `Good enough is one swell in ${g.say("listenTime")}: listen for longer than that.`
    : `Good enough is ${Math.max(2, Math.floor(1 / Math.max(s, 1e-3)))} swells a second or fewer.`;
}

/**
 * Whether it is good enough, what the trimmer does about it, and the traps of the station.
 *
 * @param g inputs at their best values, and the results
 * @param put puts a finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  const good = g.verdict((x, y) => Math.abs(y.errorAtTarget) <= x.wanted);
  if (good === "yes")
    put(
      "trim-good-yes",
      "note",
      `It is good enough as it is, ${g.say("errorAtTarget")} at the marker asked for: leave the trimmer alone.`,
      { restsOn: ["errorAtTarget"] },
    );
  else {
    turning(g, put);
    put(`trim-good-${good}`, "check", `${enough(g)} Below ${g.say("bestReachable")} the sky wave hides it.`, {
      restsOn: ["errorAtTarget", "listenTime", "bestReachable"],
    });
  }
  if (g.best.method === "ear")
    put("trim-ear", "check", "By ear a beat slower than the audio chain passes sounds like zero beat.", {
      do: "Watch the slow flutter of the S meter or of the noise instead, for ten seconds or more.",
      restsOn: ["crystalError"],
      state: "panel",
    });
  stations(g, put);
  setting(g, put);
}
/** The way there, step by step, with what ear and meter should say. Order: common practice, no source. */
function setting(g: G, put: Put): void {
  const x = g.best;
  const station = printValue(x.stationFrequency, "frequency", 1);
  const restsOn = ["listenTime"] as const;
  put(
    "trim-step-1-warm",
    "act",
    "First the carrier alone, generator off, all of it warm for half an hour: it is the standard, so it must be steady.",
    {
      do: `AM, AVC on, BFO off, ${station} in the middle of the pass band, daytime, away from dawn and dusk. Meter: steady, or fading within seconds. Ear: its tone and its ticks; wait for a minute without tone. A flutter that is there already is not yours.`,
      restsOn,
      state: "panel",
    },
  );
  put("trim-step-2-marker", "act", "Then the generator on, coupled as it will be, until its marker is about as strong as the carrier.", {
    do: "Meter: with the generator alone, antenna off, within a few S units of the carrier alone. Ear: a growl or a note is the beat; none, and nothing on the meter, and the generator is not oscillating or the wrong spacing is on.",
    restsOn,
    state: "panel",
  });
  put("trim-step-3-beat", "act", `Then the beat: above 30 Hz by ear, below it by the swell of the hiss or the meter. ${enough(g)}`, {
    do: "Count the swells over ten seconds or more, or match the note, and write it down. Ear: the note goes down to a growl, then the noise breathes. Meter: its pointer swings once a beat. A finger near the trimmer tells the side: write down which.",
    restsOn,
    state: "panel",
  });
  put(
    "trim-step-4-set",
    "act",
    "Then the trimmer, covers as they will be, to the slowest swell; and the frequency looked at again after an hour.",
    {
      do: "Insulated tool, a hair at a time; take it away and wait before you judge. Meter: the pointer swings slower and slower, and stops. Past the middle it quickens again: go back to the middle. The same on another channel: as many swells an hour for each megahertz.",
      restsOn,
    },
  );
  put("trim-step-5-without", "act", "Last, without it: generator off, and its lead off the terminal.", {
    do: "The carrier where it was, and as strong within half an S unit; no marker left anywhere on the dial: one that stays creeps in through the supply or the cover. Both states go on record, on the sheet “Without the accessory and with it”.",
    restsOn,
    state: "panel",
  });
}
function turning(g: G, put: Put): void {
  if (g.best.sign === "unknown") {
    put("trim-sign", "act", "A beat has no sign: too high and too low sound alike.", {
      do: "Add a little capacitance across the crystal (a finger near an insulated trimmer will do): the beat slows if the markers are high, quickens if they are low. Then set the input sign.",
      restsOn: ["crystalError"],
    });
    return;
  }
  const beyond = g.verdict((x, y) => !(Math.abs(y.trimmerChange) <= x.trimmerTravel));
  const high = g.best.sign === "markers-high";
  const reach = `From where it is it can ${high ? `lower the crystal by ${g.about("lowersBy")}` : `raise the crystal by ${g.about("raisesBy")}`}`;
  if (beyond === "yes") {
    put("trim-beyond", "act", `The crystal is off by ${g.say("crystalError")}, more than the trimmer pulls. ${reach}.`, {
      do: high
        ? "Power off, discharged and measured: put a fixed capacitor across the trimmer, a few pF at a time, until the beat comes into its travel. If the beat hardly moves, the crystal itself is off: fit another."
        : "Power off, discharged and measured: take away what is fixed across the trimmer, or put a capacitor in series with it, until the beat comes into its travel. If the beat hardly moves, the crystal itself is off: fit another.",
      restsOn: ["crystalError", "lowersBy", "raisesBy"],
      state: "open-dead",
    });
    return;
  }
  put(
    beyond === "no" ? "trim-turn" : "trim-turn-open",
    beyond === "no" ? "act" : "check",
    `The trimmer must change by ${g.say("trimmerChange")}; one picofarad more pulls by ${g.say("pullPerPicofarad")}.${beyond === "no" ? "" : ` ${reach}: perhaps not far enough.`}`,
    {
      do: "Turn it with an insulated tool, a little at a time, and watch the flutter slow; take the tool away before you judge.",
      restsOn: ["trimmerChange", "pullPerPicofarad"],
    },
  );
}
function stations(g: G, put: Put): void {
  const here = timeStations.filter((s) => s.hz.includes(g.best.stationFrequency));
  const restsOn = ["crystalError"] as const;
  for (const s of here) put(`trim-station-${s.id.toLowerCase()}`, "note", `${s.id}, ${s.place}: ${s.trap}.`, { restsOn });
  if (g.best.stationFrequency % 100e3 !== 0)
    put("trim-raster", "check", "This carrier does not lie on a multiple of 100 kHz, so the 100 kHz markers do not fall on it.", {
      do: "Use a station on the raster, or a spacing that divides its frequency.",
      restsOn,
      state: "panel",
    });
  if (here.length > 1)
    put(
      "trim-several",
      "check",
      `${here.length} stations of the table share this channel: their carriers beat with each other by Doppler.`,
      { do: "Switch the markers off: a flutter that stays is not yours.", restsOn, state: "panel" },
    );
}
