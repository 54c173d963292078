import { testTakes } from "../../standards/minutes";
import { tubePoints } from "../../standards/receiving-tubes";
import { addresses, choice, exactly, list, quantity } from "./declare";

export const bfo = addresses("stages.*", {
  oscillator: choice(["above", "below"], "side of the oscillator on this band", "service sheet; a generator at the image tells", "above"),
  cwDetector: choice(["diode", "product"], "detector that the BFO works into", "service sheet", "diode"),
  avcWithBfo: choice(["on", "off"], "AVC while the BFO is on", "its switch", "on"),
  cwPitch: exactly(
    quantity("frequency", "pitch wanted for CW", "chosen", [700, 0, "common practice, no source"], {
      positive: true,
      max: 3000,
    }),
  ),
  bfoRange: quantity(
    "frequency",
    "how far the BFO's knob moves it to each side",
    "zero beat at both ends with a generator by counter",
    [3000, 500, "a manual's value, read"],
    { positive: true, max: 50000 },
  ),
  bfoVolts: quantity(
    "voltage",
    "BFO at the detector, peak",
    "high-impedance probe at the detector, no signal",
    [3, 1, "common practice, no source"],
    { positive: true, max: 100 },
  ),
  signalVolts: quantity(
    "voltage",
    "signal at the detector, peak",
    "high-impedance probe at the detector on a usual signal, BFO off",
    [1, 0.4, "common practice, no source"],
    { positive: true, max: 100 },
  ),
  avcFromBfo: quantity(
    "voltage",
    "how far the BFO alone moves the AVC line; 0 if not at all",
    "high-impedance meter on the AVC line, no signal: BFO off, then on",
    [0, 0.3, "common practice, no source"],
    { min: 0, max: 50 },
  ),
});

export const stages = addresses("stages.*", {
  tube: choice(
    ["first", "second", "third", "fourth"],
    "which of the stage's tubes, or of the halves of a double one",
    "the list of tubes",
    "first",
  ),
  gridReturn: choice(
    ["AVC", "fixed"],
    "what the grid returns to: the AVC line, or the chassis or a fixed bias",
    "service sheet; RF and IF stages go to the AVC line, output stages to the chassis",
    "AVC",
  ),
  tubeType: choice(
    [...tubePoints.map((t) => t.type), "other"],
    "tube type, or one with the same data; other takes typed values",
    "its marking",
    "6BA6",
  ),
  pointPlate: exactly(quantity("voltage", "plate volts of the manual's point", "tube manual", undefined, { positive: true })),
  pointScreen: exactly(quantity("voltage", "screen volts of the manual's point; 0 for a triode", "tube manual", undefined, { min: 0 })),
  pointGrid: exactly(quantity("voltage", "grid volts of the manual's point, against the cathode", "tube manual", undefined, { max: 0 })),
  pointPlateCurrent: exactly(quantity("current", "plate current at the manual's point", "tube manual", undefined, { positive: true })),
  pointScreenCurrent: exactly(
    quantity("current", "screen current at the manual's point; 0 for a triode", "tube manual", undefined, { min: 0 }),
  ),
  transconductance: exactly(
    quantity("conductance", "transconductance at the manual's point", "tube manual", undefined, { positive: true }),
  ),
  supply: exactly(
    quantity("voltage", "B+ that feeds the stage, as it should be", "service sheet; the sheet on B+", undefined, {
      positive: true,
      max: 1000,
    }),
  ),
  plateFeed: exactly(
    quantity("resistance", "resistance from B+ to the plate", "service sheet; ohmmeter, set unplugged", undefined, {
      positive: true,
    }),
  ),
  decouplingFeed: exactly(
    quantity(
      "resistance",
      "resistor from B+ to the plate's decoupling capacitor; 0 without such a capacitor",
      "service sheet; ohmmeter, set unplugged",
      undefined,
      { min: 0 },
    ),
  ),
  screenFeed: exactly(
    quantity("resistance", "resistance from B+ to the screen", "service sheet; ohmmeter, set unplugged", undefined, { min: 0 }),
  ),
  cathodeResistor: exactly(
    quantity("resistance", "cathode resistor", "its marking; ohmmeter, set unplugged", undefined, { positive: true }),
  ),
  gridResistor: exactly(
    quantity("resistance", "resistance from the grid to its return", "its marking; ohmmeter, set unplugged", undefined, {
      positive: true,
    }),
  ),
  returnVolts: exactly(
    quantity(
      "voltage",
      "volts that the grid's return should have, no signal: AVC or bias",
      "meter of 10 MΩ or more on that line",
      undefined,
      { min: -100, max: 300 },
    ),
  ),
  beforeVolts: exactly(
    quantity("voltage", "plate volts of the stage before, behind the coupling capacitor", "the chart", undefined, {
      positive: true,
    }),
  ),
  tubeCurrent: exactly(
    quantity(
      "ratio",
      "current of this stage's tube when sound, against the manual's law",
      "the chart's cathode volts divided by the cathode resistor",
      [1, 0, "as the manual has it"],
      { positive: true, max: 100 },
    ),
  ),
  tubeMu: exactly(
    quantity(
      "ratio",
      "amplification factor of this stage's tube when sound (of the screen in a pentode), against the manual's law",
      "the chart's volts",
      [1, 0, "as the manual has it"],
      { positive: true, max: 100 },
    ),
  ),
  screenPart: exactly(
    quantity(
      "ratio",
      "part of the cathode current that the screen takes when sound, against the manual's; 1 for a triode",
      "the chart's volts across the screen's resistor",
      [1, 0, "as the manual has it"],
      { positive: true, max: 100 },
    ),
  ),
  tests: list(
    {
      test: { options: [...testTakes.keys()], meaning: "which test" },
      ohm: { dimension: "resistance", meaning: "ohms found, of a test that reads ohms", optional: true },
      volts: { dimension: "voltage", bare: "V", meaning: "volts found, of a test that reads volts", optional: true },
      part: { dimension: "ratio", meaning: "share of a new tube's value, where a tube tester was used", optional: true },
    },
    "other tests made, with the power off or a wire lifted; gone once a part was changed at the stage",
    "as the sheet asks for them",
    40,
  ),
  resistorTolerance: exactly(
    quantity("fraction", "tolerance of a sound resistor", "its marking", [0.2, 0, "parts of the era, common practice, no source"], {
      positive: true,
      max: 0.5,
    }),
  ),
  tubeSpread: exactly(
    quantity(
      "fraction",
      "scatter of sound tubes about the manual, one standard deviation",
      "try several",
      [0.15, 0, "a commentary gives 30 % about the mean as normal for receiving tubes (read)"],
      { positive: true, max: 0.5 },
    ),
  ),
  supplySpread: exactly(
    quantity("fraction", "how well B+ is known, one standard deviation", "read it", [0.05, 0, "common practice, no source"], {
      positive: true,
      max: 0.5,
    }),
  ),
});
