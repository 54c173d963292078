import type { NoValue } from "../../ask/results";
import type { StripResponse } from "../../physics/if-strip";
import { capacitorReactanceOhm } from "../../physics/resonance";
import { largestTouchableF, nextPreferred, nextRatedV } from "../../standards/preferred";
import type { Asked } from "./ask";

type BlockInputs = Omit<Asked, "chassis" | "cableType">;

/**
 * Volts at the connector with a capacitor that leaks.
 *
 * @param x plain inputs, SI
 * @param bPlusV B+ behind it, V
 * @param leakOhm resistance of the capacitor, ohm; 0 where it is shorted
 * @returns V
 * @source identity: divider of leak, plate feed and bleeder
 */
export const connectorV = (x: BlockInputs, bPlusV: number, leakOhm: number): number =>
  (bPlusV * x.bleederResistance) / (x.bleederResistance + leakOhm + x.bPlusSourceResistance);

/**
 * Everything about the capacitor in series with a lead from a plate.
 *
 *     V0 = sqrt 2 Vs h                       no-load B+ at high line
 *     C >= 1 / (2 pi f s |Z|)                its reactance at most the share s of the plate's impedance
 *     C >= Ccab (1/t^2 - 1)                  the series trap f sqrt(Ccab/(Ccab + C)) at most t of the IF
 *     V = V0 Rb / (Rb + Rleak)               at the connector
 *
 * @param x plain inputs, SI
 * @param response takes the strip over
 * @returns results, SI
 * @source identities; limits of touchable capacitance after IEC 62368-1 (from memory), preferred values IEC 60063
 */
export function solveBlock(x: BlockInputs, response: StripResponse) {
  const f = x.strip.intermediateFrequency;
  response.load(x.strip).plateAt(f);
  const plateImpedance = Math.hypot(response.plateRe, response.plateIm);
  const cableF = x.cableLength * x.cableCapacitancePerLength;
  const noLoadBPlus = Math.SQRT2 * x.secondaryVoltage * x.highLine;
  const requiredRating = noLoadBPlus * x.ratingMargin;
  const preferredRating: number | NoValue = nextRatedV(requiredRating) ?? { none: "no rated voltage above 4 kV in the table" };
  const byReactance = 1 / (2 * Math.PI * f * x.reactanceShare * plateImpedance);
  const byTrap = cableF * (1 / x.trapRatio ** 2 - 1);
  const smallestCapacitance = Math.max(byReactance, byTrap);
  const largestCapacitance = largestTouchableF(noLoadBPlus);
  const preferredCapacitance = nextPreferred(smallestCapacitance, 6);
  const shorted = connectorV(x, noLoadBPlus, 0);
  return {
    noLoadBPlus,
    requiredRating,
    preferredRating,
    plateImpedance,
    smallestCapacitance,
    largestCapacitance,
    preferredCapacitance,
    seriesReactance: capacitorReactanceOhm(f, preferredCapacitance),
    trapFrequency: f * Math.sqrt(cableF / (cableF + preferredCapacitance)),
    fittedTrap: f * Math.sqrt(cableF / (cableF + x.couplingCapacitance)),
    connectorSound: connectorV(x, noLoadBPlus, x.soundResistance),
    connectorLeaky: connectorV(x, noLoadBPlus, x.leakResistance),
    connectorShorted: shorted,
    bleederPowerShorted: (shorted * shorted) / x.bleederResistance,
    storedEnergy: (preferredCapacitance * noLoadBPlus ** 2) / 2,
    storedCharge: preferredCapacitance * noLoadBPlus,
    pairEach: nextPreferred(2 * smallestCapacitance, 6),
  };
}
