import { isSafeToJoin } from "../../ask/chassis";
import type { Hazard } from "../../ask/findings";
import { printValue } from "../../units/print";
import { nodes } from "../inputs/supply-law";
import type { G, Put } from "./ask";
import { mayPull, overloads, recordFails, worstTouch } from "./solve";

const at: readonly [Hazard, ...Hazard[]] = ["line", "b-plus", "stored-charge"];

/**
 * Stop, or the plan in a sentence.
 *
 * @param g inputs, figures and verdicts
 * @returns the sentence
 * @source overloads
 */
export function headlineOf(g: G): string {
  const x = g.best;
  const isolate = isSafeToJoin(x.chassis) ? "" : "First a line isolation transformer: this chassis counts as live. ";
  const { whole, primary, dead } = overloads(g);
  if (dead)
    return "STOP, unplug the set: 0 V across the set behind the bulb is a dead short if the bulb is bright, no line at all if it is dark. The plan ends here until that is found.";
  if (primary)
    return `STOP, unplug the set: even with the rectifier out it loads the line like ${g.about("equivalentNoRectifier")}. The plan ends here until that is found.`;
  if (whole) return `STOP, unplug the set: it draws ${g.about("overload")} times its rated power. The plan ends here until that is found.`;
  if (recordFails(x)) return "STOP: its safety record fails. No power until the cause of the touch current is found.";
  const share = g.figures.overload.value;
  const read =
    share === null
      ? ""
      : `Going by the reading behind the bulb, the set would draw ${printValue(share, "fraction", 0.05)} of its rated power. `;
  return `${isolate}${read}Bring it up in ${x.heaters === "series" ? "six" : "seven"} steps behind a ${x.bulbWatts.toFixed(0)} W bulb: a sound set then shows ${g.about("setExpected")} and ${g.about("currentExpected")}, a dead short ${g.about("currentShort")} and a bright bulb.`;
}

