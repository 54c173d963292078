import type { Bare } from "../units/bare";
import type { Dimension } from "../units/dimensions";

/** A set described from nothing: what a person is asked, in order, with help at each. What is left out is assumed, and marked so. */
export interface OutlineField {
  readonly id: string;
  readonly label: string;
  readonly help: string;
  readonly kind: "text" | "choice" | "quantity" | "lines";
  readonly dimension?: Dimension;
  readonly options?: readonly { readonly id: string; readonly says: string }[];
  /** what stands there until something is typed */
  readonly assumed: string;
  /** how well it is known where nobody says a tolerance; else as its dimension has it */
  readonly bare?: Bare;
  readonly min?: number;
  readonly max?: number;
}
const option = (id: string, says: string) => ({ id, says });
const yesNo = [option("yes", "yes"), option("no", "no")];

export const outlineFields: readonly OutlineField[] = [
  {
    id: "title",
    label: "What it is said to be",
    help: "as the plate, the owner or the cabinet has it",
    kind: "text",
    assumed: "Receiver, described from scratch",
  },
  {
    id: "chassis",
    label: "The chassis is",
    help: "look where the cord comes in; until it is stated it counts as live",
    kind: "choice",
    options: [
      option("unstated", "not known yet (counts as live)"),
      option("isolated", "isolated: the set has its own power transformer"),
      option("live", "live: one side of the line reaches the chassis"),
    ],
    assumed: "unstated",
  },
  {
    id: "lineVoltage",
    label: "Line voltage by its type plate",
    help: "type plate",
    kind: "quantity",
    dimension: "voltage",
    bare: "exact",
    assumed: "117 V",
    min: 20,
    max: 500,
  },
  {
    id: "lineFrequency",
    label: "Line frequency",
    help: "type plate",
    kind: "quantity",
    dimension: "frequency",
    bare: "exact",
    assumed: "60 Hz",
    min: 10,
    max: 1000,
  },
  {
    id: "watts",
    label: "Power by its type plate",
    help: "type plate",
    kind: "quantity",
    dimension: "power",
    assumed: "75 W",
    min: 5,
    max: 1000,
  },
  {
    id: "rectifier",
    label: "Rectifier",
    help: "look for a tube with the heater alone and two plates, or for a diode that somebody put in",
    kind: "choice",
    options: [
      option("full-wave vacuum", "full-wave, a tube"),
      option("full-wave silicon, as altered", "full-wave, silicon"),
      option("half-wave vacuum, from the line", "half-wave from the line, a tube"),
      option("half-wave silicon or selenium, from the line", "half-wave from the line, silicon or selenium"),
    ],
    assumed: "full-wave vacuum",
  },
  {
    id: "secondaryVoltage",
    label: "Rms volts to the rectifier, one half",
    help: "service sheet; half-wave from the line: the line's own volts",
    kind: "quantity",
    dimension: "voltage",
    assumed: "290 V",
    min: 50,
    max: 600,
  },
  {
    id: "mixerPlate",
    label: "B+ at the mixer plate",
    help: "voltage chart of the service sheet; B+ kills, so leave it until the set is safe to measure",
    kind: "quantity",
    dimension: "voltage",
    assumed: "250 V",
    min: 10,
    max: 600,
  },
  {
    id: "intermediateFrequency",
    label: "IF",
    help: "service sheet, or stamped on a can; for a double-conversion set the last one",
    kind: "quantity",
    dimension: "frequency",
    bare: "exact",
    assumed: "455 kHz",
    min: 40e3,
    max: 12e6,
  },
  {
    id: "cans",
    label: "IF cans",
    help: "count the shielded transformers between mixer and detector",
    kind: "choice",
    options: ["1", "2", "3", "4"].map((n) => option(n, n)),
    assumed: "3",
  },
  {
    id: "canQuality",
    label: "The cans are",
    help: "a sweep will tell later; this only sets what is assumed till then",
    kind: "choice",
    options: [
      option("wide", "small: Q about 70"),
      option("medium", "good, the usual: Q about 110"),
      option("sharp", "large, pot cores: Q about 190"),
    ],
    assumed: "medium",
  },
  {
    id: "filter",
    label: "Filter after the first can",
    help: "ceramic: a flat sealed block beside the first can; crystal: a can with a phasing knob",
    kind: "choice",
    options: [option("no", "none"), option("yes", "ceramic ladder"), option("crystal", "crystal, with phasing")],
    assumed: "no",
  },
  {
    id: "rfStages",
    label: "RF stages before the mixer",
    help: "tubes between antenna and mixer",
    kind: "choice",
    options: ["0", "1", "2"].map((n) => option(n, n)),
    assumed: "1",
  },
  {
    id: "conversions",
    label: "Conversions",
    help: "two where a crystal or fixed oscillator comes before the tuned mixer",
    kind: "choice",
    options: [option("1", "one"), option("2", "two")],
    assumed: "1",
  },
  { id: "bfo", label: "BFO", help: "a switch marked CW or SSB", kind: "choice", options: yesNo, assumed: "yes" },
  {
    id: "bands",
    label: "Bands, one a line: from - to, then “spread” for a bandspread scale",
    help: "such as 1.5 - 4.3 MHz, or 7 - 7.3 MHz spread; “below” where the oscillator runs below the signal",
    kind: "lines",
    assumed: "0.53 - 1.54 MHz\n1.5 - 4.3 MHz\n4.2 - 12.2 MHz\n11.8 - 31 MHz",
  },
  {
    id: "tubes",
    label: "Tubes, one a line: type and what it does, with the socket where you know it",
    help: "such as V2 6BE6 mixer, or 12AX7 first audio / BFO; types alone will do where they tell what the tube does; leave it empty and each stage gets a socket without a type",
    kind: "lines",
    assumed: "",
  },
];
