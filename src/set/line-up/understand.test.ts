/** Lines as people write and paste them, invented; the sets behind them are invented too. */
import { describe, expect, it } from "vitest";
import { setSchema } from "../describe";
import { understand } from "./understand";

const tubesOf = (text: string) => understand(text).set?.tubes.map((t) => `${t.socket} ${t.type} ${t.stage}`);
const rows = [
  ["V1", "6BA6", "RF amplifier"],
  ["V2", "6BE6", "mixer"],
  ["V3", "6C4", "oscillator"],
  ["V4", "6BA6", "1st IF"],
  ["V5", "6BA6", "2nd IF"],
  ["V6", "6AL5", "detector, AVC"],
  ["V7", "12AX7", "1st audio / BFO"],
  ["V8", "6AQ5", "output"],
  ["V9", "5Y3GT", "rectifier"],
];
const placed = [
  "V1 6BA6 rf",
  "V2 6BE6 mixer",
  "V3 6C4 oscillator",
  "V4 6BA6 if1",
  "V5 6BA6 if2",
  "V6 6AL5 detector",
  "V7a 12AX7 audio",
  "V7b 12AX7 bfo",
  "V8 6AQ5 output",
  "V9 5Y3GT supply",
];
describe("one line-up, however it is written", () => {
  it.each([
    ["words", rows.map((r) => r.join(" ")).join("\n")],
    ["commas", rows.map((r) => r.join(", ")).join("\r\n")],
    ["semicolons", rows.map((r) => r.join(";")).join("\n")],
    ["tabs", rows.map((r) => r.join("\t")).join("\n")],
    ["bars, with a heading", ["Tube | Type | Function", ...rows.map((r) => r.join(" | "))].join("\n")],
    ["columns of blanks, with a heading", ["Tube  Type   Function", ...rows.map((r) => r.join("   "))].join("\n")],
    ["tabs, with a heading", ["Tube\tType\tFunction", ...rows.map((r) => r.join("\t"))].join("\n")],
    ["bullets and full stops", rows.map(([s, t, d]) => `- ${s}. ${t} - ${d}`).join("\n")],
    ["the duty first", rows.map(([s, t, d]) => `${d} ${t} (${s})`).join("\n")],
    ["one sentence", rows.map(([s, t, d]) => `${s} ${t} ${d.replace(",", " and")}`).join(", ")],
    ["no sockets", rows.map(([, t, d]) => `${t} ${d}`).join("\n")],
  ])("%s", (_, text) => {
    expect(understand(text).unread).toEqual([]);
    expect(tubesOf(text)).toEqual(placed);
  });
  it("tells the counts of the set from it", () => {
    const { set } = understand(rows.map((r) => r.join(" ")).join("\n"));
    expect(set?.strip.cans).toHaveLength(3);
    expect(set?.stages.map((s) => s.kind).filter((k) => ["rf", "bfo", "mixer"].includes(k))).toEqual(["rf", "mixer", "bfo"]);
    expect(set?.supplies.choices).toMatchObject({ rectifierType: "5Y3GT or 80", heaters: "parallel" });
    expect(set && setSchema.parse(set)).toEqual(set);
    // nobody's word makes a chassis safe
    expect(set?.chassis.state).toBe("unstated");
  });
});
describe("types alone", () => {
  it("are placed by type and by where they stand, and every such duty is marked as guessed", () => {
    const { set, unread } = understand("6SG7 6SA7 6J5 6SK7 6SK7 6SQ7 6V6GT 5Y3GT VR150");
    expect(unread).toEqual([]);
    expect(set?.tubes.map((t) => t.stage)).toEqual(["rf", "mixer", "oscillator", "if1", "if2", "detector", "output", "supply", "supply"]);
    for (const t of set?.tubes ?? []) expect(set?.guessed, t.socket).toHaveProperty([`tubes.${t.socket}`]);
  });
  it("of a string across the line make the set live, its B+ the line's own", () => {
    const { set } = understand("12BE6\n12BA6\n12AT6\n50C5\n35W4\n117 V 60 cycles");
    expect(set?.chassis.state).toBe("live");
    expect(set?.supplies).toMatchObject({ rectifier: "half-wave vacuum, from the line", choices: { heaters: "series" } });
    expect(set?.supplies.secondaryVoltage).toMatchObject({ value: 117, origin: "assumed" });
  });
  it("that no table has, or that do several things, are asked for their duty alone", () => {
    expect(understand("V1 6SK7 RF\nV2 9ZZ9\nV3 6SA7").unread.map((i) => [i.path, i.code, i.read])).toEqual([["line 2", "no-duty", "9ZZ9"]]);
    expect(tubesOf("V1 6SK7 RF\nV2 9ZZ9 mixer")).toEqual(["V1 6SK7 rf", "V2 9ZZ9 mixer"]);
  });
});
describe("the two duties of one bulb", () => {
  it.each([
    ["V3 6U8 mixer and oscillator", ["V3a 6U8 triode oscillator", "V3b 6U8 pentode mixer"]],
    ["V3 6SN7 first audio / BFO", ["V3a 6SN7 audio", "V3b 6SN7 bfo"]],
    ["V3a 12AX7 first audio\nV3b 12AX7 BFO", ["V3a 12AX7 audio", "V3b 12AX7 bfo"]],
    // diodes and one triode: one tube, whatever is said of it
    ["V3 6SQ7 detector, AVC and first audio", ["V3 6SQ7 detector"]],
  ])("%s", (text, tubes) => expect(tubesOf(text)).toEqual(tubes));
});
describe("words of the set", () => {
  it("are read in the trade's notation, and what was not said stays assumed", () => {
    const { set, fields } = understand(
      "title: Attic set\nIF 465 kc, 230 V 50 cycles, 75 watts\nB+ 240 V; crystal filter\nbands 0.55-1.6, 1.6-5.2, 5-16 Mc\n7 - 7.3 MHz spread\n6BA6 RF\n6BE6 converter\n6BA6 IF",
    );
    expect(fields).toMatchObject({ title: "Attic set", filter: "crystal", watts: "75 W" });
    expect(set?.strip.intermediateFrequency).toMatchObject({ value: 465e3, origin: "stated" });
    expect(set?.line.voltage).toMatchObject({ value: 230, origin: "stated" });
    expect(set?.bands.map((b) => [b.low.value, b.high.value, b.spread])).toEqual([
      [0.55e6, 1.6e6, false],
      [1.6e6, 5.2e6, false],
      [5e6, 16e6, false],
      [7e6, 7.3e6, true],
    ]);
    expect(set?.stages.find((s) => s.kind === "filter")?.label).toBe("Crystal filter");
    expect(understand("6BE6 converter").set?.bands[0].low.origin).toBe("assumed");
  });
  it("read the figures of a type plate one after the other, and a tube among words of the set", () => {
    const said = understand("6SA7 mixer\n117 V 60 Hz 90 W\nIF 455 kHz, three cans, BFO 6J5, 6SQ7 detector");
    expect(said.unread).toEqual([]);
    expect(said.fields).toMatchObject({ lineVoltage: "117 V", lineFrequency: "60 Hz", watts: "90 W", cans: "3" });
    expect(said.tubes.map((t) => [t.type, t.duties[0]?.duty])).toEqual([
      ["6SA7", "mixer"],
      ["6J5", "bfo"],
      ["6SQ7", "detector"],
    ]);
    expect(understand("6SA7 mixer\nIF 455 kHz, wobbly things").unread.map((i) => i.read)).toEqual(["wobbly things"]);
  });
  it("lose no tube of several of a type side by side, wherever they stand in the line", () => {
    for (const many of [2, 3])
      for (const [before, after] of [
        ["", ""],
        ["6SA7 mixer, ", ""],
        ["6SA7 mixer, ", ", 6SQ7 detector"],
        ["", ", 6SQ7 detector"],
      ]) {
        const line = `${before}${Array(many).fill("6SK7").join(" ")}${after}`;
        const { tubes, unread } = understand(line);
        // what such a tube does may not be told by so short a list; then it is asked for
        const asked = unread.filter((i) => i.code === "no-duty" && i.read === "6SK7");
        expect(tubes.filter((t) => t.type === "6SK7").length + asked.length, line).toBe(many);
      }
  });
  it("say of what a guess is, each by itself", () => {
    const guessed = Object.values(understand("6SA7 6SK7 6SQ7 6V6 5Y3").set?.guessed ?? {});
    expect(guessed.length).toBeGreaterThan(4);
    expect(guessed.map((g) => g.is).filter((is) => !/[a-z]{4}|: [A-Z]{2}/.test(is))).toEqual([]);
  });
  it("read every band as it was said, one on a line, whatever its first digit", () => {
    for (let tenths = 1; tenths <= 299; tenths++)
      for (const name of ["", "2: ", "2. ", "band 3) ", "B. "]) {
        const said = `${name}${tenths / 10} - ${(tenths + 12) / 10} MHz`;
        const { set, unread } = understand(`6BE6 converter\n${said}`);
        expect(unread, said).toEqual([]);
        expect(
          set?.bands.map((b) => [b.low.value, b.high.value].map((hz) => Math.round(hz / 1e5))),
          said,
        ).toEqual([[tenths, tenths + 12]]);
      }
  });
  it("never take a chassis as isolated", () => {
    expect(understand("own power transformer\n6BE6 converter").set?.chassis.state).toBe("unstated");
    expect(understand("AC/DC\n6BE6 converter").set?.chassis.state).toBe("live");
  });
});
describe("rows of the voltage chart", () => {
  const cells = (text: string) => understand(text).rows.map((r) => [r.socket, r.pin, r.electrode, r.volts, r.ohms, r.measured]);
  it("are read a line each", () => {
    expect(cells("V3 pin 5 plate 220 V 2.2k\nV3 screen 90 V (100k), reads 60\nV3 7 cathode 0.84 68")).toEqual([
      ["V3", "5", "plate", "220", "2.2k", ""],
      ["V3", "", "screen", "90", "100k", "60"],
      ["V3", "7", "cathode", "0.84", "68 Ω", ""],
    ]);
  });
  it("are read from a table by pin, the electrode and the half told by the type's basing", () => {
    const table = "Tube;Type;Function;1;2;3;4;5;6;7\nV1;6BA6;RF;0;-;6.3 AC;0;226;87;0.84\nV3;12AX7;first audio / BFO;118;0;1.05;0;0;62;0";
    expect(cells(table)).toEqual([
      ["V1", "1", "grid", "0", "", ""],
      ["V1", "5", "plate", "226", "", ""],
      ["V1", "6", "screen", "87", "", ""],
      ["V1", "7", "cathode", "0.84", "", ""],
      ["V3a", "1", "plate", "118", "", ""],
      ["V3a", "2", "grid", "0", "", ""],
      ["V3a", "3", "cathode", "1.05", "", ""],
      ["V3b", "6", "plate", "62", "", ""],
      ["V3b", "7", "grid", "0", "", ""],
    ]);
  });
  it("are read from a table with a row a point, or with a column an electrode", () => {
    expect(cells("Tube\tPin\tElectrode\tVolts\tOhms\nV1\t5\tanode\t226\t2.2k\nV1\t6\tg2\t87\t")).toEqual([
      ["V1", "5", "plate", "226", "2.2k", ""],
      ["V1", "6", "screen", "87", "", ""],
    ]);
    expect(cells("Tube  Plate  Screen\nV1  226  87")).toEqual([
      ["V1", "", "plate", "226", "", ""],
      ["V1", "", "screen", "87", "", ""],
    ]);
  });
});
describe("what is not understood", () => {
  it("is told by its line, with what was read and what was expected; no other line falls with it", () => {
    const u = understand("V1 6BA6 RF\nsomething odd\n\nV2 6BE6 mixxer\nV1 6C4 osc\n# a note\n117 V, about grey\nTube;Plate\nV1;22x");
    expect(u.unread.map((i) => [i.path, i.code, i.read])).toEqual([
      ["line 2", "not-understood", "something odd"],
      ["line 4", "no-such-duty", "mixxer"],
      ["line 5", "same-socket", "V1"],
      ["line 7", "not-understood", "about grey"],
      ["line 9, plate", "not-volts", "22x"],
    ]);
    for (const i of u.unread) expect(i.expected.length, i.path).toBeGreaterThan(10);
    expect(u.unread[1].expected).toContain("mixer");
    expect(u.set).toBeUndefined();
    expect(u.tubes.map((t) => t.socket)).toEqual(["V1"]);
  });
  it("is refused before it can take long", () => {
    expect(understand("x".repeat(20_001)).unread[0].code).toBe("too-long");
    expect(understand(`V1 6BA6 ${"RF ".repeat(200)}`).unread[0]).toMatchObject({ path: "line 1", code: "too-long" });
    expect(understand(" \n").unread[0].code).toBe("empty");
    const started = understand(Array.from({ length: 66 }, () => "0.5-1.6,".repeat(37)).join("\n"));
    expect(started.set).toBeUndefined();
  });
});

