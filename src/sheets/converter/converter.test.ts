import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { chooseCrystals } from "../../infer/crystal/choose";
import { circuitsRejectionDb } from "../../physics/images";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { converter } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) => orThrow(answer(converter, emptyBench, { draws: 200, points: 21, overrides }));

describe("28.5 to 29 MHz behind 25 MHz on a range of 3.5 to 4 MHz (an invented scenario, worked out apart from this code)", () => {
  const a = ask({
    wantedLow: "28.5 MHz",
    wantedHigh: "29 MHz",
    crystal: "25 MHz",
    ranges: "3.5 MHz, 4 MHz",
    inputCircuits: "1",
    inputQ: "60 ± 1",
  });
  it("names the note at 3.640 as harmonic 8 of the IF, looking like 28.640", () => {
    expect(a.tables.find((t) => t.id === "notes")!.rows).toContainEqual([3.64e6, 28.64e6, "harmonic 8 of the IF"]);
  });
  it("names strong signals beside the band that come out on the dial without a whistle: 2 x 25 against 2 x 26.75 is 3.5", () => {
    expect(a.findings.find((f) => f.id === "converter-near")!.says).toContain(
      "26.750 MHz to 27.000 MHz (harmonic 2 of the crystal, 2 of the signal)",
    );
  });
  it("puts the image on 21.5 to 21 MHz, the amateur band there, and says how it is told", () => {
    expect([a.results.imageLow.value, a.results.imageHigh.value]).toEqual([21.5e6, 21e6]);
    const f = a.findings.find((x) => x.id === "converter-image-yes")!;
    expect(f.says).toMatch(/15 m amateur band.*tunes backward, against the wanted/);
    // 31.3 dB in the middle of the band, 39.2 with a dial of 7.25 MHz
    expect(circuitsRejectionDb(1, 60, 28.75e6, 21.25e6)).toBeCloseTo(31.3, 1);
    expect(circuitsRejectionDb(1, 60, 28.75e6, 14.25e6)).toBeCloseTo(39.2, 1);
  });
  it("takes a crystal of 24.9992 MHz for 0.8 kHz low, so that what the card says is high", () => {
    const b = ask({
      wantedLow: "28.5 MHz",
      wantedHigh: "29 MHz",
      crystal: "25 MHz",
      ranges: "3.5 MHz, 4 MHz",
      twoPath: "800 Hz, low",
      markerError: "0 ppm",
      dialError: "0 Hz",
      drift: "0 Hz",
    });
    expect(b.results.crystalFound.value! * 1e6).toBeCloseTo(-32, 6);
    expect(b.results.readout.value).toBeCloseTo(-800, 6);
    expect(b.findings.find((f) => f.id === "converter-trim-yes")!.says).toContain("800 Hz below what the card says");
  });
});
it("offers 24.5 MHz for 28.0 to 28.5 on a set with an 80 m scale, and writes every trap down", () => {
  const a = ask({});
  expect(a.results.crystal.value).toBe(24.5e6);
  expect([a.results.dialAtLow.value, a.results.dialAtHigh.value]).toEqual([3.5e6, 4e6]);
  expect(a.strips[0].rows.map((r) => r.label)).toHaveLength(7);
  expect(a.strips[0].rows.find((r) => r.label.startsWith("Markers, by both"))!.spans).toHaveLength(6);
  expect(a.strips[0].also).toMatchObject({ atFrom: 28e6, atTo: 28.5e6 });
  // an answer crosses to the page whole: it holds no functions
  expect(structuredClone(a.strips)).toEqual(a.strips);
  expect(a.tables.find((t) => t.id === "card")!.rows[0]).toEqual([28e6, 3.5e6]);
  // the readout is widened most by the receiver's own dial
  expect(a.results.readout.shares[0].inputs).toEqual(["dialError"]);
});
it("chooses among the crystals of a drawer only, and turns the dial round for one above the band", () => {
  const a = ask({ crystals: "32 MHz; 40 MHz", ranges: "3.5 MHz, 4 MHz" });
  expect(a.results.crystal.value).toBe(32e6);
  expect(a.headline).toContain("backward");
  expect(a.results.dialAtLow.value).toBe(4e6);
});
it.each<[Record<string, string>, string, string]>([
  [{ wantedHigh: "27 MHz" }, "wantedHigh", "crossed"],
  [{ wantedLow: "50 MHz", wantedHigh: "62 MHz", ranges: "3.5 MHz, 4 MHz" }, "wantedHigh", "wider-than-any-range"],
  [{ ranges: "4 MHz, 3.5 MHz" }, "ranges row 1", "crossed"],
  [{ crystal: "28.2 MHz" }, "crystal", "inside-the-band"],
  [{ crystal: "26.9 MHz", ranges: "3.5 MHz, 4 MHz" }, "crystal", "off-every-range"],
  [{ intermediate: "3.7 MHz", ranges: "3.5 MHz, 4 MHz" }, "intermediate", "inside-the-range"],
  [{ crystalStep: "1 kHz" }, "crystalStep", "too-many"],
  [{ twoPath: "180 Hz, high; 180 Hz, low" }, "twoPath row 2", "both-ways"],
  [{ crystals: "10 MHz", ranges: "3.5 MHz, 4 MHz" }, "crystals", "none-fits"],
])("refuses %j, with the physical reason", (overrides, path, code) => {
  const r = answer(converter, emptyBench, { draws: 5, overrides });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
it("looks into a thousand crystals and tells how far it is", () => {
  const told: number[] = [];
  const ranked = chooseCrystals(
    {
      lowHz: 28e6,
      highHz: 28.5e6,
      ranges: [{ lowHz: 4.8e6, highHz: 14.5e6 }],
      receiver: { ifHz: 455e3, oscillator: "above" },
      circuits: 2,
      qRatio: 60,
      order: 15,
      stock: [],
      gridHz: 18e3,
    },
    (done, of) => told.push(done / of),
  );
  expect(ranked.length).toBeGreaterThan(1000);
  expect(told.length).toBeGreaterThan(10);
  expect(told.at(-1)).toBe(1);
  for (let i = 1; i < ranked.length; i++) expect(ranked[i].points).toBeGreaterThanOrEqual(ranked[i - 1].points);
});
it("behind a crystal above the band each end has its own image, and the image runs forward", () => {
  const a = ask({ wantedLow: "14 MHz", wantedHigh: "14.5 MHz", crystal: "18 MHz", ranges: "3.5 MHz, 4 MHz", inputCircuits: "0" });
  expect([a.results.imageLow.value, a.results.imageHigh.value]).toEqual([22e6, 21.5e6]);
  expect(a.findings.find((f) => f.id.startsWith("converter-image"))!.says).toContain("tunes forward");
});
it("adds the markers' own error to the beat, in the figure and in the sentence", () => {
  const a = ask({
    wantedLow: "14 MHz",
    wantedHigh: "14.5 MHz",
    crystal: "18 MHz",
    ranges: "3.5 MHz, 4 MHz",
    twoPath: "180 Hz, high",
    markerError: "5 ppm",
  });
  expect(a.results.byCrystal.value).toBeCloseTo(270, 6);
  expect(a.findings.find((f) => f.id.startsWith("converter-trim"))!.says).toContain("270.0 Hz above");
});
it("recomputes the worked example of its page", () => {
  const a = ask({ ranges: "3.5 MHz, 4 MHz", crystal: "24.5 MHz" });
  const [dial, image, note] = [...theory.matchAll(/\|\s+([\d.]+) MHz\s+\|/g)].map((m) => Number(m[1]) * 1e6);
  expect(a.results.dialAtLow.value).toBe(dial);
  expect(a.results.imageLow.value).toBe(image);
  expect(a.tables.find((t) => t.id === "notes")!.rows.some((r) => r[0] === note)).toBe(true);
});
