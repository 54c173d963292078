import { addresses, choice, exactly, quantity } from "./declare";

export const shared = addresses("fittings.*", {
  dialError: quantity(
    "frequency",
    "how far the dial may be off at its reading (reads high: positive)",
    "a station of known frequency close by",
    [0, 35000, "0.5 % of a general-coverage dial, common practice, no source"],
    { min: -1e6, max: 1e6 },
  ),
});

export const markers = addresses(
  "fittings.*",
  {
    environment: choice(
      ["city", "residential", "rural", "quiet-rural"],
      "surroundings of the antenna, for the external noise",
      "look out of the window",
      "residential",
    ),
    antenna: choice(["connected", "disconnected"], "whether the antenna is on while the markers are", "chosen", "connected"),
    spacing: exactly(
      quantity(
        "frequency",
        "spacing of the markers: the crystal divided down (1, 2, 4, 5 or 10 MHz to 1000, 500, 200, 100, 50, 25 or 10 kHz)",
        "its schematic",
        [1e5, 0, "the usual marker generator"],
        { positive: true },
      ),
    ),
    amplitude: quantity("voltage", "height of the marker waveform, foot to top", "oscilloscope", [5, 0.5, "logic level, assumed"], {
      positive: true,
    }),
    duty: quantity("ratio", "duty cycle of the marker waveform", "oscilloscope", [0.47, 0.02, "assumed: no divider is exactly one half"], {
      positive: true,
      max: 0.999,
    }),
    riseTime: quantity("time", "rise time", "oscilloscope", [2e-8, 8e-9, "assumed"], { positive: true }),
    fallTime: quantity("time", "fall time", "oscilloscope", [2.5e-8, 8e-9, "assumed"], { positive: true }),
    markerCoupling: quantity(
      "capacitance",
      "capacitor from generator to antenna terminal",
      "its marking, or a bridge",
      [1e-12, 3e-13, "1 to 5 pF, common practice, no source"],
      { positive: true },
    ),
    sourceResistance: quantity("resistance", "source resistance of the generator", "its schematic", [100, 30, "assumed"], {
      positive: true,
    }),
    antennaResistance: quantity("resistance", "antenna, as the terminal sees it", "antenna bridge", [100, 50, "assumed"], {
      positive: true,
    }),
    inputResistance: quantity("resistance", "receiver input", "service sheet", [400, 100, "usual for a set of this class"], {
      positive: true,
    }),
    inputCapacitance: quantity("capacitance", "stray and input capacitance", "bridge", [2e-11, 8e-12, "assumed"], { positive: true }),
    bandwidth: quantity("frequency", "bandwidth that the noise is heard in", "a sweep of the strip", [6000, 500, "the usual AM width"], {
      positive: true,
    }),
    receiverNoiseFigure: quantity(
      "decibel",
      "noise figure of the receiver",
      "noise source, or sensitivity measured",
      [15, 3, "usual for a set of this class, assumed"],
      { positive: true },
    ),
    highestBand: exactly(
      quantity("frequency", "highest frequency wanted", "chosen", [2.97e7, 0, "top of the 10 m band"], { positive: true }),
    ),
    lowestBand: exactly(
      quantity("frequency", "lowest frequency wanted", "chosen", [3.5e6, 0, "bottom of the 80 m band"], { positive: true }),
    ),
    wantedOverNoise: exactly(
      quantity("decibel", "how far above the noise a marker must be", "chosen", [10, 0, "plainly heard, common practice, no source"], {
        positive: true,
      }),
    ),
    loudest: exactly(
      quantity("voltage", "loudest marker wanted on the lowest band", "chosen", [5e-4, 0, "S9+20 by the IARU law"], {
        positive: true,
      }),
    ),
    frontEndCapacitance: quantity(
      "capacitance",
      "capacitance of the antenna circuit at the highest frequency",
      "service sheet, or a bridge",
      [4e-11, 1e-11, "assumed"],
      { positive: true },
    ),
    method: choice(
      ["ear", "flutter", "tone"],
      "how the beat was counted: note by ear, slow flutter of the S meter or the noise, or the difference of two tones",
      "chosen",
      "flutter",
    ),
    sign: choice(
      ["unknown", "markers-high", "markers-low"],
      "which way the markers are off: with a little more capacitance across the crystal the beat slows if they are high",
      "nudge the trimmer a little and listen",
      "unknown",
    ),
    stationFrequency: exactly(
      quantity(
        "frequency",
        "carrier of the standard-frequency station",
        "its published frequency",
        [1e7, 0, "a channel of several stations"],
        { positive: true, min: 1e6, max: 3e7 },
      ),
    ),
    beat: quantity(
      "frequency",
      "beat of the marker against the carrier",
      "count beats over ten seconds or more",
      [20, 1, "assumed, to show what it would mean"],
      { min: 0, max: 5000 },
    ),
    deadZone: quantity(
      "frequency",
      "beat that the audio chain swallows, either way (by ear only)",
      "lowest note that is still heard",
      [0, 35, "20 to 50 Hz, common practice, no source"],
      { min: -100, max: 100 },
    ),
    path: quantity(
      "ppm",
      "what the path adds to the carrier's frequency",
      "take 0, away from dawn and dusk",
      [0, 1e-7, "short-wave sky wave, from memory; ten times that near sunrise and sunset"],
      { min: -1e-5, max: 1e-5 },
    ),
    target: exactly(
      quantity("frequency", "marker that the error is wanted at", "chosen", [2.8e7, 0, "bottom of the 10 m band"], {
        positive: true,
        max: 6e7,
      }),
    ),
    wanted: exactly(
      quantity("frequency", "error that is good enough at the marker asked for", "chosen", [50, 0, "chosen"], { positive: true }),
    ),
    motionalCapacitance: quantity(
      "capacitance",
      "motional capacitance of the crystal",
      "data sheet, or two load capacitors",
      [8e-15, 4e-15, "assumed: varies widely"],
      { positive: true },
    ),
    shuntCapacitance: quantity(
      "capacitance",
      "holder capacitance of the crystal",
      "bridge, well off resonance",
      [5e-12, 2e-12, "assumed"],
      { positive: true },
    ),
    loadCapacitance: quantity(
      "capacitance",
      "load capacitance as it is now",
      "schematic, strays included",
      [3e-11, 5e-12, "the usual 30 or 32 pF"],
      { positive: true },
    ),
    trimmerTravel: quantity(
      "capacitance",
      "range left to the trimmer from its present setting, up and down",
      "its marking, half its range",
      [1e-11, 5e-12, "common practice, no source"],
      { positive: true, max: 1e-9 },
    ),
    dialFrequency: exactly(
      quantity(
        "frequency",
        "what the dial says at the marker",
        "read the dial at zero beat, coming from the usual side",
        [7.11e6, 0, "an example"],
        { positive: true, max: 6e7 },
      ),
    ),
    anchor: exactly(
      quantity(
        "frequency",
        "a frequency known for certain, from which markers were counted",
        "a standard-frequency station, or a coarser marker",
        [5e6, 0, "a standard-frequency channel"],
        { positive: true },
      ),
    ),
    counted: exactly(
      quantity("ratio", "markers counted from the known frequency to this one, up positive", "tune slowly and count each one", [
        21,
        0,
        "an example",
      ]),
    ),
  },
  "marker-generator",
);

export const calibrator = addresses("fittings.markers", {
  crystalError: quantity(
    "ppm",
    "error of the markers (their frequency is high: positive)",
    "the sheet on trimming the marker crystal",
    [0, 2e-5, "a crystal that was never trimmed, common practice, no source"],
    { min: -0.001, max: 0.001 },
  ),
  spacing: exactly(
    quantity("frequency", "spacing of the markers", "the generator's switch", [1e5, 0, "the usual marker generator"], {
      positive: true,
    }),
  ),
  markerDoubt: exactly(
    quantity(
      "ppm",
      "standard uncertainty of the markers",
      "the sheet on trimming the marker crystal",
      [1e-5, 0, "a crystal that was never trimmed, common practice, no source"],
      { positive: true, max: 0.001 },
    ),
  ),
});
