import { cables } from "../../standards/cables";
import { addresses, choice, exactly, quantity } from "./declare";

export const joint = addresses("fittings.*", {
  cableType: choice(
    ["as-stated", ...cables.map((c) => c.type)],
    "type of cable from the table; as-stated takes the set's own values",
    "printing on the jacket",
    "as-stated",
  ),
  cableLength: quantity(
    "length",
    "cable from the plate to the accessory",
    "tape measure",
    [1, 0.05, "a usual lead, common practice, no source"],
    { positive: true, max: 100 },
  ),
  cableCapacitancePerLength: quantity(
    "capacitancePerLength",
    "capacitance of the cable per length; the table of cable types has it by type",
    "capacitance bridge on a known length, or the cable's data sheet",
    [1.017e-10, 2e-12, "RG-58A/U, printed 31 pF/ft"],
    { positive: true },
  ),
  couplingCapacitance: quantity(
    "capacitance",
    "series capacitor between plate and cable",
    "its marking, or a bridge",
    [1e-9, 1e-10, "usual value, common practice, no source"],
    { positive: true },
  ),
  ratingMargin: exactly(
    quantity("ratio", "margin of the voltage rating over no-load B+ at high line", "chosen", [1.5, 0, "common practice, no source"], {
      positive: true,
      min: 1,
    }),
  ),
  reactanceShare: exactly(
    quantity(
      "fraction",
      "largest reactance allowed, as a fraction of the plate's impedance",
      "chosen",
      [0.05, 0, "common practice, no source"],
      { positive: true, max: 1 },
    ),
  ),
  trapRatio: exactly(
    quantity(
      "fraction",
      "highest series-resonance trap allowed, as a fraction of the IF",
      "chosen",
      [0.3, 0, "common practice, no source: far below the pass band"],
      { positive: true, max: 0.9 },
    ),
  ),
  bleederResistance: quantity(
    "resistance",
    "bleeder from the cable side to the chassis",
    "ohmmeter, set off and discharged",
    [1e6, 50000, "1 to 2.2 Mohm, common practice, no source"],
    { positive: true },
  ),
  leakResistance: exactly(
    quantity(
      "resistance",
      "leakage of a leaky capacitor, to see what it would do",
      "leakage tester at working voltage",
      [1e8, 5e7, "an old paper capacitor, common practice, no source"],
      { positive: true },
    ),
  ),
  soundResistance: exactly(
    quantity("resistance", "insulation of a sound capacitor", "data sheet", [5e10, 2e10, "film or C0G ceramic data sheets, from memory"], {
      positive: true,
    }),
  ),
  velocityFactor: quantity(
    "ratio",
    "velocity factor of the cable",
    "data sheet",
    [0.66, 0.01, "solid polyethylene, data sheet of RG-58A/U"],
    { positive: true, max: 1 },
  ),
  coilQ: quantity("ratio", "Q of the coil that tunes out the cable", "Q meter", [70, 15, "small shielded slug coil, assumed"], {
    positive: true,
  }),
  coilError: quantity("fraction", "error of the coil's inductance", "0 once it is tuned for maximum gain", [0, 0, "tuned"], {
    min: -0.5,
    max: 1,
  }),
});
