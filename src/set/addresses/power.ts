import { rectifierNames } from "../../standards/rectifiers";
import { addresses, choice, exactly, quantity } from "./declare";

export { itself, line } from "./line";

export const supplies = addresses("supplies", {
  secondaryVoltage: quantity(
    "voltage",
    "rms volts that one plate of the rectifier sees, at the rated line (the line itself in a transformerless set)",
    "service sheet, or the transformer's marking; measured only by somebody trained for it, at full winding voltage",
    [300, 15, "usual for a set of this class"],
    { min: 40, max: 1500 },
  ),
  firstCapacitance: quantity(
    "capacitance",
    "first filter capacitor",
    "its marking, then a bridge",
    [2e-5, 4e-6, "usual for a set of this class"],
    { positive: true, max: 0.002 },
  ),
  secondCapacitance: quantity(
    "capacitance",
    "second filter capacitor; 0 for none",
    "its marking, then a bridge",
    [2e-5, 4e-6, "usual for a set of this class"],
    { min: 0, max: 0.002 },
  ),
  thirdCapacitance: quantity(
    "capacitance",
    "third filter capacitor; 0 for none",
    "its marking, then a bridge",
    [1e-5, 2e-6, "usual for a set of this class"],
    { min: 0, max: 0.002 },
  ),
  bleeder: quantity(
    "resistance",
    "bleeder and dividers after the second choke or filter resistor",
    "ohmmeter, set unplugged, discharged, reading settled",
    [50000, 20000, "usual for a set of this class"],
    { positive: true },
  ),
  touchOne: quantity(
    "current",
    "touch current with the plug one way round",
    "meter of 1.5 to 2 kΩ from the chassis to earth, set on; by somebody trained for it",
    undefined,
    { min: 0 },
  ),
  touchOther: quantity(
    "current",
    "touch current with the plug the other way round",
    "meter of 1.5 to 2 kΩ from the chassis to earth, set on, the plug turned; by somebody trained for it",
    undefined,
    { min: 0 },
  ),
  arrangement: choice(
    ["full-wave", "bridge", "half-wave"],
    "rectifier circuit: two plates on a tapped winding, four diodes, or one plate",
    "look at it, or the service sheet",
    "full-wave",
  ),
  rectifierType: choice(
    rectifierNames,
    "what rectifies now; other takes the drop and current typed in",
    "the tube in its socket, or the diodes that somebody put in",
    "5Y3GT or 80",
  ),
  originalRectifier: choice(
    rectifierNames.filter((n) => n !== "silicon" && n !== "other"),
    "vacuum rectifier that the set was made for",
    "service sheet, or the socket's marking",
    "5Y3GT or 80",
  ),
  rectifierDrop: quantity("voltage", "drop of the rectifier at its stated current", "tube manual", [40, 10, "common practice, no source"], {
    positive: true,
    max: 200,
  }),
  rectifierCurrent: exactly(
    quantity("current", "current per plate at which the rectifier's drop is given", "tube manual", [0.1, 0, "common practice, no source"], {
      positive: true,
      max: 2,
    }),
  ),
  secondaryResistance: quantity(
    "resistance",
    "DC resistance of the half that one plate sees; in a transformerless set the surge resistor",
    "ohmmeter, set unplugged, discharged",
    [120, 40, "usual for a set of this class"],
    { positive: true, max: 5000 },
  ),
  primaryResistance: quantity(
    "resistance",
    "DC resistance of the primary; 0 in a transformerless set",
    "ohmmeter, set unplugged",
    [5, 2, "usual for a set of this class"],
    { min: 0, max: 200 },
  ),
  addedResistance: quantity("resistance", "surge resistor in series with each plate", "look for it; ohmmeter", [0, 0, "none assumed"], {
    min: 0,
    max: 5000,
  }),
  filterInput: choice(["capacitor", "choke"], "what the rectifier feeds first", "service sheet, or trace it", "capacitor"),
  firstChoke: quantity(
    "inductance",
    "first choke, or speaker field; 0 for a resistor",
    "service sheet",
    [8, 2, "usual for a set of this class"],
    { min: 0, max: 100 },
  ),
  firstResistance: quantity(
    "resistance",
    "resistance of the first choke, field or resistor",
    "ohmmeter, set unplugged, discharged",
    [250, 60, "usual for a set of this class"],
    { positive: true, max: 20000 },
  ),
  secondChoke: quantity("inductance", "second choke; 0 for a resistor", "service sheet", [0, 0, "a resistor assumed"], {
    min: 0,
    max: 100,
  }),
  secondResistance: quantity(
    "resistance",
    "resistance of the second choke or resistor",
    "ohmmeter, set unplugged, discharged",
    [1500, 300, "usual for a set of this class"],
    { positive: true, max: 1e5 },
  ),
  plateCurrent: quantity(
    "current",
    "drawn after the first choke or filter resistor: the output tube",
    "volts across its cathode resistor, by Ohm's law; tube manual",
    [0.045, 0.008, "usual for a set of this class"],
    { min: 0, max: 1 },
  ),
  restCurrent: quantity(
    "current",
    "drawn after the second choke or filter resistor: all other tubes",
    "volts across the second filter resistor, by Ohm's law, less what the bleeder takes",
    [0.035, 0.008, "usual for a set of this class"],
    { min: 0, max: 1 },
  ),
  currentsAre: choice(
    ["as-made", "as-it-stands"],
    "where the two load currents flow: in the set as made on its rated line, or in the set as it is now on today's line",
    "as-it-stands where they were measured today; as-made where they come from the service sheet or the tube manual",
    "as-made",
  ),
  loadExponent: quantity(
    "ratio",
    "exponent with which the tubes' current follows B+: 1 as in a resistor, 1.5 as in a tube without bias resistor, 0 for no change",
    "the currents at two lines",
    [
      1.2,
      0.25,
      "Child's law with a cathode resistor lies between 1 and 1.5, screens through resistors nearer 1; for a whole set common practice, no source",
    ],
    { min: 0, max: 3 },
  ),
  lossRatio: quantity(
    "ratio",
    "ratio of what winding and rectifier really lose to what the law says",
    "a B+ that is known to be sound, against this sheet",
    [1, 0.1, "makers' published points lie within 4 % of the law's B+, about a tenth of what is lost"],
    { positive: true, min: 0.3, max: 3 },
  ),
  heaters: choice(
    ["parallel", "series"],
    "heaters side by side on a winding, or in one string across the line",
    "service sheet; a set without a power transformer has a string",
    "parallel",
  ),
  bulbWatts: quantity(
    "power",
    "bulb in series",
    "printed on it; an old filament bulb, never an electronic one",
    [100, 5, "next size above 1.3 times the rated power, as bulbs of one size differ; common practice, no source"],
    { positive: true, min: 7, max: 500 },
  ),
  bulbRated: exactly(
    quantity("voltage", "rated volts of the bulb", "printed on it", [120, 0, "a bulb for the line"], {
      positive: true,
      min: 50,
      max: 300,
    }),
  ),
  setVoltsBehindBulb: quantity(
    "voltage",
    "volts across the set behind the bulb, after a minute",
    "AC meter clipped across the set's primary side before the plug goes in",
    undefined,
    { min: 0, max: 300 },
  ),
  setVoltsNoRectifier: quantity(
    "voltage",
    "volts across the set behind the bulb with the rectifier out; no use where a rectifier tube's heater is in a string",
    "AC meter clipped across the set's primary side before the plug goes in, rectifier out",
    undefined,
    { min: 0, max: 300 },
  ),
  heaterRated: exactly(
    quantity("voltage", "rated heater volts", "tube manual", [6.3, 0, "the usual parallel heaters"], {
      positive: true,
      max: 130,
    }),
  ),
  capacitorRating: exactly(
    quantity("voltage", "working voltage of the filter capacitors", "their marking", [450, 0, "usual of the era, from memory"], {
      positive: true,
      max: 2000,
    }),
  ),
  measuredFirst: quantity(
    "voltage",
    "B+ measured on the first filter capacitor",
    "clip the meter on with the set off and discharged, stand clear, switch on",
    undefined,
    { min: 0, max: 1500 },
  ),
  measuredHeater: quantity("voltage", "heater volts measured with all tubes in", "AC range, at a socket", undefined, { min: 0, max: 130 }),
  lowLine: quantity(
    "ratio",
    "lowest line voltage as a multiple of the rated one",
    "log the line for some days",
    [0.92, 0.02, "common practice, no source"],
    { positive: true, max: 1 },
  ),
  intermediate: exactly(
    quantity(
      "frequency",
      "IF that the tuned oscillator works with",
      "service sheet, or a generator on the counter",
      [4.55e5, 0, "the usual IF"],
      { positive: true, min: 20000, max: 6e7 },
    ),
  ),
  plateFeedResistance: quantity(
    "resistance",
    "resistance between the supply and the plate",
    "ohmmeter, set off and discharged",
    [2200, 1000, "usual decoupling resistor and winding, assumed"],
    { positive: true },
  ),
});

/** Points of B+ that the set is described with, from the rectifier on. */
export const nodes = addresses("supplies.nodes.*", {
  volts: quantity("voltage", "volts at this point of B+", "voltmeter to the chassis, set on", undefined, { min: -1500, max: 1500 }),
});
