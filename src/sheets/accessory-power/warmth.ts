import { heaterLimit } from "../../standards/heaters";
import { printValue } from "../../units/print";
import type { G, Put } from "./ask";

/** Rise that is taken as the most for a transformer of the era, °C. From memory; the soak's own limit. */
const mostRise = 55;
export const heatersHold = (g: G) => g.verdict((x, y) => y.heaterWith >= (1 - heaterLimit.share) * x.heaterRated);
export const ratingHolds = (g: G) =>
  g.best.heaterRating === undefined ? undefined : g.verdict((x, y) => y.heaterTotal <= (x.heaterRating ?? 0));

/**
 * Heaters and transformer with the accessory on: what their volts and warmth may be.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source heaterLimit; warmth from memory
 */
export function aboutHeaters(g: G, put: Put): void {
  const x = g.best;
  if (x.heaters === "series") {
    if (x.heaterCurrent > 0)
      put(
        "power-string",
        "act",
        "The receiver's heaters are in a string across the line: one more heater in series starves them all, and one across part of it burns out.",
        {
          do: "Unplug the set. Leave the string alone: heat the accessory's tubes from a small transformer of their own, or build it with transistors.",
          hazards: ["line", "b-plus", "stored-charge"],
        },
      );
    return;
  }
  const rated = ratingHolds(g);
  const volts = heatersHold(g);
  const unknown = x.heaterRating === undefined;
  const gravity = volts === "no" || rated === "no" ? "act" : volts === "open" || rated !== "yes" ? "check" : "note";
  put(
    `power-heaters-${gravity === "act" ? "no" : gravity === "check" ? "open" : "yes"}`,
    gravity,
    `Heaters: ${g.say("heaterTotal")} together${unknown ? "; what the winding is rated for is not known" : `, of ${printValue(x.heaterRating ?? 0, "current")} that the winding is rated for`}. Their volts fall by ${g.say("heaterFall")} to ${g.say("heaterWith")}; 10 % under ${printValue(x.heaterRated, "voltage")} is the limit (${heaterLimit.source}).`,
    {
      ...(gravity === "note"
        ? {}
        : {
            do: "Clip an AC meter on at the last socket of the heater line, all tubes in, all warm: volts without the accessory, then with it. Below the limit, or with the transformer too hot after an hour, give the accessory a heater transformer of its own.",
          }),
      restsOn: ["heaterTotal", "heaterFall", "heaterWith"],
      hazards: ["b-plus", "line", "stored-charge", "heat"],
    },
  );
  const hot = g.verdict((_, y) => y.rise > mostRise);
  put(
    `power-warm-${hot}`,
    hot === "yes" ? "act" : hot === "open" ? "check" : "note",
    `It adds up to ${g.say("watts")} to the transformer, which then runs ${g.say("rise")} above the room; ${mostRise} °C is taken as the limit, from memory.`,
    {
      ...(hot === "no"
        ? {}
        : {
            do: "Prove it in a soak with the accessory on, never left alone: a thermometer on the transformer after an hour, and again after four.",
          }),
      restsOn: ["watts", "rise"],
      state: "panel",
      hazards: ["line", "heat"],
    },
  );
}
