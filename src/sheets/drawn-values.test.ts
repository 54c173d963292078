import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import type { Answer } from "../ask/answered";
import type { Circuit } from "../ask/drawn/circuit";
import type { Picture, PictureKind } from "../ask/drawn/pictures";
import { benchOfSet, subjectsOf } from "../job/view";
import type { SetDescription } from "../set/describe";
import { patterns } from "../set/patterns/kinds";
import { symbolSets } from "../standards/symbols";
import { orThrow } from "../units/issue";
import { asRead } from "./as-read.testdata";
import { sheets } from "./index";

const set: SetDescription = { ...patterns[1], chassis: { state: "isolated", isolation: "none", note: "" } };
function ask(id: string, overrides: Record<string, string> = {}, of: SetDescription = set): Answer {
  const s = sheets.find((o) => o.id === id)!;
  const at = subjectsOf(of, s.subject, s.fitting, s.stageKinds)[0] ?? "";
  return orThrow(answer(s, benchOfSet(of, at), { draws: 200, points: 41, overrides: { ...asRead(s), ...overrides } }));
}
const drawnAs = <K extends PictureKind>(a: Answer, kind: K): Extract<Picture, { kind: K }> =>
  a.drawn.find((d): d is Extract<Picture, { kind: K }> => d.kind === kind)!;
const partOf = (c: Circuit, what: RegExp) => c.parts.find((p) => what.test(p.what))!;
const nodeOf = (c: Circuit, label: string) => c.nodes.find((n) => n.label === label)!;

describe("a drawing and its answer", () => {
  it("say the same volts of the filter, and what was read stands on its capacitor", () => {
    const a = ask("b-plus", { measuredFirst: "271 V" });
    const c = drawnAs(a, "circuit");
    const { low, high } = a.results.bPlusFirst;
    expect(nodeOf(c, "B+ first").volts).toMatchObject({ expected: { low, high }, read: 271 });
    expect(nodeOf(c, "B+ third").volts?.expected).toEqual({ low: a.results.bPlusThird.low, high: a.results.bPlusThird.high });
  });
  it("ask for the same capacitor at the plate, and mark nothing else", () => {
    const a = ask("dc-block");
    const c = drawnAs(a, "circuit");
    expect(c.parts.filter((p) => p.mark).map((p) => [p.what, p.mark])).toEqual([["series capacitor", "fit"]]);
    expect(a.headline).toContain(partOf(c, /series/).value?.text ?? "no value");
  });
  it("name the same suspects, with what was read at their pins", () => {
    const a = ask("suspects", { readings: "plate, 240 V; screen, 20 V; cathode, 0.2 V" });
    const c = drawnAs(a, "circuit");
    expect(partOf(c, /screen resistor/).mark).toBe("suspect");
    expect(partOf(c, /plate$|plate resistor/).mark).toBeUndefined();
    expect(a.headline).toContain("screen resistor");
    const screen = c.nodes.find((n) => n.id === "screen-top");
    expect(screen?.volts).toMatchObject({ read: 20 });
  });
  it("point to the same place of the dial, and open the same window", () => {
    const dial = ask("dial");
    expect(drawnAs(dial, "dial").pointer?.at).toBe(dial.results.reading.value);
    const edge = ask("band-edge");
    const { window, edges } = drawnAs(edge, "dial");
    const ends = [edge.results.carrierLow.value!, edge.results.carrierHigh.value!].sort((a, b) => a - b);
    expect([window?.from, window?.to]).toEqual(ends);
    const [low, high] = edges.map((e) => e.at).sort((a, b) => a - b);
    expect(low).toBeLessThan(ends[0]);
    expect(high).toBeGreaterThan(ends[1]);
  });
  it("let a charge fall by e in every time constant while the bleeder is there, and not at all without it", () => {
    // V = V0 exp(-t/RC), any textbook on circuits
    const a = ask("safety", { firstCapacitance: "20 uF", secondCapacitance: "20 uF", thirdCapacitance: "10 uF", bleeder: "50 k" });
    const [intact, open] = drawnAs(a, "charge").columns;
    expect(intact.falls.length).toBe(4);
    for (const { afterS, volts } of intact.falls) expect(volts).toBeCloseTo(intact.fromV * Math.exp(-afterS / (50e3 * 50e-6)), 6);
    expect(open.falls).toEqual([]);
    expect(open.fromV).toBe(intact.fromV);
  });
  it("light a bulb fully before a dead short, and by what the line leaves it before the set", () => {
    const a = ask("bring-up", { lineVoltage: "117 V", bulbRated: "117 V", setVolts: "40 V" });
    const { lamps } = drawnAs(a, "lamps");
    expect(lamps.find((l) => l.label === "a dead short")?.share).toBe(1);
    expect(lamps.find((l) => l.read)?.share).toBeCloseTo((117 - 40) / 117, 9);
    const [sound, read] = lamps;
    expect(sound.share).toBeLessThan(read.share);
  });
  it("turn and fit nothing at a chassis that is not proved, on any question", () => {
    const live: SetDescription = { ...set, chassis: { state: "unstated", isolation: "none", note: "" } };
    for (const s of sheets)
      for (const d of ask(s.id, {}, live).drawn)
        if (d.kind === "circuit")
          expect(d.parts.filter((p) => p.mark === "fit" || p.mark === "turn").map((p) => `${s.id} ${p.what}`)).toEqual([]);
  });
  it("are in the symbols that the job asks for", () => {
    for (const symbols of symbolSets) expect(drawnAs(ask("b-plus", {}, { ...set, place: { symbols } }), "circuit").symbols).toBe(symbols);
    expect(drawnAs(ask("b-plus"), "circuit").symbols).toBe("IEC 60617");
  });
});
