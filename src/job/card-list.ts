import type { State } from "../standards/cautions";

/**
 * The record cards of a job, as data: one-off fields, or a table with rows. A card prints blank for pencil and is typed in by the same order.
 * Source: fields that handbooks, depot records and practitioners' cards have in common; common practice, no single source.
 */
export interface Form {
  readonly id: string;
  readonly title: string;
  /** steps of the job that the card belongs to */
  readonly steps: readonly string[];
  /** what filling it in wants of the set */
  readonly state: State;
  /** whether it meets the line */
  readonly line?: boolean;
  readonly fields: readonly string[];
  /** fields that the card had once: shown where something was written in them */
  readonly earlier?: readonly string[];
  /** columns of the table, where the card has one; rows are numbered */
  readonly columns?: readonly string[];
  /** first cells that the set itself supplies: its tubes, bands or fittings */
  readonly rowsFrom?: "tubes" | "bands" | "fittings";
}

const signed = ["Tester used", "Date and sign"];
export const forms: readonly Form[] = [
  {
    id: "intake",
    title: "Intake card",
    steps: ["01", "02"],
    state: "desk",
    fields: [
      "Date",
      "Owner",
      "How to reach the owner",
      "What it is said to be",
      "Serial or marks",
      "Line rating on the plate",
      "Condition",
      "Missing parts",
      "Past work found in it",
      "What proves the past work",
      "Symptoms",
      "Last used",
      "The owner's wish",
      "How original it must stay",
      "Limits of the work agreed",
      "Accessories with it",
    ],
  },
  {
    id: "safety-in",
    title: "Safety record, coming in",
    steps: ["02", "03", "04"],
    state: "open-dead",
    line: true,
    fields: [
      "Page before opening read, signed",
      "Cord type",
      "Fuse rating and type",
      "Insulation line to chassis, MΩ",
      "B+ to chassis once settled, kΩ",
      "Bond, Ω",
      "Touch current one way, mA",
      "Touch current other way, mA",
      "Line bypass parts and class",
      ...signed,
    ],
    earlier: ["Insulation HV to chassis, MΩ", "Chassis: isolated, live, unstated", "Volts left after 10 s"],
  },
  {
    id: "first-power",
    title: "First power behind a bulb",
    steps: ["08"],
    state: "open-live",
    line: true,
    fields: [
      "Lamp, W",
      "Line, V",
      "Volts on the set behind the lamp, V",
      "B+ behind the lamp, V",
      "Current at full line, A",
      "Smoke, glow or smell",
      ...signed,
    ],
  },
  {
    id: "safety-out",
    title: "Safety record, going out",
    steps: ["35"],
    state: "open-live",
    line: true,
    fields: [
      "Cord type",
      "Fuse rating and type",
      "Insulation line to chassis, MΩ",
      "Bond, Ω",
      "Touch current one way, mA",
      "Touch current other way, mA",
      "Line bypass parts and class",
      "Strain relief",
      "Knob screws covered",
      "Connectors with B+ recessed",
      "Volts left after 10 s, V",
      ...signed,
    ],
    earlier: ["Insulation HV to chassis, MΩ", "Volts left after 10 s"],
  },
  {
    id: "voltage-chart",
    title: "Voltage chart",
    steps: ["10"],
    state: "open-live",
    fields: ["Line volts", "Meter", "Signal, gain, band, bandspread", "Chart's meter and line"],
    columns: ["Tube", "Pin", "Electrode", "Chart V", "Source Ω if known", "Part Ω if known", "Measured V", "Range V", "Meter", "Remark"],
    rowsFrom: "tubes",
  },
  {
    id: "resistance-chart",
    title: "Resistance chart",
    steps: ["11"],
    state: "open-dead",
    fields: ["Meter", "Tubes in or out"],
    columns: ["Tube", "Pin", "To chassis or B+", "Chart Ω", "Measured Ω", "Remark"],
    rowsFrom: "tubes",
  },
  {
    id: "tubes",
    title: "Tube list",
    steps: ["07"],
    state: "open-dead",
    fields: ["Tester"],
    columns: ["Socket", "Type found", "Function", "gm %", "Shorts", "Gas", "Heater to cathode", "Replaced"],
    rowsFrom: "tubes",
  },
  {
    id: "capacitors",
    title: "Capacitor survey",
    steps: ["05"],
    state: "open-dead",
    fields: ["Tester"],
    columns: ["Part", "Kind", "Duty", "Value", "Rated V", "Leakage mA", "Remark"],
  },
  {
    id: "accessory-capacitors",
    title: "Accessory's capacitors",
    steps: ["31c"],
    state: "open-dead",
    fields: ["Tester"],
    columns: ["Accessory", "Part", "Kind", "Duty", "Value", "Measured value", "Rated V", "Leakage mA", "Remark"],
  },
  {
    id: "parts",
    title: "Parts replaced",
    steps: ["05", "06"],
    state: "open-dead",
    fields: [],
    columns: [
      "Part",
      "Function",
      "Old value and rating",
      "Old, measured",
      "New value and rating",
      "Reason",
      "Position, lead dress",
      "Old part kept",
    ],
  },
  {
    id: "alignment",
    title: "Alignment record",
    steps: ["20", "23", "24"],
    state: "open-live",
    fields: ["IF centre chosen, and why", "Generator", "Dummy antenna", "AVC state", "BFO state", "Warm-up, minutes"],
    columns: [
      "Band or can",
      "Point",
      "Marker used",
      "Dial error before",
      "Dial error after",
      "Output before, dB",
      "Output after, dB",
      "Core or trimmer, turns",
    ],
    rowsFrom: "bands",
  },
  {
    id: "accessories",
    title: "Accessory sheet",
    steps: ["31a", "31b", "31d", "31e", "32"],
    state: "open-dead",
    fields: [],
    columns: [
      "Accessory",
      "Connection point",
      "Series capacitor and rating",
      "Cable type and length",
      "Coil",
      "Primary re-peaked",
      "B+ and heater current",
    ],
    rowsFrom: "fittings",
  },
  {
    id: "performance",
    title: "Performance sheet",
    steps: ["33a", "33b", "33c"],
    state: "panel",
    fields: ["Generator, last check", "Output meter", "Line volts", "Warm-up, minutes", "Covers on", "AVC and RF gain"],
    earlier: [
      "Sensitivity, with ratio, impedance, bandwidth",
      "Width at -6 dB",
      "Width at -20 dB",
      "Width at -40 dB",
      "Width at -60 dB",
      "Image rejection per band",
      "IF rejection",
      "Hum",
      "Noise",
      "Audio response",
      "Drift",
      "Overload",
    ],
    columns: ["Figure", "Band or place", "As found or as left", "Value", "Method and definition", "Conditions"],
  },
  {
    id: "s-meter",
    title: "S-meter and AVC table",
    steps: ["27"],
    state: "open-live",
    fields: ["Generator, impedance"],
    columns: ["µV", "dBm", "S reading", "AVC V", "Audio dB"],
  },
  {
    id: "handover",
    title: "Report to the owner",
    steps: ["36"],
    state: "desk",
    fields: [
      "What was wrong",
      "What was done",
      "What was not done",
      "How original it stayed",
      "Warnings given",
      "Care",
      "Next check due",
      "Signature and date",
    ],
  },
];
