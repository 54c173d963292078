import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { firstPower, handover, safetyIn, safetyOut } from "../../job/proved.testdata";
import {
  byDiagram,
  described,
  grids,
  mA,
  ohmsToChassis,
  readingsOf,
  type SafetyRead,
  type StripTruth,
  type SupplyRead,
  type SupplyTruth,
} from "./ten-tubes.testdata";
import { type DialRead, holds, playerOf, readFigure, type SweepRead, saysOf, sweepCsv, worldNamed } from "./whole-job.testdata";

const world = worldNamed("ten-tube-117v");
const p = playerOf("Ten tubes");
afterAll(p.end);

const { chartAs, dials } = readingsOf(p, world);

describe.sequential("a ten-tube set, from new to hand-over", () => {
  it("is described, and can be handed to nobody yet", async () => {
    expect((await p.run("new", "Ten tubes", ...described)).code).toBe(0);
    const { words } = world.reads<{ words: string }>(1);
    await p.fill("intake", { Date: "1 Feb", "Past work found in it": words, "The owner's wish": "safe, and on its bands" });
    await p.act("set", ...byDiagram);
    await p.act("set", "place.region=ITU Region 2");
    await p.done("01");
    const b = await p.ask("b-plus");
    expect(b.headline).toContain("Stop:");
    const why = await p.refused("done", "36");
    for (const step of ["02", "03", "04", "08", "35"]) expect(why).toContain(`step ${step}`);
    expect((await p.next())[0].step).toBe("02");
  });
  it("is not switched on while its safety readings fail: each refusal names them", async () => {
    const read = world.reads<SafetyRead>(2);
    await p.fill("safety-in", {
      "Page before opening read, signed": "T. 1 Feb",
      "Cord type": read.cord,
      "Fuse rating and type": read.fuse,
      "Insulation line to chassis, MΩ": `${read.insulationOhm / 1e6}`,
      "Touch current one way, mA": mA(read.rows[0].touchA),
      "Touch current other way, mA": mA(read.rows[1].touchA),
      "Line bypass parts and class": "old paper capacitors",
      "Tester used": "insulation tester, invented",
      "Date and sign": "1 Feb, T.",
    });
    await p.done("02");
    expect(await p.refused("chassis", "isolated", ...ohmsToChassis(read.insulationOhm))).toContain("at least 2 MΩ");
    for (const step of ["03", "04", "08"]) {
      const why = await p.refused("done", step);
      expect(why).toMatch(/The chassis is not proved yet/);
      expect(why).toMatch(/Fuse rating and type: read "none"/);
      expect(why).toMatch(/Line bypass parts and class: read "old paper capacitors"/);
    }
    expect(await p.refused("done", "08")).toMatch(
      /First prove .*step 04[\s\S]*Still blank on the first-power card: Volts on the set behind the bulb, V;/,
    );
    expect(saysOf(await p.ask("safety"), "danger")).toMatch(/screw and shaft/);
  });
  it("has its line side mended, and proved anew by values from after that work", async () => {
    expect(await p.refused("work", "line-capacitor-replaced")).toContain("safety.bypassClass");
    await p.act("work", "line-capacitor-replaced", "--now", "safety.bypassClass=Y2", "--now", "safety.bypass=4.4 nF");
    await p.act("work", "cord-changed", "--note", "three-wire, fuse 1 A");
    const read = world.reads<SafetyRead>(14);
    await p.act("chassis", "isolated", ...ohmsToChassis(read.insulationOhm));
    const why = await p.refused("done", "03");
    expect(why).toMatch(/Insulation line to chassis, MΩ: read "0.09", expected at least 2 MΩ/);
    expect(why).toMatch(/Older than the work that touched them, on the safety-in card: .*Tester used/);
    await p.fill("safety-in", {
      ...safetyIn,
      "Cord type": read.cord,
      "Fuse rating and type": read.fuse,
      "Insulation line to chassis, MΩ": `${read.insulationOhm / 1e6}`,
      // the bleeder alone: the world has no value
      "B+ to chassis once settled, kΩ": "33",
      "Bond, Ω": `${read.groundBondOhm}`,
      "Line bypass parts and class": "Y2, 2.2 nF each",
    });
    await p.done("03", "04");
  });
  it("goes on behind a bulb, and not before its current holds", async () => {
    expect(await p.refused("done", "08")).toMatch(/Still blank on the first-power card: .*Current at full line, A/);
    const { inputW, lineV } = world.reads<SupplyRead>(4);
    await p.fill("first-power", { ...firstPower, "Current at full line, A": "1.4", "Smoke, glow or smell": "V9 glows blue" });
    const why = await p.refused("done", "08");
    expect(why).toMatch(/Current at full line, A: read "1.4"/);
    expect(why).toMatch(/Smoke, glow or smell: read "V9 glows blue"/);
    await p.fill("first-power", { "Current at full line, A": (inputW / lineV).toFixed(2), "Smoke, glow or smell": "none" });
    await p.done("08");
  });
  it("has silicon where a tube was: B+, its ripple and the rectifier's peak are the truth's", async () => {
    const read = world.reads<SupplyRead>(4);
    const truth = world.truth<SupplyTruth>(4);
    await p.act("set", `line.today=${read.lineV} V ±0.5 V`, `supplies.measuredFirst=${read.firstV} V`, "--origin", "measured");
    const a = await p.ask("b-plus");
    holds(a.results.bPlusFirst, truth.firstV);
    holds(a.results.bPlusSecond, truth.secondV);
    holds(a.results.rippleFirst, truth.firstRipplePpV);
    holds(a.results.rectifierPeak, truth.rectifierPeakA);
    // what cured it was 270 ohm in series
    holds(a.results.restoringPerPlate, 270);
    expect(saysOf(a, "b-plus-silicon-in")).toContain("Silicon is fitted where the set was made for");
  });
  it("shows on its chart the grid, the cathode and what all volts have in common", async () => {
    const meters = { "Line volts": "119.6 V", Meter: "20 kohm/V", "Chart's meter and line": "1 kohm/V, 117 V" };
    await p.fill("voltage-chart", meters, "--rows", chartAs("found", world.reads<SupplyRead>(4).secondV));
    const a = await p.ask("volts");
    expect(a.headline).toMatch(/up together by 20 %[\s\S]*V9, grid is positive/);
    expect(saysOf(a, "danger")).toContain("V9, grid at 6.3 V");
    expect(saysOf(a, "act")).toMatch(/V4, cathode: 5.6 V is high/);
  });
  it("ties the leak with gas and names the test; the pulled tube leaves the leak, near the truth's", async () => {
    const a = await p.ask("suspects", "--at", "stages.output", ...grids);
    expect(a.headline).toMatch(/^Switch off now[\s\S]*coupling capacitor to the grid leaky[\s\S]*gassy/);
    expect(a.headline).toContain("Measure next: the grid's volts with the coupling capacitor's driver end lifted");
    const { gridV } = world.reads<{ gridV: number }>(6);
    const b = await p.ask("suspects", "--at", "stages.output", ...grids, "--try", `tests=grid-new-tube, , ${gridV}`);
    expect(b.headline).not.toContain("gassy");
    const { leakOhm } = world.truth<{ leakOhm: number }>(6);
    // one figure without an interval: within a sixth
    expect(Math.abs(b.results.couplingLeak.value / leakOhm - 1)).toBeLessThan(1 / 6);
  });
  it("finds the cathode resistor of 330 ohm where 68 is marked", async () => {
    const a = await p.ask("suspects", "--at", "stages.if1");
    expect(a.headline).toMatch(/^Most likely: cathode resistor drifted, .* (30|31|32|33|34|35|36)0 Ω/);
  });
  it("reads the IF sweep: the figures hold the truth", async () => {
    await p.act("set", "alignment.slugsTouched=yes");
    const out = await p.act("read", p.file("if-found.csv", sweepCsv(world.reads<SweepRead>(7))), "--as", "if-sweep", "--state", "as-found");
    const { truth } = world.reads<{ truth: StripTruth }>(7);
    holds(readFigure(out, "peak frequency"), truth.peakHz);
    holds(readFigure(out, "width at -3 dB"), truth.width3Hz);
    holds(readFigure(out, "width at -6 dB"), truth.width6Hz);
    holds(readFigure(out, "width at -60 dB"), truth.width60Hz);
    const { results } = await p.ask("if-response");
    holds(results.width6dB, truth.width6Hz);
    holds(results.peakFrequency, truth.peakHz);
  });
  it("names the padder among what may move the dial of range A, and leaves range B alone", async () => {
    const dial = world.reads<DialRead>(8);
    await dials(dial, "as-found");
    const a = await p.ask("tracking", "--at", "bands.a");
    expect(a.headline).toContain("the padder, 8.0 % too small");
    holds(a.results.padderOff, -0.08);
    holds(a.results.coilOff, 0);
    holds(a.results.trimmerOff, 0);
    expect((await p.ask("tracking", "--at", "bands.b")).headline).toContain("right as far as these readings tell");
  });
  it("is mended part by part, and each work inside keeps it from hand-over", async () => {
    await p.act(
      "work",
      "supply-changed",
      "--now",
      "supplies.rectifierType=same",
      "--now",
      "line.voltage=same",
      "--note",
      "270 ohm in series",
    );
    await p.act("set", "supplies.addedResistance=270 ohm");
    await p.act("work", "capacitor-replaced", "--at", "stages.output", "--note", "coupling capacitor V8 to V9");
    await p.act("work", "resistor-replaced", "--at", "stages.if1", "--note", "68 ohm");
    const due = (await p.next()).map((n) => n.step);
    for (const step of ["08", "09", "10", "35", "36"]) expect(due).toContain(step);
    expect(due.indexOf("08")).toBeLessThan(due.indexOf("09"));
    expect(await p.refused("done", "08")).toContain("Older than the work that touched");
    const { inputW, lineV } = world.reads<SupplyRead>(10);
    // ohms come once more before power
    await p.fill("safety-in", {
      "B+ to chassis once settled, kΩ": "33",
      "Tester used": "ohmmeter, invented",
      "Date and sign": "5 Feb, T.",
    });
    await p.fill("first-power", { ...firstPower, "Current at full line, A": (inputW / lineV).toFixed(2) });
    const first = {
      "row 1: Part": "C1",
      "row 1: Kind": "film",
      "row 1: Duty": "coupling",
      "row 1: Value": "22 nF",
      "row 1: Rated V": "630",
    };
    expect(await p.refused("done", "05")).toContain("capacitors card");
    await p.fill("capacitors", first);
    await p.done("04", "05", "06", "07", "08");
  });
  it("has the volts of a sound set as left, by supply, chart and stage", async () => {
    const read = world.reads<SupplyRead>(10);
    const truth = world.truth<SupplyTruth>(10);
    await p.act("set", `line.today=${read.lineV} V ±0.5 V`, `supplies.measuredFirst=${read.firstV} V`, "--origin", "measured");
    const b = await p.ask("b-plus");
    holds(b.results.bPlusFirst, truth.firstV);
    holds(b.results.bPlusSecond, truth.secondV);
    holds(b.results.rippleFirst, truth.firstRipplePpV);
    holds(b.results.rectifierPeak, truth.rectifierPeakA);
    await p.fill("voltage-chart", { "Line volts": "118.2 V" }, "--rows", chartAs("left", read.secondV));
    const v = await p.ask("volts");
    expect(v.headline).toContain("30 of 30 readings are as they should be");
    for (const at of ["output", "if1"])
      expect((await p.ask("suspects", "--at", `stages.${at}`, ...grids)).headline).toMatch(/^No fault shows/);
    await p.done("09", "10");
  });
  it("is lined up: IF and dial as left hold the truth, and what stood before the work counts no more", async () => {
    await p.act("work", "if-aligned");
    const out = await p.act("read", p.file("if-left.csv", sweepCsv(world.reads<SweepRead>(11))), "--as", "if-sweep", "--state", "as-left");
    const { truth } = world.reads<{ truth: StripTruth }>(11);
    holds(readFigure(out, "width at -60 dB"), truth.width60Hz);
    const { results } = await p.ask("if-response");
    holds(results.width6dB, truth.width6Hz);
    holds(results.peakFrequency, truth.peakHz);
    await p.act("work", "oscillator-aligned", "--at", "bands.a", "--note", "padder of range A");
    expect((await p.ask("dial", "--at", "bands.a")).headline).toContain("Missing: zero beats");
    const left = world.reads<DialRead>(12);
    await dials(left, "as-left", ["a"]);
    expect((await p.ask("tracking", "--at", "bands.a")).headline).toContain("right as far as these readings tell");
    const d = await p.ask("dial", "--at", "bands.a", "--try", "where=1 MHz");
    // the truth's dial stands at 1000.318 kHz there
    holds(d.results.reading, 1000.318);
    const [beat] = left.ranges[1].rows;
    await p.act("zero-beat", `${beat.dialHz / 1e6}`, `${beat.signalHz} Hz`, "--band", "b", "--approach", "up");
    expect((await p.ask("dial", "--at", "bands.b")).headline).toContain("5 zero beats");
  });
  it("is handed over once its record holds, and no longer after work inside", async () => {
    const read = world.reads<SafetyRead>(14);
    const before = world.reads<SafetyRead>(2);
    const going = (touch: SafetyRead): Readonly<Record<string, string>> => ({
      ...safetyOut,
      "Cord type": read.cord,
      "Fuse rating and type": read.fuse,
      "Insulation line to chassis, MΩ": `${touch.insulationOhm / 1e6}`,
      "Bond, Ω": `${read.groundBondOhm}`,
      "Touch current one way, mA": mA(touch.rows[0].touchA),
      "Touch current other way, mA": mA(touch.rows[1].touchA),
      "Line bypass parts and class": "Y2, 2.2 nF each",
    });
    expect(await p.refused("done", "36")).toContain("step 35");
    await p.fill("safety-out", going(before));
    const why = await p.refused("done", "35");
    for (const said of [
      /Touch current one way, mA: read "2.5", expected 0.5 mA/,
      /Touch current other way, mA: read "0.988"/,
      /Insulation line to chassis, MΩ: read "0.09"/,
    ])
      expect(why).toMatch(said);
    await p.fill("safety-out", going(read));
    await p.done("35");
    const unsaid = await p.refused("done", "36");
    for (const said of ["What was done", "Warnings given", "Signature and date", "Made due again by work"]) expect(unsaid).toContain(said);
    await p.fill("handover", { ...handover, "What was not done": "S meter and bandspread were not gone over again" });
    await p.done("36");
    expect((await p.next()).map((n) => n.step)).not.toContain("36");
    await p.act("work", "tube-replaced", "--at", "stages.if2");
    expect((await p.next()).map((n) => n.step).slice(-2)).toEqual(["35", "36"]);
    expect(await p.refused("done", "36")).toContain("step 35");
    expect(await p.refused("done", "35")).toContain("Older than the work that touched");
    await p.fill("safety-out", going(read));
    await p.done("35", "36");
    const pdf = join(p.folder, "report.pdf");
    expect((await p.run("report", "Ten tubes", "-o", pdf)).code).toBe(0);
    expect(readFileSync(pdf).subarray(0, 5).toString()).toBe("%PDF-");
  });
});
