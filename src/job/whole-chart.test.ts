import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import type { Answer } from "../ask/answered";
import { setFromOutline } from "../set/outline";
import { suspects } from "../sheets/suspects/sheet";
import { volts } from "../sheets/volts/sheet";
import { orThrow } from "../units/issue";
import { benchOf, subjectsOf, viewOf } from "./view";

/** An invented set of ten tubes, one of them a double triode with two duties, and its voltage chart as it would be typed. Sound but for one stage. */
const tubes = [
  "V1, 6BA6, RF",
  "V2, 6BE6, mixer",
  "V3, 6C4, oscillator",
  "V4, 6BA6, first IF",
  "V5, 6BA6, second IF",
  "V6, 6AL5, detector, AVC",
  "V7, 12AX7, first audio / BFO",
  "V8, 6AQ5, audio output",
  "V9, 5Y3GT, rectifier",
  "V10, 0A2, regulator",
].join("\n");
type Cells = readonly [tube: string, pin: string, electrode: string, chart: string, ohm: string, measured: string];
const chart: readonly Cells[] = [
  ["V1", "5", "plate", "226", "2.2k", "229"],
  ["V1", "6", "screen", "87", "39k", "91.6"],
  ["V1", "7", "cathode", "0.84", "68", "0.9"],
  ["V1", "1", "grid", "0", "", "0"],
  ["V4", "5", "plate", "228", "", "231"],
  ["V4", "6", "screen", "89", "", "84"],
  ["V4", "7", "cathode", "0.84", "", "3.82"],
  ["V5", "5", "plate", "226", "", "224"],
  ["V5", "6", "screen", "88", "", "86"],
  ["V5", "7", "cathode", "0.86", "68", "0.84"],
  ["V7a", "1", "plate", "118", "220k", "124"],
  ["V7a", "3", "cathode", "1.05", "1.8k", "1.02"],
  ["V7b", "6", "plate", "62", "100k", "64"],
  ["V7b", "8", "cathode", "0", "", "0"],
  ["V8", "5", "plate", "230", "", "234"],
  ["V8", "6", "screen", "239", "", "243"],
  ["V8", "2", "cathode", "12", "", "12.3"],
  ["V8", "1", "grid", "0", "470k", "0"],
  ["V9", "8", "B+", "262", "", "265"],
];
const columns = ["Tube", "Pin", "Electrode", "Chart V", "Source Ω if known", "Measured V"] as const;
const view = (rows: readonly Cells[], outline: Record<string, string> = { tubes }) =>
  viewOf({
    format: "fettle-job",
    version: 5,
    id: "j",
    name: "j",
    created: "2026-01-01T00:00:00Z",
    set: orThrow(setFromOutline(outline)),
    entries: [
      {
        id: "e",
        at: "2026-01-02T00:00:00Z",
        who: "t",
        kind: "form",
        form: "voltage-chart",
        fields: {
          Meter: "digital 10 M",
          "Chart's meter and line": "20,000 ohms per volt, 117 V",
          "Line volts": "117",
          ...Object.fromEntries(rows.flatMap((r, i) => columns.map((c, k) => [`row ${i + 1}: ${c}`, r[k]]))),
        },
      },
    ],
  });
const ask = (v: ReturnType<typeof view>, sheet: typeof volts, at = "", overrides = {}): Answer =>
  orThrow(answer(sheet, benchOf(v, at), { draws: 10, overrides }));
const input = (a: Answer, name: string): number => a.quantities.find((q) => q.path === name)!.quantity.value;

describe("the voltage chart of a whole set", () => {
  const job = view(chart);
  it("is judged row by row: one cathode is high, and no node is left unjudged for want of its ohms", () => {
    const a = ask(job, volts);
    expect(a.results).toMatchObject({ judged: { value: chart.length }, wrong: { value: 1 }, unclear: { value: 0 } });
    expect(a.headline).toContain("V4 pin 7, cathode is high");
  });
  it("gives each tube a stage of its own, and the double triode two", () => {
    expect(job.set.tubes.map((t) => [t.socket, t.stage]).slice(6, 9)).toEqual([
      ["V7a", "audio"],
      ["V7b", "bfo"],
      ["V8", "output"],
    ]);
  });
  it("answers what is wrong with every stage, from its own chart and its own ohms", () => {
    for (const at of subjectsOf(job.set, suspects.subject, suspects.fitting, suspects.stageKinds)) {
      const a = ask(job, suspects, at);
      if (at === "stages.detector") expect(a.headline, at).toContain("Not enough recorded");
      else if (at === "stages.if1") expect(a.headline).toContain("cathode resistor");
      else expect(a.headline, at).toMatch(/(?:^|For later: )No fault shows/);
    }
  });
  it("takes the supply from the chart, and not from what is usual of such a set", () => {
    const a = ask(job, suspects, "stages.output");
    expect(input(a, "supply")).toBeGreaterThan(239);
    expect(input(a, "supply")).toBeLessThan(262);
    expect(input(ask(job, suspects, "stages.rf"), "screenFeed") / 39e3).toBeCloseTo(1, 1);
    // what its volts ask for is called fitted, in four figures, whether ohms stand on the card or not
    for (const at of ["stages.rf", "stages.if1"])
      for (const { path, quantity } of ask(job, suspects, at).quantities)
        if (/volts/.test(quantity.source) && /chart/.test(quantity.source)) {
          expect(quantity.value, path).toBe(Number(quantity.value.toPrecision(4)));
          expect(quantity.origin === "stated", path).toBe(quantity.source === "ohms on the card of the voltage chart");
        }
    expect(input(ask(job, suspects, "stages.rf"), "cathodeResistor") / 68).toBeCloseTo(1, 1);
    expect(a.results.healthyCathode.value).toBeCloseTo(12, 0);
  });
  it("goes round a cell that can't be read, on both sheets, and says so", () => {
    const spoilt = view(chart.map((r) => (r[0] === "V1" && r[2] === "screen" ? [...r.slice(0, 5), "about 90"] : r) as unknown as Cells));
    for (const a of [ask(spoilt, volts), ask(spoilt, suspects, "stages.rf")])
      expect(a.findings.find((f) => f.id.startsWith("cell-not-read"))!.says).toContain(
        "voltage chart, row 2, Measured V: “about 90” can't be read",
      );
    expect(ask(spoilt, volts).results.judged.value).toBe(chart.length - 1);
  });
  it("takes a measured zero for a value, and an empty cell for nothing", () => {
    const zero = view(chart.map((r) => (r[0] === "V5" && r[2] === "plate" ? [...r.slice(0, 5), "0"] : r) as unknown as Cells));
    const none = view(chart.map((r) => (r[0] === "V5" && r[2] === "plate" ? [...r.slice(0, 5), ""] : r) as unknown as Cells));
    expect(ask(zero, volts).findings.map((f) => f.id)).toContain("volts-low-8");
    expect(ask(none, volts).results.judged.value).toBe(chart.length - 1);
    expect(ask(zero, suspects, "stages.if2").headline).toContain("plate feed open");
    expect(ask(none, suspects, "stages.if2").headline).not.toContain("plate feed open");
  });
});

