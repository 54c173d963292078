import { accessory } from "../set/addresses/accessory";
import { joint } from "../set/addresses/plate-joint";
import { safety as atLine } from "../set/addresses/safety";
import type { State } from "../standards/cautions";
import { findingById } from "../units/by-id";

/** A kind of work that hands do on a set. */
export interface WorkKind {
  readonly id: string;
  readonly title: string;
  /** the step that this work belongs to: begun by it, proved only when a person says so */
  readonly does?: string;
  /** whether it joins a cable, connector or instrument to the chassis */
  readonly joins?: boolean;
  /** what it makes of the accessory that it is done to */
  readonly makesFitting?: "fitted" | "set" | "offered";
  /** whether a band's dial reads otherwise afterwards: zero beats from before it are of a dial that is no more */
  readonly movesDial?: boolean;
  /** what the hands were at: work inside makes the final safety test due, whatever it was */
  readonly state: State;
  /** what of the set's record it changes */
  readonly changes?: readonly Changed[];
}
/** A fact or value of the set that a piece of work changes: asked for in the same act, so that the record follows the hands. */
export interface Changed {
  /** its path in the set; `{subject}` stands for what was worked on */
  readonly path: string;
  readonly asks: string;
}
const dead = { state: "open-dead" } as const;
const live = { state: "open-live" } as const;
const at = (address: string): string => address.replace("fittings.*", "{subject}");
export const workKinds: readonly WorkKind[] = [
  { id: "capacitor-replaced", title: "Capacitor replaced", does: "05", ...dead },
  {
    id: "line-capacitor-replaced",
    title: "Capacitor at the line taken out or replaced",
    does: "05",
    ...dead,
    changes: [
      { path: atLine.bypassClass.address, asks: "class of what is there now, or none fitted" },
      { path: atLine.bypass.address, asks: "capacitance from the line to the chassis now; 0 pF for none" },
    ],
  },
  { id: "filter-capacitor-replaced", title: "Filter capacitor replaced", does: "05", ...dead },
  { id: "cord-changed", title: "Line cord, plug, fuse or switch changed", does: "03", ...dead },
  { id: "oscillator-capacitor-replaced", title: "Capacitor in the oscillator replaced", movesDial: true, does: "05", ...dead },
  { id: "resistor-replaced", title: "Resistor replaced", does: "06", ...dead },
  { id: "avc-resistor-replaced", title: "Resistor in the AVC line replaced", does: "06", ...dead },
  { id: "tube-replaced", title: "Tube replaced", ...dead },
  { id: "oscillator-tube-replaced", title: "Oscillator or mixer tube replaced", movesDial: true, ...dead },
  { id: "rf-tube-replaced", title: "RF tube replaced", ...dead },
  {
    id: "supply-changed",
    title: "Rectifier, regulator or line tap changed",
    ...dead,
    changes: [
      { path: "supplies.rectifierType", asks: "rectifier fitted now" },
      { path: "line.voltage", asks: "volts of the line tap in use now" },
    ],
  },
  { id: "avc-mended", title: "AVC line mended", does: "15", ...dead },
  { id: "pointer-moved", title: "Pointer or bandspread index moved", movesDial: true, does: "16", state: "panel" },
  { id: "if-centre-chosen", title: "New IF centre chosen", movesDial: true, does: "18", state: "desk" },
  {
    id: "cable-fitted",
    title: "Cable fitted at the mixer plate",
    does: "31a",
    joins: true,
    makesFitting: "fitted",
    ...dead,
    changes: [{ path: "{subject}.cableLength", asks: "length of the cable as fitted" }],
  },
  {
    id: "cable-length-changed",
    title: "Length of the accessory's cable changed",
    joins: true,
    ...dead,
    changes: [{ path: "{subject}.cableLength", asks: "length of the cable now" }],
  },
  { id: "first-can-repeaked", title: "First IF can re-peaked", ...live },
  { id: "if-aligned", title: "IF aligned", does: "20", ...live },
  { id: "if-can-mended", title: "IF can mended", ...dead },
  { id: "crystal-filter-set", title: "Crystal filter set", does: "21", ...live },
  { id: "accessory-set", title: "Accessory set and centred", does: "31b", joins: true, makesFitting: "set", state: "panel" },
  { id: "converter-fitted", title: "Crystal converter fitted", does: "32", joins: true, makesFitting: "fitted", ...dead },
  { id: "markers-trimmed", title: "Marker crystal trimmed", does: "28", ...live },
  { id: "compensation-changed", title: "Temperature compensation changed", movesDial: true, does: "30", ...dead },
  { id: "oscillator-aligned", title: "Oscillator aligned", movesDial: true, does: "23", ...live },
  { id: "rf-aligned", title: "RF circuits aligned", does: "24", ...live },
  { id: "wiring-mended", title: "Joint, wire or contact mended", ...dead },
  { id: "accessory-mended", title: "Part of an accessory replaced", does: "31c", ...dead },
  {
    id: "series-capacitor-replaced",
    title: "Series capacitor at a B+ point replaced",
    does: "31c",
    ...dead,
    changes: [
      { path: at(joint.couplingCapacitance.address), asks: "series capacitor as it is now; two equal ones in series count as half" },
    ],
  },
  { id: "accessory-tube-replaced", title: "Tube or transistor of an accessory replaced", ...dead },
  {
    id: "accessory-fed",
    title: "Power lead of an accessory fitted, or moved to another point",
    does: "31d",
    joins: true,
    ...dead,
    changes: [
      { path: at(accessory.powerFrom.address), asks: "where the accessory's power comes from now" },
      { path: at(accessory.powerTap.address), asks: "point of B+ that feeds it now" },
    ],
  },
  { id: "accessory-taken-off", title: "Accessory and its lead taken off for good", makesFitting: "offered", ...dead },
  { id: "covers-changed", title: "Shield or cabinet taken off or put on", ...dead },
  { id: "soak-fault", title: "Fault found in the soak", state: "panel" },
  { id: "described-stages", title: "Stage of the description corrected", state: "desk" },
  { id: "described-tubes", title: "Tube of the description corrected", state: "desk" },
  { id: "described-bands", title: "Band of the description corrected", state: "desk" },
  { id: "described-cans", title: "IF can of the description corrected", state: "desk" },
  { id: "described-nodes", title: "Point of B+ in the description corrected", state: "desk" },
  { id: "described-taps", title: "Tap of the description corrected", state: "desk" },
  { id: "described-fittings", title: "Accessory of the description corrected", state: "desk" },
];
export const workKindById = findingById(workKinds);
