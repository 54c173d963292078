import { addresses, choice, exactly, quantity } from "./declare";

export const multiplier = addresses(
  "fittings.*",
  {
    function: choice(["peak", "reject"], "what the accessory is switched to", "chosen", "peak"),
    nullCircuit: choice(
      ["shunt", "inverse-feedback", "subtraction"],
      "how the accessory makes a null",
      "its schematic",
      "inverse-feedback",
    ),
    tankCapacitance: quantity("capacitance", "tank capacitor", "its marking, or a bridge", [1.5e-9, 7.5e-11, "assumed"], {
      positive: true,
    }),
    tankQ: quantity(
      "ratio",
      "Q of the tank without feedback",
      "Q meter, or the -3 dB width with regeneration off",
      [130, 20, "good shielded coil, assumed"],
      { positive: true },
    ),
    regeneration: exactly(
      quantity(
        "fraction",
        "regeneration as set: fraction of the oscillation point",
        "multiplied width against the width without feedback",
        [0.9, 0, "a usual CW setting"],
        { min: 0, max: 2 },
      ),
    ),
    tuningOffset: quantity("frequency", "tuning of the accessory, off the IF", "0 once it is centred", [0, 0, "centred"], {
      min: -20000,
      max: 20000,
    }),
    tuningRange: quantity(
      "frequency",
      "how far the accessory tunes to each side",
      "generator and detector, or beat note",
      [3000, 500, "assumed"],
      { positive: true, max: 20000 },
    ),
    dividerRatio: quantity("ratio", "feedback divider C1/(C1 + C2)", "schematic", [0.5, 0.03, "assumed"], { positive: true, max: 0.99 }),
    transconductance: quantity(
      "conductance",
      "transconductance of the accessory's tube",
      "tube tester",
      [0.0016, 3e-4, "12AX7 class triode, from memory"],
      { positive: true },
    ),
    amplificationFactor: quantity(
      "ratio",
      "amplification factor of the accessory's tube",
      "data book",
      [100, 15, "12AX7 class triode, from memory"],
      { positive: true },
    ),
    lineChange: exactly(
      quantity(
        "fraction",
        "rise of the line that the setting must survive",
        "log the line for some days",
        [0.05, 0, "common practice, no source"],
        { min: 0, max: 0.3 },
      ),
    ),
    gmLineExponent: quantity(
      "ratio",
      "how the tube's transconductance follows the line: gm goes as line to this power",
      "regeneration at the oscillation point, at two line voltages",
      [1, 0.5, "assumed"],
      { min: 0, max: 3 },
    ),
    audioFloor: exactly(
      quantity("frequency", "AM audio that must be left", "chosen", [1500, 0, "readable speech, common practice, no source"], {
        positive: true,
        max: 10000,
      }),
    ),
    cwPitch: exactly(quantity("frequency", "CW pitch", "chosen", [800, 0, "common practice, no source"], { positive: true, max: 3000 })),
    nullCoupling: quantity("capacitance", "shunt null: small capacitor from the plate", "schematic", [5e-12, 1e-12, "assumed"], {
      positive: true,
    }),
    nullLoopGain: quantity("ratio", "inverse-feedback null: loop gain at the null", "depth of the null", [31, 10, "assumed"], {
      positive: true,
    }),
    nullBalanceError: quantity("fraction", "subtraction null: error of the balance", "depth of the null", [0.03, 0.02, "assumed"], {
      positive: true,
      max: 0.9,
    }),
  },
  "q-multiplier",
);