/**
 * What the readings say, and the plan of first power unless they say stop.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source the plan: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  aboutChassis(g, put);
  bulbFindings(g, put);
  const { whole, primary, dead } = overloads(g);
  // after a stop the plan is withheld: nobody reads on to the step that takes the bulb out
  if (!(whole || primary || dead || recordFails(g.best))) planFindings(g, put);
}
/** From the volts of the set behind the bulb to where to look. */
function bulbFindings(g: G, put: Put): void {
  const x = g.best;
  const { dead } = overloads(g);
  const pulls = mayPull(x);
  const impossible =
    ((x.setVolts ?? 0) > 0 && g.figures.equivalentWatts.value === null) ||
    (pulls && (x.setVoltsNoRectifier ?? 0) > 0 && g.figures.equivalentNoRectifier.value === null);
  if (recordFails(x))
    put(
      "bring-up-record-fails",
      "danger",
      `The safety record has a touch current of ${printValue(worstTouch(x), "current", 3e-5)}, over 0.5 mA.`,
      { do: "Unplug the set. No power until its cause is found: first the line bypass (sheet on safety)." },
    );
  if (!pulls && x.setVoltsNoRectifier !== undefined)
    put(
      "bring-up-string-open",
      "check",
      "A reading with the rectifier out is on the record. Its heater is in the string, so the whole string was dark: that reading proves nothing, and nothing here rests on it.",
      { restsOn: ["equivalentNoRectifier"], hazards: at },
    );
  if (dead)
    put(
      "bring-up-dead-short",
      "danger",
      `0 V across the set behind the bulb${x.setVolts === 0 ? "" : ", with the rectifier out"}. With the bulb bright it is a dead short: ${g.say("currentShort")} flows. With the bulb dark no line arrives: outlet, bulb or lead.`,
      {
        do: `Unplug the set. Do not take the bulb away. Ohms at the plug, switch on: cord, switch, line bypass, ${x.heaters === "series" ? "heater string, rectifier" : "primary, heater wiring, rectifier"}; then from B+ to the chassis, discharged and measured.`,
        restsOn: ["currentShort"],
        hazards: [...at, "heat"],
      },
    );
  if (impossible)
    put(
      "bring-up-not-in-series",
      "act",
      `The set's volts reach the line's ${printValue(x.lineVoltage, "voltage", 1)}: the bulb is not in series, it is out, or the meter sits on the wrong side of it. It says nothing about the load.`,
      {
        do: "Unplug the set. Put the bulb in one wire of the line, the meter across the set behind it, and read again.",
        restsOn: ["equivalentWatts"],
      },
    );
  aboutLoad(g, impossible, put);
}
/** What the set draws: an overload with the rectifier out or in, or none. */
function aboutLoad(g: G, impossible: boolean, put: Put): void {
  const x = g.best;
  const { whole, primary, clear } = overloads(g);
  const pulls = mayPull(x);
  if (primary)
    put(
      "bring-up-primary-short",
      "danger",
      `Overload with the rectifier out: like ${g.say("equivalentNoRectifier")}, where heaters and iron alone take well under ${printValue(x.plateWatts, "power", 1)}. It is ${x.heaters === "series" ? "the heater string or the line side" : "the transformer, the heater wiring, or the line side"}.`,
      {
        do: `Unplug the set. Do not take the bulb away, and do not put the rectifier in. ${x.heaters === "series" ? "Ohms along the heater string, its dropper and the line bypass." : "Unload the heater windings and the high-voltage winding in turn, power off; a transformer that lights the bulb all by itself is finished."}`,
        restsOn: ["equivalentNoRectifier"],
        hazards: [...at, "heat"],
      },
    );
  else if (whole)
    put(
      clear ? "bring-up-b-plus-short" : "bring-up-overload",
      "danger",
      clear
        ? `Overload: like ${g.say("equivalentWatts")} with the rectifier in, ${g.say("equivalentNoRectifier")} with it out. The fault is after the rectifier: first filter capacitor, then what the filter feeds, then the rectifier itself. ${x.heaters === "series" ? "The heater string is sound." : "Primary and heaters are sound."}`
        : `Overload: the set loads the line like ${g.say("equivalentWatts")}, ${g.about("overload")} times its rated power.`,
      {
        do: clear
          ? "Unplug the set. Do not take the bulb away. Discharge, measure; then ohms from B+ to the chassis, filter capacitors lifted one by one."
          : pulls
            ? `Unplug the set. Do not take the bulb away. Discharge, measure, ${x.rectifierType === "silicon" ? "lift the diodes at one end" : "pull the rectifier"}, and read the set's volts behind the bulb once more.`
            : "Unplug the set. Do not take the bulb away. Discharge, measure: ohms from B+ to the common wire, filter capacitors lifted one by one; the rectifier from plate to cathode; the heater string from end to end. No tube is pulled for a reading: the string would be open.",
        restsOn: ["equivalentWatts", "overload"],
        hazards: [...at, "heat"],
      },
    );
  else if ((x.setVolts ?? 0) > 0 && !impossible)
    put(
      "bring-up-load-right",
      "note",
      `Behind the bulb the set loads the line like ${g.say("equivalentWatts")}: no overload for a set of ${printValue(x.plateWatts, "power", 1)}. A bulb shows shorts, not leaks.`,
      { restsOn: ["equivalentWatts", "overload"], hazards: at },
    );
}

type PutStep = (id: string, says: string, todo: string, hazards?: readonly [Hazard, ...Hazard[]]) => void;

