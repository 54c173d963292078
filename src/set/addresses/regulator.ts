import { gasRegulators } from "../../standards/rectifiers";
import { addresses, choice, quantity } from "./declare";

export const regulator = addresses("regulator", {
  regulatorType: choice(
    gasRegulators.map((g) => g.type),
    "gas tube",
    "its marking",
    "0A2",
  ),
  supply: quantity(
    "voltage",
    "B+ that feeds the regulator, at the rated line",
    "the sheet on B+; read from clips put on with the set off and discharged",
    [250, 10, "usual for a set of this class"],
    { positive: true, max: 1000 },
  ),
  loadLeast: quantity(
    "current",
    "smallest current of the load",
    "tube manual; 0 where the tubes may be cold or cut off",
    [0, 0, "cold tubes draw nothing"],
    { min: 0, max: 0.2 },
  ),
  loadMost: quantity(
    "current",
    "largest current of the load",
    "tube manual; volts across a known resistor",
    [0.01, 0.002, "an oscillator and a mixer's screen"],
    { positive: true, max: 0.2 },
  ),
  fitted: quantity("resistance", "resistor that is fitted", "ohmmeter, set unplugged, discharged", undefined, { min: 0, max: 1e6 }),
  shunt: quantity("capacitance", "capacitor across the tube; 0 for none", "its marking", [0, 0, "none assumed"], { min: 0, max: 0.001 }),
});