describe("an accessory named in a few words", () => {
  const described = (words: string) => understand(`6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3\nIF 455 kHz\n${words}`);
  const states = (words: string) => described(words).set?.fittings.map((f) => `${f.id} ${f.state}`);
  it.each([
    ["with a Q multiplier", ["qm fitted", "markers offered", "converter offered"]],
    ["Q-multiplier, planned", ["qm planned", "markers offered", "converter offered"]],
    ["crystal calibrator", ["qm offered", "markers fitted", "converter offered"]],
    ["100 kc crystal calibrator", ["qm offered", "markers fitted", "converter offered"]],
    ["converter for 20 m", ["qm offered", "markers offered", "converter fitted"]],
    ["with a Q multiplier and a crystal converter for 10 and 15 m", ["qm fitted", "markers offered", "converter fitted"]],
    ["Q multiplier, 3 IF cans, marker generator", ["qm fitted", "markers fitted", "converter offered"]],
    ["no Q multiplier", ["qm offered", "markers offered", "converter offered"]],
  ])("%s", (words, expected) => {
    expect(described(words).unread).toEqual([]);
    expect(states(words)).toEqual(expected);
  });
  it("stays a guess with its words, and its values stay assumed, until somebody says more", () => {
    const { set } = described("with a Q multiplier");
    expect(set?.guessed?.["fittings.qm.state"]).toEqual({
      is: "Q multiplier fitted, as one of its kind usually is",
      from: "the words “with a Q multiplier”",
    });
    expect(set && setSchema.parse(set)).toEqual(set);
    expect(set?.fittings[0].values.coilQ.origin).toBe("assumed");
  });
  it.each([
    ["converter for 20 m", 14e6, 14.35e6],
    ["crystal converter for 10 and 15 m", 28e6, 29.7e6],
    ["converter for 40 metres", 7e6, 7.3e6],
    ["converter for 28 - 30 Mc", 28e6, 30e6],
  ])("%s sets the band that is wanted, as a guess that is named", (said, low, high) => {
    // edges: ITU Radio Regulations, Article 5, as in standards/bands.ts
    const { set } = described(said);
    const own = set?.fittings.find((f) => f.id === "converter");
    expect([own?.values.wantedLow?.value, own?.values.wantedHigh?.value]).toEqual([low, high]);
    expect(set?.guessed?.["fittings.converter.wantedLow"]?.is).toMatch(/ wanted: /);
  });
  it("a converter whose band nobody knows wants none", () => {
    for (const said of ["crystal converter", "converter for 13 m"])
      expect(described(said).set?.fittings.find((f) => f.id === "converter")?.values.wantedLow).toBeUndefined();
  });
  it("a tube that is a converter is none", () => {
    const { set, unread } = understand("V1 6BE6 converter, V2 6BA6 IF, V3 6AV6 detector, V4 6AQ5 output");
    expect(unread).toEqual([]);
    expect(set?.fittings.map((f) => f.state)).toEqual(["offered", "offered", "offered"]);
  });
});
