/** What invented jobs know together: worked out by hand beside each. */
import { describe, expect, it } from "vitest";
import { patterns } from "../../../set/patterns/kinds";
import type { Entry, JobDocument } from "../../document";
import { viewOf } from "../../view";
import { knownOf } from "./known";
import { sayKnown } from "./say-known";
import { seenIn } from "./seen";

let n = 0;
const head = () => ({ id: `e${++n}`, at: "2026-01-02T00:00:00Z", who: "t" });
const normal = (value: number, u: number) => ({
  value,
  spread: { shape: "normal" as const, u },
  origin: "fitted" as const,
  source: "invented",
});
const form = (card: string, fields: Readonly<Record<string, string>>): Entry => ({ ...head(), kind: "form", form: card, fields });
const reading = (id: string, more = {}): Entry => ({
  ...head(),
  kind: "reading",
  reading: {
    id,
    as: "sweep",
    state: "as-found",
    step: "20",
    stage: "",
    instrument: "",
    thermal: "warm",
    file: { name: "s.csv", hash: "" },
    columns: {},
    figures: [],
    warnings: [],
    ...more,
  },
});
/** A sweep with its fit: how far the first can's primary is off. */
const swept = (offHz: number, u: number, more = {}): Entry[] => {
  const id = `r${++n}`;
  const estimate = { id: `fit ${id}`, names: [], values: [], logarithmic: [], covariance: [], fromReadings: [id], model: "strip" };
  const values = { "strip.can1.primaryOffset": normal(offHz, u) };
  return [
    reading(id, more),
    { ...head(), kind: "estimate", estimate, note: "" },
    { ...head(), kind: "values", values, why: "", fit: estimate.id },
  ];
};
const survey = (...rows: readonly (readonly [part: string, kind: string, duty: string, leakage: string])[]): Entry =>
  form(
    "capacitors",
    Object.fromEntries(
      rows.flatMap(([part, kind, duty, leakage], i) =>
        Object.entries({ Part: part, Kind: kind, Duty: duty, Value: "20 uF", "Rated V": "450", "Leakage mA": leakage }).map(([c, t]) => [
          `row ${i + 1}: ${c}`,
          t,
        ]),
      ),
    ),
  );
const out = { kind: "coupling-capacitor", words: "", dress: "" };
const failed = (label: string, part = "coupling-capacitor", place = "stages.if1"): Entry => ({
  ...head(),
  kind: "part",
  part,
  place,
  label,
  out,
  fault: "f1",
});
const drifting = (ppmPerHour: number, lastS = 7200): Entry => ({
  ...head(),
  kind: "rows",
  path: "drift.driftLog",
  rows: [0, 1800, 3600, lastS].map((time) => ({ time, frequency: 1e7 * (1 + (1e-6 * ppmPerHour * (time - 3600)) / 3600) })),
  why: "",
});
const job = (name: string, entries: readonly Entry[], more: Partial<JobDocument> = {}): JobDocument => ({
  format: "fettle-job",
  version: 5,
  id: name,
  name,
  created: "2026-01-01T00:00:00Z",
  set: { ...patterns[1], title: "Invented Nine" },
  entries: [...entries],
  ...more,
});
const known = (docs: readonly JobDocument[], wanted: { readonly set?: string; readonly part?: string } = { set: "invented nine" }) =>
  knownOf(
    docs.flatMap((d) => seenIn(viewOf(d)) ?? []),
    wanted,
  );
const nine = [-4000, -2500, -100, 900, 1500, 2000, 2600, 3000, 5000].map((off, i) =>
  job(`set ${i}`, [...swept(off, 60), drifting(10 * (i + 1))]),
);

