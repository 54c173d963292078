import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { benchOfSet, subjectsOf } from "../job/view";
import { sheets } from "../sheets/index";
import { orThrow } from "../units/issue";
import { setSchema } from "./describe";
import { setFromOutline } from "./outline";
import { outlineFields } from "./outline-fields";
import { patterns } from "./patterns/kinds";
import { sameKind } from "./same-kind";

describe("a set described from nothing", () => {
  it("stands with nothing typed at all: everything assumed, the chassis not stated, every sheet answered", () => {
    const set = orThrow(setFromOutline({}));
    expect(setSchema.parse(set)).toEqual(set);
    expect(set.chassis.state).toBe("unstated");
    expect([set.line.voltage, set.plateWatts, set.strip.intermediateFrequency].map((q) => q.origin)).toEqual([
      "assumed",
      "assumed",
      "assumed",
    ]);
    for (const s of sheets) {
      const a = orThrow(
        answer(s, benchOfSet(set, subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? ""), { draws: 40, points: 21 }),
      );
      expect(a.missing, s.id).toEqual([]);
      if (s.joins) expect(a.headline, s.id).toMatch(/^Stop/);
    }
  });
  it.each(["1", "2", "3", "4"])("draws a route with %s cans, an IF tube between each two, and every tube at a stage", (cans) => {
    const set = orThrow(setFromOutline({ cans, rfStages: "2", filter: "yes", conversions: "2", bfo: "no", chassis: "isolated" }));
    const kinds = set.stages.map((s) => s.kind);
    const count = (k: string) => kinds.filter((x) => x === k).length;
    expect([count("can"), count("if-tube"), count("rf"), count("mixer"), count("filter"), count("bfo")]).toEqual([
      Number(cans),
      Number(cans) - 1,
      2,
      2,
      1,
      0,
    ]);
    expect(set.strip.cans).toHaveLength(Number(cans));
    expect(new Set(set.stages.map((s) => s.id)).size).toBe(set.stages.length);
    for (const t of set.tubes)
      expect(
        set.stages.some((s) => s.id === t.stage),
        t.socket,
      ).toBe(true);
  });
  it("keeps what was typed as stated, in the trade's notation", () => {
    const set = orThrow(
      setFromOutline({
        title: "Club set",
        intermediateFrequency: "465 kc",
        lineVoltage: "230 V ±5 V",
        mixerPlate: "210 V",
        bands: "1.5 - 4.3 Mc\n7 MHz to 7.3 MHz spread below",
        tubes: "V1, 6K7, RF\nV2, 6K8, mixer\nV4, 6K7, second IF\nV3, 6SQ7, detector, AVC, first audio",
      }),
    );
    expect(set.strip.intermediateFrequency).toMatchObject({ value: 465e3, origin: "stated" });
    expect(set.line.voltage).toMatchObject({ value: 230, spread: { shape: "rectangular", half: 5 }, origin: "stated" });
    expect(set.supplies.nodes.find((n) => n.id === "b2")?.volts.value).toBe(210);
    expect(set.bands.map((b) => [b.low.value, b.high.value, b.spread, b.oscillator])).toEqual([
      [1.5e6, 4.3e6, false, "above"],
      [7e6, 7.3e6, true, "below"],
    ]);
    expect(set.tubes.map((t) => t.stage)).toEqual(["rf", "mixer", "if2", "detector"]);
    // the tag on the route names the tube that was typed in
    expect(set.stages.find((x) => x.id === "mixer")?.part).toBe(`${set.tubes[1].socket} ${set.tubes[1].type}`);
  });
  it.each([
    [{ lineVoltage: "12 kHz" }, "lineVoltage", "wrong-unit"],
    [{ lineVoltage: "5 V" }, "lineVoltage", "out-of-range"],
    [{ cans: "7" }, "cans", "not-an-option"],
    [{ bands: "1.5 - 4.3 MHz\nall of it" }, "bands line 2", "not-a-band"],
    [{ bands: "4.3 - 1.5 MHz" }, "bands line 1", "not-a-band"],
    [{ tubes: "V1 6BA6" }, "tubes line 1", "no-duty"],
    [{ tubes: "V1, 6BA6, RF\nV1, 6BE6, mixer" }, "tubes line 2", "same-socket"],
    [{ tubes: "V1, 6BA6, mixxer" }, "tubes line 1", "no-such-duty"],
    [{ colour: "grey" }, "colour", "no-field"],
  ])("refuses %j at its field", (outline, path, code) => {
    const r = setFromOutline(outline as never);
    expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
  });
  it("gives each field a label, help, and an assumed value that it accepts itself", () => {
    for (const f of outlineFields) {
      expect(f.help.length, f.id).toBeGreaterThan(5);
      expect(setFromOutline(f.assumed === "" ? {} : { [f.id]: f.assumed }).ok, f.id).toBe(true);
    }
  });
});

describe("another set of the same kind", () => {
  it("takes nothing for granted that was measured, fitted or proved on the first", () => {
    const [set] = patterns.slice(1);
    const known = structuredClone(set);
    known.line.voltage = { ...known.line.voltage, origin: "measured" };
    known.strip.cans[0].primaryQ = { ...known.strip.cans[0].primaryQ, origin: "fitted", joint: "fit-1" };
    known.fittings[0].state = "set";
    const copy = sameKind(known, "first");
    expect(JSON.stringify(copy)).not.toMatch(/"origin":"(measured|fitted|computed|tried)"|"joint"/);
    expect(copy.strip.cans[0].primaryQ.source).toContain("fitted on another set of its kind, first");
    expect(copy.fittings.map((f) => f.state)).toEqual(["planned", "offered", "offered"]);
    expect(copy.chassis).toMatchObject({ state: "unstated", isolation: "none" });
    expect(sameKind(patterns[0], "live one").chassis.state).toBe("live");
  });
});
