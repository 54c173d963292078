import { addresses, choice, exactly, quantity } from "./declare";

/** Where an accessory may take its B+ from. */
export const powerTaps = [
  "first filter capacitor",
  "after the first choke or filter resistor",
  "after the second choke or filter resistor",
] as const;

/** What an accessory takes, whatever kind it is. */
export const accessory = addresses("fittings.*", {
  powerFrom: choice(
    ["the receiver", "a supply of its own", "a battery"],
    "where the accessory's power comes from",
    "trace its power lead; look at it",
    "the receiver",
  ),
  powerTap: choice(
    powerTaps,
    "point of B+ that the accessory is fed from",
    "trace its power lead, with the service sheet",
    "after the first choke or filter resistor",
  ),
  made: choice(
    ["unknown", "before 1955", "1955 to 1970", "after 1970", "new parts"],
    "when the accessory was made, or whether all of its parts are new",
    "date codes on its parts; its papers",
    "unknown",
  ),
  hangsOn: choice(
    ["a B+ point", "the antenna terminal", "the detector or the audio"],
    "point in the receiver that the accessory's signal lead is joined to",
    "look at it, with the service sheet",
    "a B+ point",
  ),
  railVolts: quantity(
    "voltage",
    "highest volts on the accessory's own supply line, all tubes cold",
    "its schematic; clip the meter on with it off, first minute after switching on",
    undefined,
    { positive: true, max: 2000 },
  ),
  supplyCurrent: quantity(
    "current",
    "B+ current that the accessory draws",
    "volts across its dropping resistor, set on, by Ohm's law; its schematic or the tube manual",
    undefined,
    { min: 0, max: 0.2 },
  ),
  supplyVolts: exactly(
    quantity("voltage", "B+ that the accessory is made for, at its own terminal", "its schematic", undefined, {
      positive: true,
      max: 600,
    }),
  ),
  heaterCurrent: quantity(
    "current",
    "heater current that the accessory draws; 0 with transistors",
    "add up its tubes by the tube manual",
    undefined,
    { min: 0, max: 5 },
  ),
  tapWithout: quantity(
    "voltage",
    "B+ measured at the accessory's tap, accessory unplugged, all warm",
    "clip the meter on with the set off and discharged, stand clear, switch on",
    undefined,
    { min: 0, max: 1500 },
  ),
  tapWith: quantity(
    "voltage",
    "B+ measured at the accessory's tap, accessory plugged in and warm",
    "voltmeter, set on; clips and line as for the reading without it, set off between the two",
    undefined,
    { min: 0, max: 1500 },
  ),
  heaterVolts: quantity(
    "voltage",
    "heater volts measured with the accessory on",
    "AC range, at a socket, all tubes in and warm",
    undefined,
    { min: 0, max: 130 },
  ),
});

/** Where a Q multiplier was found to sit, and on what it was heard. */
export const centre = addresses(
  "fittings.*",
  {
    centreBeat: quantity(
      "frequency",
      "note between the Q multiplier, just oscillating, and a carrier that the receiver is tuned to for maximum without it",
      "tune for maximum without it; turn regeneration up until it whistles against the carrier; count or match the note, tuning untouched",
      undefined,
      { min: 0, max: 20000 },
    ),
    centreSide: choice(
      ["unknown", "high", "low"],
      "whether the Q multiplier oscillates above the carrier's place in the IF, or below it",
      "turn its tuning a hair toward more capacitance: the note falls if it was high",
      "unknown",
    ),
  },
  "q-multiplier",
);

const sameOutput =
  "generator through the dummy antenna, AVC off or clamped: the level that gives the same output each time, on the same band";
/** What was read in both states: before the accessory came, now without it, and with it. */
export const states = addresses("fittings.*", {
  levelBefore: quantity("voltage", "generator level for the usual output, before the accessory was fitted", sameOutput, undefined, {
    positive: true,
    max: 1,
  }),
  levelWithout: quantity("voltage", "generator level for the usual output now, accessory unplugged", sameOutput, undefined, {
    positive: true,
    max: 1,
  }),
  levelWith: quantity("voltage", "generator level for the usual output now, accessory on", sameOutput, undefined, {
    positive: true,
    max: 1,
  }),
  levelDoubt: quantity(
    "decibel",
    "how well two levels of the generator compare",
    "find one level twice over",
    [0, 0.5, "common practice, no source"],
    { min: -10, max: 10 },
  ),
  statedGain: quantity(
    "decibel",
    "gain that the accessory is stated to give, on over unplugged",
    "its manual, or the sheet on setting it",
    [0, 0, "no change stated"],
    { min: -60, max: 60 },
  ),
  widthBefore: quantity("frequency", "width at -6 dB, before the accessory was fitted", "a sweep of the strip", undefined, {
    positive: true,
    max: 1e5,
  }),
  widthWithout: quantity("frequency", "width at -6 dB now, accessory unplugged", "a sweep of the strip", undefined, {
    positive: true,
    max: 1e5,
  }),
  widthWith: quantity("frequency", "width at -6 dB now, accessory on", "a sweep of the strip", undefined, { positive: true, max: 1e5 }),
  pulled: quantity(
    "frequency",
    "how far the receiver's tuning moves when the accessory is switched on",
    "zero beat on the highest band, accessory off; on: the note",
    undefined,
    { min: 0, max: 1e5 },
  ),
  connectorRead: quantity(
    "voltage",
    "DC volts at the accessory's connector on the receiver, accessory unplugged, all warm",
    "10 MΩ meter clipped on dead, centre pin to chassis, set on",
    undefined,
    { min: -2000, max: 2000 },
  ),
});

/** What the receiver's transformer has to give. */
export const transformer = addresses("supplies", {
  heaterLoad: quantity(
    "current",
    "heater current of the receiver's own tubes and dial lamps",
    "add up its tubes by the tube manual, and its lamps",
    [3, 0.6, "nine tubes of 0.3 A and two lamps of 0.15 A, common practice, no source"],
    { positive: true, max: 20 },
  ),
  heaterRating: exactly(
    quantity("current", "heater current that the winding is rated for", "service sheet, or the transformer's marking", undefined, {
      positive: true,
      max: 50,
    }),
  ),
  heaterRegulation: quantity(
    "fraction",
    "fall of the heater volts from no load to the receiver's own load, as a fraction of the rated volts",
    "AC range, at a socket: with all tubes out and with all in, set on, by somebody trained for it",
    [0.08, 0.03, "5 to 10 % in transformers of the size, common practice, no source"],
    { positive: true, max: 0.5 },
  ),
  directRating: exactly(
    quantity("current", "B+ current that the transformer is rated for", "service sheet, or its marking", undefined, {
      positive: true,
      max: 2,
    }),
  ),
  transformerRise: quantity(
    "temperature",
    "how much warmer than the room the transformer runs in the soak, accessory off",
    "thermometer on it after four hours",
    [40, 8, "40 to 55 °C is taken as the limit, from memory; most run below it"],
    { positive: true, max: 120 },
  ),
  ironShare: quantity(
    "fraction",
    "share of the transformer's heat that comes from its iron, loaded or not",
    "its rise with all tubes out, divided by its rise with all in",
    [0.4, 0.15, "common practice, no source"],
    { min: 0, max: 1 },
  ),
});
