import type { Edge } from "./ripple-row";

/** What work on an accessory makes due again: part of the table in ripple.ts. Source: as there. */
type Row = readonly [makes: "redo" | "check", target: string, why: string, extra?: Partial<Edge>];
const edges = (work: string, rows: readonly Row[]): Edge[] =>
  rows.map(([makes, target, why, extra]) => ({ work, makes, target, why, ...extra }));
const notThatOne = "the accessory is not the one that was set";
const bothStates = "both states are read anew after such work";
const connector = "B+ is near a connector";

export const accessoryEdges: readonly Edge[] = [
  ...edges("accessory-mended", [
    ["redo", "31d", "what it draws follows its parts", { sheet: "accessory-power", result: "fall" }],
    ["redo", "31b", notThatOne],
    ["check", "28", "a capacitor of the oscillator or its supply moves the marker crystal"],
    ["check", "32", "a capacitor of the converter moves its crystal or its peak"],
    ["redo", "31e", bothStates],
    ["redo", "33b", "selectivity with the accessory was recorded before this work", { after: "31b" }],
    ["redo", "35", connector],
  ]),
  ...edges("series-capacitor-replaced", [
    ["redo", "31b", "the coil was tuned to cable and series capacitor as they were"],
    [
      "check",
      "20",
      "what hangs on the first primary has changed",
      { task: "Check the first can's peak", sheet: "cable-load", result: "primaryDetune" },
    ],
    ["redo", "31e", bothStates],
    ["redo", "35", "it alone keeps B+ off the connector", { task: "Final safety test: volts at the accessory's connector" }],
  ]),
  ...edges("accessory-tube-replaced", [
    ["redo", "31d", "another tube, another current", { sheet: "accessory-power", result: "fall" }],
    ["redo", "31b", "regeneration and tuning follow the tube"],
    ["check", "28", "the marker crystal follows its tube a little"],
    ["check", "32", "gain and peak of the converter follow its tubes"],
    ["redo", "31e", bothStates],
  ]),
  ...edges("accessory-fed", [
    ["check", "09", "B+, heaters and ripple carry more", { sheet: "accessory-power", result: "fall" }],
    ["check", "10", "every DC point follows B+"],
    ["check", "23", "the oscillator follows its supply"],
    ["redo", "34a", "the transformer carries more", { sheet: "accessory-power", result: "rise" }],
    ["redo", "31e", bothStates],
    ["redo", "35", "one more lead with B+ on it"],
  ]),
  ...edges("accessory-taken-off", [
    ["check", "09", "B+ and heaters carry less"],
    ["redo", "20", "the first can was peaked with what hung on it", { task: "Peak the first can again" }],
    ["check", "22", "the pass band's middle may have moved"],
    ["redo", "27", "gain before the AVC has changed"],
    ["redo", "33b", "the strip's shape is not what was recorded"],
    ["redo", "35", "holes, sockets and lead ends left behind must be covered"],
  ]),
];
