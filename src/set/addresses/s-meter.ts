import { iaruS9Dbm } from "../../standards/smeter";
import { addresses, exactly, list, quantity } from "./declare";

export const sMeter = addresses("sMeter", {
  steps: list(
    {
      level: { dimension: "dbm", bare: "dBm", meaning: "generator's level" },
      reading: { dimension: "sReading", optional: true, meaning: "S meter" },
      avc: { dimension: "voltage", bare: "V", optional: true, meaning: "AVC volts" },
      audio: { dimension: "decibel", bare: "dB", optional: true, meaning: "audio output" },
    },
    "steps of the generator, and how the set answered each",
    "generator through the dummy antenna, 1 µV to 100 mV (-107 to -7 dBm in 50 Ω), 10 or 20 dB a step; AVC on, RF gain full; high-impedance meter on the AVC line",
    100,
  ),
  generatorError: quantity(
    "decibel",
    "true level minus the level that the generator shows: +2 dB where 2 dB more comes out",
    "its calibration",
    [0, 1, "a good generator, common practice, no source"],
    { min: -30, max: 30 },
  ),
  needleRead: exactly(
    quantity("ratio", "how well the meter's needle is read, in S units", "a fifth of a unit", [0.2, 0, "common practice, no source"], {
      positive: true,
      max: 3,
    }),
  ),
  wantedS9: exactly(
    quantity("dbm", "level wanted for S9", "older sets 100 µV, later ones 50 µV in 50 Ω", [iaruS9Dbm, 0, "IARU Region 1, below 30 MHz"], {
      min: -120,
      max: 0,
    }),
  ),
  unitWanted: exactly(
    quantity("decibel", "decibels wanted for an S unit", "6 dB by the IARU; period sets often 4 to 5", [6, 0, "IARU Region 1"], {
      positive: true,
      max: 20,
    }),
  ),
});
