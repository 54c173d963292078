import type { Form } from "./form";

/** The cards that hold what proves a set safe, coming in and going out. Source: as card-list.ts. */
const signed = ["Tester used", "Date and sign"];
export const safetyIn: Form = {
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
};
export const firstPower: Form = {
  id: "first-power",
  title: "First power behind a bulb",
  steps: ["08"],
  state: "open-live",
  line: true,
  fields: [
    "Bulb, W",
    "Line, V",
    "Volts on the set behind the bulb, V",
    "B+ behind the bulb, V",
    "Current at full line, A",
    "Smoke, glow or smell",
    ...signed,
  ],
};
export const safetyOut: Form = {
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
};