describe("what the records know of a kind of set", () => {
  it("tells how often a can was off, by more than its own doubt, and by how much, with what holds both at 95 %", () => {
    // 8 of 9 are off by more than 120 Hz. Source of the shares: scipy 1.17.1, stats.binomtest(8, 9).proportion_ci(0.95, "wilson").
    const [line] = known(nine).windings;
    expect(line.sets).toMatchObject({ hitCount: 8, ofCount: 9 });
    expect(line.sets.low).toBeCloseTo(0.565, 6);
    expect(line.sets.high).toBeCloseTo(0.980109, 6);
    // of nine the second from either end holds the median: 2 P(fewer than 2 of 9) = 2 * 10 / 512 = 3.9 %
    expect(line.by).toEqual({ median: 1500, low: -2500, high: 3000, ofCount: 9 });
    expect(known(nine).drift?.by).toMatchObject({ ofCount: 9 });
    expect(known(nine).drift?.by?.median).toBeCloseTo(50, 6);
    expect(known(nine).drift?.by?.low).toBeCloseTo(20, 6);
  });
  it("calls nothing typical that was seen in too few sets: the count and nothing more, whatever they have in common", () => {
    for (const count of [1, 3, 5]) {
      const few = known(nine.slice(0, count));
      expect(few.windings[0].sets).toEqual({ hitCount: Math.min(count, count > 2 ? count - 1 : count), ofCount: count });
      expect(few.windings[0].by).toBeUndefined();
      expect(few.drift?.by).toBeUndefined();
      const said = JSON.stringify(sayKnown(few));
      expect(said).not.toMatch(/%|Hz|ppm|typical(?!\.)/);
      expect(said).toContain(`of ${count} set`);
    }
    expect(known(nine.slice(0, 6)).windings[0].by).toBeDefined();
  });
  it("leaves out what was taken back, what a sweep could not tell, what was read as left, and what a what-if said", () => {
    const taken = swept(9000, 60);
    const back: Entry = { ...head(), kind: "correction", supersedes: taken[2].id, why: "misread" };
    const docs = [
      job("a", [...taken, back]),
      job("b", swept(9000, 5000)),
      job("c", swept(9000, 60, { state: "as-left" })),
      job("d", swept(9000, 60)),
    ];
    expect(known(docs).windings.map((l) => l.sets)).toEqual([{ hitCount: 1, ofCount: 1 }]);
  });
  it("leaves out demo jobs and copies, and counts two jobs of one set once, the latest", () => {
    const serial = form("intake", { "Serial or marks": "no. 4711" });
    const docs = [
      job("demo", swept(9000, 60, { invented: "all of it" })),
      job("copy", swept(9000, 60), { broughtIn: { at: "2026-01-01T00:00:00Z", by: "t", copyOf: "d" } }),
      job("first time", [serial, ...swept(9000, 60)]),
      job("again", [serial, ...swept(10, 60)]),
    ];
    expect(known(docs).windings.map((l) => l.sets)).toEqual([{ hitCount: 0, ofCount: 1 }]);
    expect(known(docs).setsCount).toBe(1);
  });
  it("has no middle of unlike sets, and names the kinds that there are", () => {
    const other = job("x", [form("intake", { "What it is said to be": "Invented Five" }), ...swept(9000, 60)]);
    expect(known([...nine, other], {}).windings).toEqual([]);
    expect(known([...nine, other], {}).drift).toBeUndefined();
    expect(known([...nine, other], {}).kinds).toEqual([
      { kind: "Invented Nine", setsCount: 9 },
      { kind: "Invented Five", setsCount: 1 },
    ]);
    expect(known([...nine, other], { set: "five" }).setsCount).toBe(1);
    expect(sayKnown(known(nine, { set: "seven" })).headline).toBe("No set of that kind is in the records.");
  });
  it("does not judge the drift of a set whose log ends too soon", () => {
    expect(known([job("a", [drifting(5, 3700)])]).drift).toBeUndefined();
    expect(known([job("a", [drifting(5, 4500)])]).drift?.sets).toEqual({ hitCount: 1, ofCount: 1 });
  });
});

describe("what the records know of a kind of part", () => {
  it("counts capacitors by kind and duty: of those judged, by leakage or by the fault that they caused; untested ones are no evidence", () => {
    // 20 uF, 450 V: the limit is 0.04 * 20 + 0.3 = 1.1 mA
    const docs = [
      job("a", [
        survey(["C40", "electrolytic", "filter", "4"], ["C41", "electrolytic", "filter", "0.9"], ["C12", "wax paper", "AVC", ""]),
        failed("C 12"),
      ]),
      job("b", [survey(["C40", "electrolytic", "filter", "1.0"], ["C12", "wax paper", "AVC", ""])]),
      job("c", [failed("C9")]),
    ];
    expect(known(docs, { part: "" }).capacitors.map((l) => [l.what, l.sets.hitCount, l.sets.ofCount, l.parts])).toEqual([
      ["electrolytic, filter", 1, 2, { failedCount: 1, judgedCount: 3 }],
      ["coupling capacitor, not in a survey", 1, 1, { failedCount: 1, judgedCount: 1 }],
      ["wax paper, avc", 1, 1, { failedCount: 1, judgedCount: 1 }],
    ]);
    expect(known(docs, { part: "paper AVC" }).capacitors).toHaveLength(1);
    expect(sayKnown(known(docs, { part: "electrolytic" })).parts[0].lines).toEqual([
      "Electrolytic, filter: failed in 1 of 2 sets; 1 of 3 judged.",
    ]);
  });
  it("counts tubes by type: worn below 60 %, shorted, gassy or changed for a fault", () => {
    const tubes = (type: string, gm: string, shorts: string): Entry =>
      form("tubes", { "row 1: Type found": type, "row 1: gm %": gm, "row 1: Shorts": shorts });
    const docs = [tubes("6ba6", "85", "none"), tubes("6BA6", "55", ""), tubes("6BA6", "90", "yes"), tubes("6BA6", "", "")].map((t, i) =>
      job(`t${i}`, [t]),
    );
    expect(known(docs, {}).tubes.map((l) => [l.what, l.sets])).toEqual([["6BA6", { hitCount: 2, ofCount: 3 }]]);
  });
});
