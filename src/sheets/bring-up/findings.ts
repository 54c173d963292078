import { printValue } from "../../units/print";
import { isSafeToJoin } from "../chassis";
import type { Finding } from "../contract";
import { type G, overloads, recordFails } from "./solve";

const at: Finding["hazards"] = ["line", "b-plus", "stored-charge"];

/** What the readings say, and the plan of first power unless they say stop. */
export function findingsOf(g: G): Finding[] {
  const lamp = lampFindings(g);
  const plan = planFindings(g);
  const { whole, primary } = overloads(g);
  const chassis = plan.filter((f) => f.id === "chassis-may-be-live");
  // after a stop the plan is withheld: nobody reads on to the step that takes the lamp out
  return [...chassis, ...lamp, ...(whole || primary || recordFails(g.best) ? [] : plan.filter((f) => f.id !== "chassis-may-be-live"))];
}

/** From the volts of the set behind the lamp to where to look. */
function lampFindings(g: G): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const { whole, primary, clear } = overloads(g);
  const impossible =
    (x.setVolts > 0 && g.figures.equivalentWatts.value === null) ||
    (x.setVoltsNoRectifier > 0 && g.figures.equivalentNoRectifier.value === null);
  if (recordFails(x))
    out.push({
      id: "bring-up-record-fails",
      severity: "danger",
      says: `The safety record has a touch current of ${printValue(Math.max(x.touchOne ?? 0, x.touchOther ?? 0), "current", 3e-5)}, over 0.5 mA.`,
      do: "Plug out. No power until its cause is found: first the line bypass (sheet on safety).",
      restsOn: [],
      hazards: at,
    });
  if (impossible)
    out.push({
      id: "bring-up-not-in-series",
      severity: "act",
      says: `The set's volts reach the line's ${printValue(x.lineVoltage, "voltage", 1)}: the lamp is not in series, it is out, or the meter sits on the wrong side of it. Nothing can be said of the load.`,
      do: "Plug out. Put the lamp in one wire of the line, the meter across the set behind it, and read again.",
      restsOn: ["equivalentWatts"],
      hazards: at,
    });
  if (primary)
    out.push({
      id: "bring-up-primary-short",
      severity: "danger",
      says: `Overload with the rectifier out: as ${g.say("equivalentNoRectifier")}, where heaters and iron alone take well under ${printValue(x.plateWatts, "power", 1)}. It is the transformer, the heater wiring, or the line side.`,
      do: "Plug out. Do not take the lamp away, and do not put the rectifier in. Unload the heater windings and the high-voltage winding in turn, power off; a transformer that alone overloads the lamp is done.",
      restsOn: ["equivalentNoRectifier"],
      hazards: [...at, "heat"],
    });
  else if (whole)
    out.push({
      id: clear ? "bring-up-b-plus-short" : "bring-up-overload",
      severity: "danger",
      says: clear
        ? `Overload: as ${g.say("equivalentWatts")} with the rectifier in, ${g.say("equivalentNoRectifier")} with it out. It lies after the rectifier: first filter capacitor, then what the filter feeds, then the rectifier itself. Primary and heaters are sound.`
        : `Overload: the set takes what ${g.say("equivalentWatts")} at the rated line would, ${g.about("overload")} times the power on its type plate.`,
      do: clear
        ? "Plug out. Do not take the lamp away. Discharge, measure; then ohms from B+ to the chassis, filter capacitors lifted one by one."
        : "Plug out. Do not take the lamp away. Discharge, measure, pull the rectifier (or lift the diodes), and read the set's volts behind the lamp once more.",
      restsOn: ["equivalentWatts", "overload"],
      hazards: [...at, "heat"],
    });
  else if (x.setVolts > 0 && !impossible)
    out.push({
      id: "bring-up-load-right",
      severity: "note",
      says: `Behind the lamp the set takes what ${g.say("equivalentWatts")} at the rated line would: no overload for a set of ${printValue(x.plateWatts, "power", 1)}. A lamp shows shorts, not leaks.`,
      restsOn: ["equivalentWatts", "overload"],
      hazards: at,
    });
  return out;
}

