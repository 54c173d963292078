import { inside } from "../../ask/declare";
import { hazardousDcV } from "../../standards/cautions";
import type { G, Put } from "./ask";

/**
 * The answer in short: what to fit, and what it never does.
 *
 * @param g what the answer stands on
 * @returns two sentences
 * @source house frame
 */
export const headlineOf = (g: G): string =>
  `Put ${g.about("preferredCapacitance")} rated ${g.about("preferredRating")} in series at the plate: B+ can reach ${g.about("noLoadBPlus")} with no load. It keeps B+ off the connector in normal use; it never makes the connector safe to touch.`;

/**
 * What the answer means at the bench. All of it is at the plate or its connector, so all of it carries B+ and stored charge.
 *
 * @param g what the answer stands on
 * @param put takes each finding
 * @source house frame
 */
export function findingsOf(g: G, put: Put): void {
  put(
    "block-at-the-plate",
    "act",
    `The series capacitor belongs at the plate pin, inside the chassis. At the connector it would leave B+ of up to ${g.say("noLoadBPlus")} on the whole cable.`,
    {
      do: "Power off, discharge, measure. Mount the capacitor with its lead short at the plate pin, sleeve it, and run the cable from its far end.",
      restsOn: ["noLoadBPlus", "preferredCapacitance", "preferredRating"],
    },
  );
  put(
    "block-one-short-is-enough",
    "act",
    `With one capacitor a dead short puts ${g.say("connectorShorted")} on the connector. A bleeder holds a leak (${g.say("connectorLeaky")} with the leak stated), not a short: it would burn ${g.say("bleederPowerShorted")}.`,
    {
      do: `Use two capacitors in series, ${g.say("pairEach")} each and each rated for the whole voltage: that survives one short. Fit a shrouded connector in any case.`,
      restsOn: ["connectorShorted", "connectorLeaky", "bleederPowerShorted", "pairEach"],
    },
  );
  aboutLeak(g, put);
  aboutSize(g, put);
  aboutFitted(g, put);
  put(
    "block-stored",
    "note",
    `Charged, it holds ${g.say("storedCharge")} and ${g.say("storedEnergy")}. The filter capacitors behind it hold far more.`,
    { restsOn: ["storedEnergy", "storedCharge"], hazards: inside },
  );
}
function aboutLeak(g: G, put: Put): void {
  const held = g.verdict((_, y) => y.connectorLeaky < hazardousDcV.value);
  const restsOn = ["connectorLeaky"] as const;
  if (held === "yes") {
    put(
      "block-leak-held",
      "note",
      `A leak as stated brings the connector to ${g.say("connectorLeaky")}, under ${hazardousDcV.value} V. This is computed, not proof: measure before touching.`,
      { restsOn, hazards: inside },
    );
    return;
  }
  put(
    "block-leak-not-held",
    held === "open" ? "check" : "act",
    `A leak as stated brings the connector to ${g.say("connectorLeaky")}; ${hazardousDcV.value} V DC already counts as hazardous.`,
    {
      do: "Fit a lower bleeder from the cable side to the chassis, and reject any capacitor that shows leakage at its working voltage.",
      restsOn,
    },
  );
}
function aboutSize(g: G, put: Put): void {
  const fits = g.verdict((_, y) => y.preferredCapacitance <= y.largestCapacitance);
  if (fits === "yes") return;
  put(
    "block-too-large",
    fits === "open" ? "check" : "act",
    `The smallest useful value, ${g.say("smallestCapacitance")}, runs into the largest capacitance that a touchable part may have at this voltage, ${g.say("largestCapacitance")}.`,
    {
      do: "Use a shorter or a lower-capacitance cable, so that a smaller capacitor will do.",
      restsOn: ["smallestCapacitance", "largestCapacitance"],
    },
  );
}
function aboutFitted(g: G, put: Put): void {
  const recorded = g.verdict((x, y) => x.couplingCapacitance >= y.smallestCapacitance && x.couplingCapacitance <= y.largestCapacitance);
  if (recorded === "yes") return;
  put(
    "block-recorded-differs",
    "check",
    `The series capacitor that the other sheets use (input couplingCapacitance) ${recorded === "no" ? "is" : "may be"} outside these limits: its trap lies at ${g.say("fittedTrap")}.`,
    {
      do: "Record as couplingCapacitance what is fitted, two in series as their half; then ask those sheets again.",
      restsOn: ["fittedTrap", "smallestCapacitance", "largestCapacitance"],
      state: "desk",
    },
  );
}
