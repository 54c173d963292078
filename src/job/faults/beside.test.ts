import { describe, expect, it } from "vitest";
import type { SetDescription } from "../../set/describe";
import { quantityAt } from "../../set/paths";
import { patterns } from "../../set/patterns/kinds";
import { exact, tolerance } from "../../units/quantity";
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
  it("shows one that is even about its centre and far wider than its cans in tune", () => {
    const wide = (width: number) => {
      const e = sweep(hump(0));
      const figure = { ...e.reading.figures[0], name: "width at -6 dB", quantity: { ...e.reading.figures[0].quantity, value: width } };
      return { ...e, reading: { ...e.reading, figures: [...e.reading.figures, figure] } };
    };
    expect(shown(wide(30e3))[0]).toMatch(
      /^strip: the pass band is 30\.?0? kHz wide at -6 dB, where these cans in tune give .*tuned apart|^strip: the pass band is .* slugs turned apart/,
    );
    expect(shown(wide(3e3))).toEqual([]);
  });
});
describe("a dial", () => {
  const at = set.bands.find((b) => !b.spread && b.high.value / b.low.value > 2)!;
  const marks = (off: (hz: number) => number) => ({
    ...head(),
    kind: "rows",
    path: `bands.${at.id}.trackingReadings`,
    rows: [1.05, 1.4, 1.8, 2.2].map((r) => ({ dial: r * at.low.value * (1 + off(r)), received: r * at.low.value })),
    why: "zero beats",
  });
  it("shows by its marks that it is off, where most, and which part's pattern that is", () => {
    expect(shown(marks(() => 0.02))[0]).toMatch(
      new RegExp(`^bands\\.${at.id}: its dial is off, most at .*, where it says .*: .*(coil|more than one)`),
    );
  });
  it("shows nothing where the marks are as close as they can be read", () => {
    expect(shown(marks((r) => (r > 1.5 ? 0.0005 : -0.0005)))).toEqual([]);
  });
});
describe("capacitors that can kill", () => {
  const survey = (duty: string, kind = "moulded paper") =>
    card("capacitors", {
      "row 1: Part": "C1",
      "row 1: Kind": kind,
      "row 1: Duty": duty,
      "row 1: Value": "4.7 nF",
      "row 1: Rated V": "500",
    });
  it("are faults by the survey alone, each at its place; others are not", () => {
    expect(shown(survey("antenna of a live chassis"))[0]).toMatch(/^stages\.antenna\.capacitor: moulded paper capacitor of 4\.7 nF/);
    expect(shown(survey("line bypass"))[0]).toMatch(/^line\.capacitor: /);
    expect(shown(survey("series at B+"))[0]).toMatch(/^supplies\.capacitor: /);
    expect(shown(survey("cathode bypass"))).toEqual([]);
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
    // a peak by a meter is found to some hertz: what lies within that is no fault, and proves the centring
    expect(shown(read({ "fittings.qm.centreBeat": 300 }))).toHaveLength(1);
    const doubtful = { value: 300, spread: tolerance(400), origin: "measured", source: "meter" };
    expect(shown({ ...read({}), values: { "fittings.qm.centreBeat": doubtful } })).toEqual([]);
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
