import { readFileSync } from "node:fs";
import {
  askedOf,
  byCost,
  byHabit,
  byWorth,
  inOrder,
  mendsOfWorld,
  minutesToMend,
  type Settled,
  settle,
  type WorldFault,
} from "./world-faults.testdata";

/** What a way to the fault took, a fault at a time. */
export interface Way {
  readonly says: string;
  /** nothing where it makes no test */
  readonly settled?: Settled;
  readonly toMend: number;
}
export interface Studied {
  readonly fault: WorldFault;
  /** by worth, in the usual order, cheapest first, mending without tests */
  readonly ways: readonly [Way, Way, Way, Way];
}
export interface Study {
  readonly all: number;
  /** volts and ohms can't show it */
  readonly unseen: number;
  /** no tube of the table, or no operating point */
  readonly unasked: number;
  readonly studied: readonly Studied[];
}
const mean = (x: readonly number[]): number => x.reduce((s, v) => s + v, 0) / x.length;

/** All invented faults by all ways. */
export function study(): Study {
  const { faults } = JSON.parse(readFileSync("samples/worlds/faults.json", "utf8")) as { faults: readonly WorldFault[] };
  const seen = faults.filter((f) => mendsOfWorld[f.truth.fault] !== undefined);
  const studied = seen.flatMap((fault): Studied[] => {
    const asked = askedOf(fault);
    if (!asked) return [];
    const way = (says: string, settled: Settled | undefined, toMend: number | undefined): Way[] =>
      settled && toMend !== undefined ? [{ says, settled, toMend }] : [];
    const inList = (says: string, list: readonly string[]): Way[] =>
      way(says, settle(fault, asked, inOrder(list, fault)), minutesToMend(fault, asked, list));
    const atOnce = minutesToMend(fault, asked, []);
    const [worth, habit, cheap] = [
      ...way("by worth", settle(fault, asked, byWorth(fault)), minutesToMend(fault, asked)),
      ...inList("in the usual order", byHabit),
      ...inList("cheapest test first", byCost),
    ];
    if (!cheap || atOnce === undefined) return [];
    return [{ fault, ways: [worth, habit, cheap, { says: "mending without tests", toMend: atOnce }] }];
  });
  return { all: faults.length, unseen: faults.length - seen.length, unasked: seen.length - studied.length, studied };
}
/** What one way took, on the average. */
export function tookBy(studied: readonly Studied[], which: 0 | 1 | 2 | 3) {
  const ways = studied.map((s) => s.ways[which]);
  const tested = ways.flatMap((w) => w.settled ?? []);
  return {
    says: ways[0].says,
    measurements: mean(tested.map((t) => t.measurements)),
    minutes: mean(tested.map((t) => t.minutes)),
    settled: mean(tested.map((t) => Number(t.settled))),
    right: mean(tested.filter((t) => t.settled).map((t) => Number(t.right))),
    toMend: mean(ways.map((w) => w.toMend)),
  };
}
const percent = (x: number): string => `${Math.round(100 * x)} %`;
const head = ["measurements", "minutes", "settled", "right where settled", "minutes to the mend, wrong ones paid for"];
/** The table of docs/worth.md. */
export function tableOf({ studied }: Study): string {
  const rows = ([0, 1, 2, 3] as const).map((which) => {
    const t = tookBy(studied, which);
    const tests = [t.measurements.toFixed(2), t.minutes.toFixed(1), percent(t.settled), percent(t.right)];
    return [t.says, ...(Number.isNaN(t.minutes) ? tests.map(() => "") : tests), t.toMend.toFixed(0)];
  });
  const cells = [[`${studied.length} faults`, ...head], ...rows];
  const widths = cells[0].map((_, c) => Math.max(...cells.map((r) => r[c].length)));
  const line = (r: readonly string[]): string => `| ${r.map((cell, c) => cell.padEnd(widths[c])).join(" | ")} |`;
  return [line(cells[0]), line(widths.map((w) => "-".repeat(w))), ...cells.slice(1).map(line)].join("\n");
}
/** Each kind of fault with how many there are, how many worth settles, and how many of those rightly. */
export const kindsOf = ({ studied }: Study): readonly string[] =>
  [...new Set(studied.map((s) => s.fault.truth.fault))].map((kind) => {
    const ways = studied.filter((s) => s.fault.truth.fault === kind).flatMap((s) => s.ways[0].settled ?? []);
    const settled = ways.filter((w) => w.settled);
    return `${kind}: ${ways.length}, settled ${settled.length}, right ${settled.filter((w) => w.right).length}`;
  });
