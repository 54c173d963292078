import { describe, expect, it } from "vitest";
import type { SetDescription } from "../../set/describe";
import { quantityAt } from "../../set/paths";
import { patterns } from "../../set/patterns/kinds";
import { exact } from "../../units/quantity";
import type { Entry } from "../document";
import { formatVersion } from "../format";
import { viewOf } from "../view";
import { faultsOf } from "./faults";

/** Readings beside the charts, invented, that show a fault by themselves; an accessory of each kind is set. */
const set: SetDescription = { ...patterns[1], fittings: patterns[1].fittings.map((f) => ({ ...f, state: "set" as const })) };
let n = 0;
const head = () => ({ id: `b${++n}`, at: "2026-01-02T00:00:00Z", who: "t" });
const shown = (...entries: readonly object[]): string[] =>
  faultsOf(
    viewOf({
      format: "fettle-job",
      version: formatVersion,
      id: "j",
      name: "j",
      created: "2026-01-01T00:00:00Z",
      set,
      entries: entries as Entry[],
    }),
  ).map((f) => `${f.id}: ${f.words}`);
const card = (form: string, fields: Readonly<Record<string, string>>) => ({ ...head(), kind: "form", form, fields });
const read = (values: Readonly<Record<string, number>>) => ({
  ...head(),
  kind: "values",
  why: "read",
  values: Object.fromEntries(
    Object.entries(values).map(([p, value]) => [p, { value, spread: exact, origin: "measured", source: "meter" }]),
  ),
});
const fact = (path: string, value: string) => ({ ...head(), kind: "fact", path, value, why: "seen" });

describe("the line's side", () => {
  const touch = "Touch current one way, mA";
  it("shows a touch current or an insulation out of its limit, and none that holds", () => {
    expect(shown(card("safety-in", { [touch]: "1.64" }))[0]).toMatch(/^line: touch current one way 1\.64 mA, where .* holds/);
    expect(shown(card("safety-in", { "Insulation line to chassis, MΩ": "0.5" }))[0]).toMatch(/^line: insulation line to chassis 0\.5 MΩ/);
    expect(shown(card("safety-in", { [touch]: "0.05", "Insulation line to chassis, MΩ": "40" }))).toEqual([]);
  });
  it("takes what is read going out for what was read coming in, and the other way round", () => {
    const [bad, fine] = [card("safety-in", { [touch]: "1.64" }), card("safety-out", { [touch]: "0.09" })];
    expect(shown(bad, fine)).toEqual([]);
    expect(shown(fine, bad)).toHaveLength(1);
  });
});
describe("the strip", () => {
  const centre = quantityAt(set, "strip.intermediateFrequency")?.value ?? 0;
  const sweep = (levelAt: (off: number) => number) => {
    const off = Array.from({ length: 81 }, (_, i) => 250 * (i - 40));
    const level = off.map(levelAt);
    const peak = off[level.indexOf(Math.max(...level))];
    const figure = {
      name: "peak frequency",
      dimension: "frequency",
      quantity: { value: centre + peak, spread: exact, origin: "measured", source: "s" },
      text: "",
    };
    const reading = {
      id: `r${n}`,
      as: "if-sweep",
      state: "as-found",
      step: "20",
      stage: "",
      band: "",
      thermal: "warm",
      file: { name: "s.csv", hash: "", bytes: 0 },
      figures: [figure],
      columns: { frequencyHz: off.map((o) => centre + o), levelDb: level },
      warnings: [],
    };
    return { ...head(), kind: "reading", reading };
  };
  const hump = (at: number) => (off: number) => -20 * Math.log10(1 + ((off - at) / 3000) ** 2);
  it("shows a pass band that lies beside its centre, and which way", () => {
    expect(shown(sweep(hump(2500)))[0]).toMatch(/^strip: the pass band peaks 2\.50? kHz above .* slugs turned/);
    expect(shown(sweep(hump(-2500)))[0]).toMatch(/2\.50? kHz below/);
  });
  it("shows nothing of one at its centre, nor of two equal humps about it", () => {
    expect(shown(sweep(hump(0)))).toEqual([]);
    expect(shown(sweep((off) => Math.max(hump(3000)(off), hump(-3000)(off))))).toEqual([]);
  });
});
describe("accessories", () => {
  const row = {
    "row 1: Accessory": "Q multiplier",
    "row 1: Kind": "electrolytic",
    "row 1: Duty": "filter",
    "row 1: Value": "8 uF",
    "row 1: Rated V": "450",
  };
  it("show a capacitor that was measured and goes; not one that goes untested, nor a sound one", () => {
    expect(shown(card("accessory-capacitors", { ...row, "row 1: Measured value": "0.2 uF" }))[0]).toMatch(
      /^fittings\.qm\.capacitors: 8 µF \(filter\) reads 200 nF: dried out/,
    );
    expect(shown(card("accessory-capacitors", row))).toEqual([]);
    expect(shown(card("accessory-capacitors", { ...row, "row 1: Measured value": "8.4 uF", "row 1: Leakage mA": "0.01" }))).toEqual([]);
  });
  it("show a Q multiplier off its centre beside its capacitor, each as a fault of its own", () => {
    const both = shown(
      card("accessory-capacitors", { ...row, "row 1: Measured value": "0.2 uF" }),
      read({ "fittings.qm.centreBeat": 2400 }),
    );
    expect(both.map((s) => s.split(":")[0])).toEqual(["fittings.qm.capacitors", "fittings.qm.centre"]);
    expect(shown(read({ "fittings.qm.centreBeat": 15 }))).toEqual([]);
  });
  it("show a marker's and a converter's crystal off by more than is good enough, and nothing that nobody read", () => {
    const marker = { "fittings.markers.stationFrequency": 5e6, "fittings.markers.target": 28e6 };
    expect(shown(fact("fittings.markers.sign", "markers-low"), read({ ...marker, "fittings.markers.beat": 228 }))[0]).toMatch(
      /^fittings\.markers\.crystal: its markers are 1\.2\d+ kHz off at 28/,
    );
    expect(shown(read({ ...marker, "fittings.markers.beat": 2 }))).toEqual([]);
    const converter = { "fittings.converter.crystal": 24.5e6 };
    expect(shown(read({ ...converter, "fittings.converter.crystalCounted": 24.497e6 }))[0]).toMatch(/its crystal is 3(?:\.0\d*)? kHz low$/);
    expect(shown(read({ ...converter, "fittings.converter.crystalCounted": 24.50005e6 }))).toEqual([]);
    expect(shown(read(converter))).toEqual([]);
  });
});