describe("a double tube that was described as one", () => {
  const two: readonly Cells[] = [
    ["V1", "6", "plate", "118", "220k", "124"],
    ["V1", "8", "cathode", "1.05", "1.8k", "1.02"],
    ["V1", "1", "plate", "150", "100k", "0"],
    ["V1", "3", "cathode", "1.2", "1.5k", "0"],
  ];
  const job = view(two, { tubes: "V1, 12AX7, first audio\nV2, 6AQ5, output" });
  it("is two stages to read, by its pins: they never merge", () => {
    const first = ask(job, suspects, "stages.audio", { tube: "first" });
    const second = ask(job, suspects, "stages.audio", { tube: "second" });
    const plate = (a: Answer) => a.rows.find((r) => r.path === "readings")!.rows.map((r) => r.volts);
    expect([plate(first), plate(second)]).toEqual([
      [0, 0],
      [124, 1.02],
    ]);
  });
  it("push-pull output tubes are two stages", () => {
    const set = orThrow(setFromOutline({ tubes: "V1, 6V6, output\nV2, 6V6, output\nV3a, 12AX7, first audio\nV3b, 12AX7, phase inverter" }));
    expect(set.tubes.map((t) => t.stage)).toEqual(["output", "output-2", "audio", "audio-2"]);
    expect(set.stages.filter((s) => s.kind === "audio").map((s) => s.label)).toEqual([
      "First audio",
      "First audio, V3b",
      "Output",
      "Output, V2",
    ]);
  });
});

describe("a chart that was read with two meters, of a set that was charted on one range", () => {
  const cells = (own: Record<string, string>, fields: Record<string, string> = {}) =>
    viewOf({
      ...view([]).document,
      entries: [
        {
          id: "e",
          at: "2026-01-02T00:00:00Z",
          who: "t",
          kind: "form",
          form: "voltage-chart",
          fields: {
            Meter: "digital 10 M",
            "Chart's meter and line": "1 kohm/V on the 250 V range, 117 V",
            "Line volts": "117",
            ...fields,
            ...Object.fromEntries(Object.entries(own).map(([c, text]) => [`row 1: ${c}`, text])),
          },
        },
      ],
    });
  const screen = { Tube: "V4", Pin: "6", Electrode: "screen", "Chart V": "40", "Source Ω if known": "100k", "Measured V": "55" };
  const due = (v: ReturnType<typeof cells>): string => String(ask(v, volts).tables[0].rows[0][2]);
  it("is read with the chart's own range, and that is not taken for its line", () => {
    // 40 V on 250 kΩ behind 100 kΩ: the node has 40 (1 + 100/250) = 56 V, and 10 MΩ reads 55.4; on the usual 50 V range it would be 120
    expect(due(cells(screen))).toMatch(/^55\.\d V/);
    expect(input(ask(cells(screen), volts), "chartLine")).toBe(117);
    expect(due(cells(screen, { "Chart's meter and line": "1 kohm/V, 117 V" }))).toMatch(/^119|^118/);
  });
  it.each([
    ["20 kohm/V", "60", "51.7"],
    ["1 kohm per volt", "250", "40"],
    ["11 Mohm", "", "55"],
  ])("judges a row by its own meter: %s on %s V", (meter, range, volt) => {
    expect(due(cells({ ...screen, Meter: meter, "Range V": range }))).toMatch(new RegExp(`^${volt}`));
  });
  it("tells a cell that names no meter, and judges the row by the card's", () => {
    const a = ask(cells({ ...screen, Meter: "the old one" }), volts);
    expect(a.findings.find((f) => f.id.startsWith("cell-not-read"))?.says).toContain("row 1, Meter");
    expect(String(a.tables[0].rows[0][2])).toMatch(/^55/);
  });
  it("has the node's ohms in one column and the part's in another: each sheet reads its own", () => {
    const own = { ...screen, "Part Ω if known": "47k" };
    expect(input(ask(cells(own), suspects, "stages.if1"), "screenFeed") / 47e3).toBeCloseTo(1, 2);
    expect(due(cells(own))).toMatch(/^55\.\d V/);
    // a card from before there were two
    expect(input(ask(cells(screen), suspects, "stages.if1"), "screenFeed") / 100e3).toBeCloseTo(1, 2);
  });
});
