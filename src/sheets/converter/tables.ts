import type { Table } from "../../ask/drawings";
import { type CrystalChoice, crowdIn, sayBirdie } from "../../infer/crystal/choose";
import { type ConverterPlan, dialHz, halfDialOf, imageOf, responsesOf, signalAtDialHz, tunedOver } from "../../physics/converter";
import type { Asked } from "./ask";
import { type Chosen, hz, inputLeavesDb } from "./solve";

const freq = (name: string) => ({ name, dimension: "frequency" as const, u: 500 });
const word = (name: string) => ({ name, dimension: "ratio" as const });

/**
 * Crystals ranked, what the dial then stands for, and every other way in.
 *
 * @param x inputs, SI
 * @param chosen the ranking, and the crystal taken
 * @returns the tables
 * @source physics/converter.ts; the points are common practice, no source
 */
export function tablesOf(x: Asked, { ranked, taken }: Chosen): Table[] {
  const p = taken.plan;
  const [low, high] = tunedOver(p);
  return [
    choicesOf(ranked),
    cardOf(x, p),
    waysOf(x, taken),
    {
      id: "notes",
      title: "Steady notes that are not signals",
      columns: [freq("dial"), freq("looks like"), word("what it is")],
      rows: taken.birdies.map((b) => [b.dialHz, signalAtDialHz(p, b.dialHz), sayBirdie(b)]),
    },
    {
      id: "crowd",
      title: "What is on the image, and on the dial itself",
      columns: [word("where"), word("what")],
      rows: [
        ["image", crowdIn(imageOf(p).lowHz, imageOf(p).highHz).join(", ") || "nothing strong in the tables"],
        ["dial", crowdIn(low, high).join(", ") || "nothing strong in the tables"],
      ],
    },
  ];
}
/** The ten best crystals, with what speaks against each. */
const choicesOf = (ranked: readonly CrystalChoice[]): Table => ({
  id: "choices",
  title: "Crystals, best first: the fewer points against it the better (points are common practice, no source)",
  columns: [
    freq("crystal"),
    freq("lower end at"),
    freq("upper end at"),
    { name: "image down", dimension: "decibel", u: 0.5 },
    { name: "points", dimension: "ratio", u: 0.05 },
    word("points against it"),
  ],
  rows: ranked.slice(0, 10).map((c) => [
    c.plan.crystalHz,
    dialHz(c.plan, c.plan.lowHz),
    dialHz(c.plan, c.plan.highHz),
    c.imageDb,
    c.points,
    [...c.traps]
      .sort((a, b) => b.points - a.points)
      .slice(0, 3)
      .map((t) => t.says)
      .join("; ") || "nothing found",
  ]),
});
/** What round places of the wanted band are on the dial. */
function cardOf(x: Asked, p: ConverterPlan): Table {
  const step = [5e3, 10e3, 25e3, 50e3, 100e3, 250e3, 500e3].find((s) => (x.wantedHigh - x.wantedLow) / s <= 24) ?? 1e6;
  const first = Math.ceil(x.wantedLow / step - 1e-9);
  const marks = Array.from({ length: Math.floor(x.wantedHigh / step + 1e-9) - first + 1 }, (_, i) => (first + i) * step);
  return {
    id: "card",
    title: "What the dial stands for",
    columns: [freq("wanted"), freq("receiver's dial")],
    rows: marks.map((f) => [f, dialHz(p, f)]),
  };
}
/** Image, feed-through and every other way in, with what the input leaves of it. */
function waysOf(x: Asked, taken: CrystalChoice): Table {
  const p = taken.plan;
  const [low, high] = tunedOver(p);
  const half = halfDialOf(p);
  // of low order wherever they lie: strong signals there come through what the input leaves of them
  const far = responsesOf(p, 6, 1e5, 1e9).filter(
    (r) =>
      r.m <= 3 &&
      r.n <= 3 &&
      !taken.responses.some((t) => t.m === r.m && t.n === r.n && t.way === r.way) &&
      !(r.m === 2 && r.n === 2 && r.lowHz === half.lowHz),
  );
  const dbAt = (from: number, to: number): number =>
    Math.min(inputLeavesDb(x, p, low, from), inputLeavesDb(x, p, high, to), inputLeavesDb(x, p, low, to), inputLeavesDb(x, p, high, from));
  return {
    id: "ways",
    title: "Other ways in, on the whole tuned range",
    columns: [word("way"), freq("from"), freq("to"), { name: "down after the input", dimension: "decibel", u: 0.5 }, word("level")],
    rows: [
      ["image", imageOf(p).lowHz, imageOf(p).highHz, taken.imageDb, "goes as the signal"],
      ["past the converter", low, high, taken.feedThroughDb, "goes as the signal, and with the leads' shielding"],
      ["half the dial off", half.lowHz, half.highHz, dbAt(half.lowHz, half.highHz), "goes as the signal squared; no model"],
      ...far
        .map((r) => ({ r, db: dbAt(r.lowHz, r.highHz) }))
        .sort((a, b) => a.db - b.db)
        .map(({ r, db }): (string | number)[] => [
          `${r.m === 0 ? "" : `${r.m} x crystal ${r.way > 0 ? "+" : "-"} `}dial${r.n > 1 ? `, over ${r.n}` : ""}`,
          r.lowHz,
          r.highHz,
          db,
          r.n === 1 ? "goes as the signal; less by the mixer's own harmonic" : `goes as the signal to the power ${r.n}; no model`,
        ]),
      ...taken.responses
        .filter((r) => r.m > 0)
        .map((r): (string | number)[] => [
          `${r.m} x crystal ${r.way > 0 ? "+" : "-"} dial, over ${r.n}`,
          r.lowHz,
          r.highHz,
          0,
          `order ${r.m + r.n}${r.crossHz === undefined ? "" : `, whistles at ${hz(r.crossHz)}`}; no model of its level`,
        ]),
    ],
  };
}
