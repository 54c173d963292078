import type { Form } from "./forms";

/** What a field of a card wants: unit, and how it is measured or found. Methods: common practice, no source, but where a limit is cited beside it. */
export interface FieldNote {
  /** unit that a bare figure is in; undefined for words */
  readonly unit?: string;
  readonly how: string;
}
const unplugged = "set unplugged, discharged and measured";
const clipped = "meter clipped on with the set off and discharged; stand clear, switch on, read";
const generator = "signal generator through the dummy antenna, set warm";
const touch = "touch-current meter of 1.5 to 2 kΩ from the chassis to earth, set on; by somebody trained for it";
/** By field, and by column of a table. */
const notes: Readonly<Record<string, FieldNote>> = {
  "Insulation line to chassis, MΩ": {
    unit: "MΩ",
    how: "insulation tester at 500 V DC from both blades to the chassis, unplugged, switch on; by somebody trained for it",
  },
  "B+ to chassis once settled, kΩ": { unit: "kΩ", how: `ohmmeter, ${unplugged}; wait until the reading settles` },
  "Bond, Ω": { unit: "Ω", how: "milliohmmeter or four wires from the earth pin to the chassis, unplugged" },
  "Touch current one way, mA": { unit: "mA", how: touch },
  "Touch current other way, mA": { unit: "mA", how: `${touch}, the plug turned` },
  "Volts left after 10 s, V": { unit: "V", how: "meter clipped on B+ beforehand; read 10 s after the set is unplugged" },
  "Bulb, W": { unit: "W", how: "printed on the bulb" },
  "Line, V": { unit: "V", how: "meter at the outlet" },
  "Volts on the set behind the bulb, V": { unit: "V", how: "meter across the set's own plug, joined while it is unplugged" },
  "B+ behind the bulb, V": { unit: "V", how: clipped },
  "Current at full line, A": { unit: "A", how: "ammeter or power meter in the line, without the bulb" },
  "Line volts": { unit: "V", how: "meter at the outlet, while the chart is read" },
  Meter: { how: "kind and load: 10 Mohm digital, 20 kohm/V; in a row only where that row was read with another meter" },
  "Chart's meter and line": { how: "printed on the chart: 1 kohm/V on the 250 V range, 117 V" },
  "Chart V": { unit: "V", how: "printed on the chart" },
  "Source Ω if known": {
    unit: "Ω",
    how: "resistance of the node itself, all that feeds it in parallel: a meter's load is worked out from it",
  },
  "Part Ω if known": { unit: "Ω", how: "value of the one resistor at that electrode, by its marking or the diagram" },
  "Measured V": { unit: "V", how: clipped },
  "Range V": { unit: "V", how: "range that the meter stood at, where it has ranges" },
  "Chart Ω": { unit: "Ω", how: "printed on the chart" },
  "Measured Ω": { unit: "Ω", how: `ohmmeter, ${unplugged}; wait until the reading settles` },
  "gm %": { unit: "%", how: "tube tester, against a new tube" },
  Value: { unit: "its own, written with it", how: "marking of the part, or as measured" },
  "Rated V": { unit: "V", how: "printed on it" },
  "Leakage mA": { unit: "mA", how: "capacitor tester at rated volts, current-limited, out of the circuit" },
  "Old, measured": { unit: "its own, written with it", how: `bridge or ohmmeter, ${unplugged}` },
  "Warm-up, minutes": { unit: "min", how: "clock, from switching on" },
  "Output before, dB": { unit: "dB", how: `output meter, ${generator}` },
  "Output after, dB": { unit: "dB", how: `output meter, ${generator}` },
  "Dial error before": { unit: "kHz, written with it", how: "zero beat with a marker" },
  "Dial error after": { unit: "kHz, written with it", how: "zero beat with a marker" },
  "Core or trimmer, turns": { unit: "turns", how: "counted, clockwise positive" },
  µV: { unit: "µV", how: generator },
  dBm: { unit: "dBm", how: generator },
  "S reading": { unit: "S units", how: "read off the meter: S7, S9+20" },
  "AVC V": { unit: "V", how: `meter of 10 MΩ or more on the AVC line; ${clipped}` },
  "Audio dB": { unit: "dB", how: "output meter" },
};
/**
 * What a field of a card wants.
 *
 * @param field name of a field or column
 * @returns its unit and how it is measured; words for what is none
 * @source common practice, no source
 */
export const noteOf = (field: string): FieldNote => (Object.hasOwn(notes, field) ? notes[field] : { how: "in words" });
/** Fields of a card that are written by themselves, then the columns of its table. */
export const fieldNotes = (form: Form): readonly (readonly [field: string, note: FieldNote])[] =>
  [...form.fields, ...(form.columns ?? []).map((c) => `row 1: ${c}`)].map((f) => [f, noteOf(f.replace(/^row 1: /, ""))]);
/** Every field that has a note of its own: none of them may be one that no card has. */
export const notedFields = Object.keys(notes);