/** From first power to the bulb out. Where the rectifier was out, hands go in once more between: that step stands alone, dead. */
function powerSteps(g: G, step: PutStep): void {
  const x = g.best;
  const series = x.heaters === "series";
  if (series)
    step(
      "no-rectifier",
      `4. First power, behind the isolation transformer, with a ${x.bulbWatts.toFixed(0)} W bulb in series and every tube in its socket: pull one and the whole string is dark, which proves nothing.`,
      "One hand, nothing touched. The bulb lights bright and dims within a minute. If it stays bright, unplug the set and read the ohms of B+ and of the heater string. If it never lights, the string is open.",
    );
  else
    step(
      "no-rectifier",
      `4. First power: a ${x.bulbWatts.toFixed(0)} W bulb in series, ${x.rectifierType === "silicon" ? "the diodes lifted at one end" : "the rectifier out"}. Only the heaters draw: the bulb dims at once, and the set's volts are higher than with the rectifier in.`,
      "One hand, nothing touched. Read the set's volts, and record them as read with the rectifier out. If the bulb stays bright, unplug the set and look at transformer and heaters.",
    );
  const back = x.rectifierType === "silicon" ? "the diodes" : "the rectifier";
  if (!series)
    step(
      "rectifier-back",
      `5. Put ${back} back.`,
      `Unplugged, discharged and measured: ${x.rectifierType === "silicon" ? "solder the diodes down again" : "the rectifier into its socket"}, and clip the meter to B+ while it is dead.`,
      [...at, "heat"],
    );
  step(
    "rectifier",
    `${series ? "5. Leave it on behind the same bulb." : `6. Power again, behind the same bulb, with ${back} in.`} A sound set shows ${g.about("setExpected")} and draws ${g.about("currentExpected")}: the bulb is bright for a second or two, then dim.`,
    `Stop at smoke, smell, a glowing plate, blue light in the output tube, or a bulb that stays bright: near ${g.about("currentShort")} is a dead short. While all is well, leave it on for a quarter of an hour, and read B+ from the clips that you put on beforehand.`,
  );
  step(
    "full",
    series
      ? "6. Take the bulb out only if steps 4 and 5 went as expected; then half an hour under watch."
      : "7. Take the bulb out only if steps 4 and 6 went as expected; then half an hour under watch.",
    `Expect ${g.about("bPlusExpected")} ${nodes.first.at} at a line of ${printValue(x.lineVoltage, "voltage", 1)} with all tubes warm, read from clips put on beforehand; what another reading means is on the sheet on B+. ${series ? "Nothing inside is touched: tubes, dropper and every wire of the string are hot, and at line voltage." : "Read the transformer's heat from a thermometer fixed to it beforehand; or switched off and unplugged, and only then felt: too hot to keep a hand on is too hot (common practice, no source)."}`,
    [...at, "heat"],
  );
}

function aboutChassis({ best: x }: G, put: Put): void {
  if (!isSafeToJoin(x.chassis))
    put(
      "chassis-may-be-live",
      "danger",
      `This chassis ${x.chassis === "live" ? "is" : "must be taken to be"} connected to the line. Bulb and variac isolate nothing.`,
      {
        do: "Run it from a line isolation transformer rated for at least half as much power again, then the bulb, then the set. Prove the chassis dead to earth with the plug either way round. Never earth it, and clip no earthed instrument to it.",
        hazards: ["live-chassis", ...at],
      },
    );
}
function planFindings(g: G, put: Put): void {
  const x = g.best;
  const step: PutStep = (id, says, todo, hazards = at) => {
    const off = ["first-look", "ohms", "capacitors", "rectifier-back"].includes(id);
    put(`bring-up-${id}`, "act", says, { do: todo, hazards, state: off ? "open-dead" : "open-live" });
  };
  step(
    "first-look",
    "1. Before any power: look it over, and decide cord, fuse and line bypass.",
    "Unplug the set. No damaged cord, no cracked insulation, the right fuse, the line bypass out or of the right class (sheet on safety).",
  );
  const series = x.heaters === "series";
  step(
    "ohms",
    "2. Ohms with the set unplugged (table below).",
    series
      ? "Discharged and measured: the heater string from plug to plug, all tubes in, a few tens to a hundred ohms cold; open means a heater is. B+ to the chassis over 10 to 20 kΩ once the meter has charged the filter. Less: find it before any power."
      : "Discharged and measured: primary a few ohms to tens and open to the chassis; halves of the high-voltage winding within 10 % of each other; B+ to the chassis over 10 to 20 kΩ once the meter has charged the filter. Less: find it before any power.",
  );
  step(
    "capacitors",
    "3. Capacitors that can do harm: decide on them before power (sheet on reforming).",
    `Line bypass, output coupling and paper that could do harm are replaced untested; electrolytics are reformed out of the set, or replaced.${series ? "" : ` Last, ${x.rectifierType === "silicon" ? "lift the diodes at one end" : "pull the rectifier"}: step 4 is done without ${x.rectifierType === "silicon" ? "them" : "it"}.`}`,
  );
  powerSteps(g, step);
  put(
    "bring-up-variac",
    "check",
    x.rectifierType === "silicon"
      ? "With silicon B+ follows a variac from the first volts, so capacitors do reform on it; heaters lag, and B+ stays at its crest until the tubes draw."
      : "A variac does little before a tube rectifier heats: no B+ up to about 40 % of the line, then it comes at once. It does not reform capacitors gently, and half-warm cathodes wear. Use the bulb, and reform capacitors out of the set.",
    {
      do: "If a variac is used all the same, go by the table, with the bulb still in series, and stop where the current passes the limit beside the step.",
    },
  );
}
