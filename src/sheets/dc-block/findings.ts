import type { Ground } from "../../ask/contract";
import type { Finding } from "../../ask/findings";
import { hazardousDcV } from "../../standards/cautions";

type Names =
  | "noLoadBPlus"
  | "requiredRating"
  | "preferredRating"
  | "plateImpedance"
  | "smallestCapacitance"
  | "largestCapacitance"
  | "preferredCapacitance"
  | "seriesReactance"
  | "trapFrequency"
  | "fittedTrap"
  | "connectorSound"
  | "connectorLeaky"
  | "connectorShorted"
  | "bleederPowerShorted"
  | "storedEnergy"
  | "storedCharge"
  | "pairEach";
type G = Ground<never, Record<Names, never>>;
type F = Finding<Record<Names, never>>;

export const blockHeadline = (g: G): string =>
  `Put ${g.about("preferredCapacitance")} rated ${g.about("preferredRating")} in series at the plate: B+ can reach ${g.about("noLoadBPlus")} with no load. It keeps B+ off the connector in normal use; it never makes the connector safe to touch.`;

/** What the answer means at the bench. Every step is at the plate or its connector, so every step carries B+ and stored charge. */
export function blockFindings(g: G): F[] {
  const out: F[] = [];
  const at: F["hazards"] = ["b-plus", "stored-charge"];
  out.push({
    id: "block-at-the-plate",
    severity: "act",
    says: `The series capacitor belongs at the plate pin, inside the chassis. At the connector it would leave B+ of up to ${g.say("noLoadBPlus")} on the whole cable.`,
    do: "Power off, discharge, measure. Mount the capacitor with its lead short at the plate pin, sleeve it, and run the cable from its far end.",
    restsOn: ["noLoadBPlus", "preferredCapacitance", "preferredRating"],
    hazards: at,
  });
  out.push({
    id: "block-one-short-is-enough",
    severity: "act",
    says: `With one capacitor a dead short puts ${g.say("connectorShorted")} on the connector. A bleeder holds a leak (${g.say("connectorLeaky")} with the leak stated), not a short: it would burn ${g.say("bleederPowerShorted")}.`,
    do: `Use two capacitors in series, ${g.say("pairEach")} each and each rated for the whole voltage: that survives one short. Fit a shrouded connector in any case.`,
    restsOn: ["connectorShorted", "connectorLeaky", "bleederPowerShorted", "pairEach"],
    hazards: at,
  });
  const leaky = g.verdict((_, y) => Number((y as Record<Names, number>).connectorLeaky) < hazardousDcV.value);
  out.push(
    leaky === "yes"
      ? {
          id: "block-leak-held",
          severity: "note",
          says: `A leak as stated brings the connector to ${g.say("connectorLeaky")}, under ${hazardousDcV.value} V. This is computed, not proof: measure before touching.`,
          restsOn: ["connectorLeaky"],
          hazards: at,
        }
      : {
          id: "block-leak-not-held",
          severity: leaky === "open" ? "check" : "act",
          says: `A leak as stated brings the connector to ${g.say("connectorLeaky")}; ${hazardousDcV.value} V DC already counts as hazardous.`,
          do: "Fit a lower bleeder from the cable side to the chassis, and reject any capacitor that shows leakage at its working voltage.",
          restsOn: ["connectorLeaky"],
          hazards: at,
        },
  );
  const fits = g.verdict(
    (_, y) => Number((y as Record<Names, number>).preferredCapacitance) <= Number((y as Record<Names, number>).largestCapacitance),
  );
  if (fits !== "yes")
    out.push({
      id: "block-too-large",
      severity: fits === "open" ? "check" : "act",
      says: `The smallest useful value, ${g.say("smallestCapacitance")}, meets the largest that a touchable part may hold at this voltage, ${g.say("largestCapacitance")}.`,
      do: "Use a shorter or a lower-capacitance cable, so that a smaller capacitor will do.",
      restsOn: ["smallestCapacitance", "largestCapacitance"],
      hazards: at,
    });
  const recorded = g.verdict((x, y) => {
    const { smallestCapacitance, largestCapacitance } = y as Record<Names, number>;
    const c = (x as { couplingCapacitance: number }).couplingCapacitance;
    return c >= smallestCapacitance && c <= largestCapacitance;
  });
  if (recorded !== "yes")
    out.push({
      id: "block-recorded-differs",
      state: "desk",
      severity: "check",
      says: `The series capacitor that the other sheets use (input couplingCapacitance) ${recorded === "no" ? "is" : "may be"} outside these limits: its trap lies at ${g.say("fittedTrap")}.`,
      do: "Record as couplingCapacitance what is fitted, two in series as their half; then ask those sheets again.",
      restsOn: ["fittedTrap", "smallestCapacitance", "largestCapacitance"],
      hazards: at,
    });
  out.push({
    id: "block-stored",
    severity: "note",
    says: `Charged, it holds ${g.say("storedCharge")} and ${g.say("storedEnergy")}. The filter capacitors behind it hold far more.`,
    restsOn: ["storedEnergy", "storedCharge"],
    hazards: at,
  });
  return out;
}