function planFindings(g: G): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const step = (id: string, says: string, todo: string, hazards: Finding["hazards"] = at): void => {
    out.push({ id: `bring-up-${id}`, severity: "act", says, do: todo, restsOn: [], hazards });
  };
  if (!isSafeToJoin(x.chassis))
    out.push({
      id: "chassis-may-be-live",
      severity: "danger",
      says: `This chassis ${x.chassis === "live" ? "is" : "must be taken to be"} joined to the line. Lamp and variac isolate nothing.`,
      do: "Run it from a line isolation transformer of half again its power and more, then the lamp, then the set. Prove the chassis dead to earth both ways of the plug. Never earth it, and clip no earthed instrument to it.",
      restsOn: [],
      hazards: ["live-chassis", ...at],
    });
  step(
    "first-look",
    "1. Before any power: look it over, and decide cord, fuse and line bypass.",
    "Plug out. No damaged cord, no cracked insulation, the right fuse, the line bypass out or of the right class (sheet on safety).",
  );
  const series = x.heaters === "series";
  step(
    "ohms",
    "2. Ohms with the plug out (table below).",
    series
      ? "Discharged and measured: the heater string from plug to plug, all tubes in, a few tens to a hundred ohms cold; open means a heater is. B+ to the chassis over 10 to 20 kΩ once the meter has charged the filter. Less: find it before any power."
      : "Discharged and measured: primary a few ohms to tens and open to the chassis; halves of the high-voltage winding within a tenth of each other; B+ to the chassis over 10 to 20 kΩ once the meter has charged the filter. Less: find it before any power.",
  );
  step(
    "capacitors",
    "3. Capacitors that can do harm: decided, before power (sheet on reforming).",
    "Line bypass, output coupling and paper in harm's way are replaced unseen; electrolytics are reformed apart, or replaced.",
  );
  if (series)
    step(
      "no-rectifier",
      `4. First power: behind the isolation transformer, a lamp of ${x.lampWatts.toFixed(0)} W in series, every tube in its socket: with one pulled the whole string is dark, and that proves nothing.`,
      "One hand, nothing touched. The lamp bright at first and dim within a minute; a lamp that stays bright: plug out, B+ and heater string in ohms. A lamp that never lights: the string is open.",
    );
  else
    step(
      "no-rectifier",
      `4. First power: a lamp of ${x.lampWatts.toFixed(0)} W in series, the rectifier out. Expect the heaters alone: the lamp dim at once, the set's volts higher than with the rectifier in.`,
      "One hand, nothing touched. Read the set's volts and type them as setVoltsNoRectifier. A lamp that stays bright: plug out, and look at transformer and heaters.",
    );
  step(
    "rectifier",
    `5. ${series ? "Left on behind the lamp" : "Plug out, discharged, measured; the rectifier in"}. Expect ${g.about("setExpected")} at the set and ${g.about("currentExpected")}, the lamp bright for a second or two and then dim.`,
    `Stop at smoke, smell, a glowing plate, blue light in the output tube, or a lamp that stays bright: near ${g.about("currentShort")} is a dead short. Hold a quarter of an hour while it stays as expected, and read B+ from clips put on beforehand.`,
  );
  step(
    "full",
    "6. The lamp out only when steps 4 and 5 were as expected; then half an hour under watch.",
    `Compare B+ with the sheet on it. Expect ${printValue(x.bPlus, "voltage", 10)} on the first filter capacitor with all tubes warm. Let the transformer cool if it passes what the hand bears.`,
    [...at, "heat"],
  );
  out.push({
    id: "bring-up-variac",
    severity: "check",
    says:
      x.rectifierType === "silicon"
        ? "With silicon B+ follows a variac from the first volts, so capacitors do reform on it; heaters lag, and B+ stands at its crest until the tubes draw."
        : "A variac does little before a tube rectifier heats: no B+ up to about 40 % of the line, then it comes at once. It does not reform capacitors gently, and half-warm cathodes are worn by it. Use the lamp, and reform apart.",
    do: "If a variac is used all the same, go by the table, with the lamp still in series, and stop where the current passes the limit beside the step.",
    restsOn: [],
    hazards: at,
  });
  return out;
}
