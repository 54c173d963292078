import { exact } from "../units/quantity";
import type { Entry } from "./document";

/** Entries of an invented set whose safety record holds, for tests: as a careful person would have written them. */
const measured = (value: number) => ({ value, spread: exact, origin: "measured" as const, source: "invented" });
export const safetyIn: Readonly<Record<string, string>> = {
  "Page before opening read, signed": "T. 1 Jan",
  "Cord type": "three-wire, new",
  "Fuse rating and type": "1 A slow",
  "Insulation line to chassis, MΩ": "45",
  "B+ to chassis once settled, kΩ": "62",
  "Bond, Ω": "0.05",
  "Line bypass parts and class": "taken out",
  "Tester used": "insulation tester, invented",
  "Date and sign": "1 Jan, T.",
};
export const firstPower: Readonly<Record<string, string>> = {
  "Bulb, W": "60",
  "Volts on the set behind the bulb, V": "78",
  "Current at full line, A": "0.6",
  "Smoke, glow or smell": "none",
  "Tester used": "voltmeter, invented",
  "Date and sign": "2 Jan, T.",
};
export const safetyOut: Readonly<Record<string, string>> = {
  "Cord type": "three-wire, new",
  "Fuse rating and type": "1 A slow",
  "Insulation line to chassis, MΩ": "40",
  "Bond, Ω": "0.06",
  "Touch current one way, mA": "0.05",
  "Touch current other way, mA": "0.06",
  "Line bypass parts and class": "none",
  "Strain relief": "yes",
  "Knob screws covered": "yes",
  "Connectors with B+ recessed": "none",
  "Volts left after 10 s, V": "31",
  "Tester used": "touch-current meter, invented",
  "Date and sign": "9 Jan, T.",
};

export const handover: Readonly<Record<string, string>> = {
  "What was done": "line bypass taken out, supply proved",
  "Warnings given": "never open it with the plug in",
  "Signature and date": "9 Jan, T.",
};

type Head = () => { readonly id: string; readonly at: string; readonly who: string };
export const card = (head: Head, form: string, fields: Readonly<Record<string, string>>): Entry => ({
  ...head(),
  kind: "form",
  form,
  fields: { ...fields },
});
export const isolatedAct = (head: Head): Entry => ({
  ...head(),
  kind: "chassis",
  state: "isolated",
  evidence: { ohms: measured(45e6) },
  meter: "insulation tester, invented",
  how: "each blade to chassis, switch on; own transformer traced",
  transformer: "",
  confirmed: true,
});
/** The record up to first power: chassis, coming in, behind the bulb. */
export const comingIn = (head: Head): Entry[] => [
  isolatedAct(head),
  card(head, "safety-in", safetyIn),
  card(head, "first-power", firstPower),
];
/** The whole of it. */
export const wholeRecord = (head: Head): Entry[] => [
  ...comingIn(head),
  card(head, "safety-out", safetyOut),
  card(head, "handover", handover),
];
