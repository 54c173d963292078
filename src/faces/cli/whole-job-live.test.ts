import { afterAll, describe, expect, it } from "vitest";
import { firstPower, handover, safetyIn, safetyOut } from "../../job/proved.testdata";
import { sheets } from "../../sheets/index";
import {
  type ChartRead,
  chartCsv,
  type DialRead,
  dialCsv,
  holds,
  playerOf,
  readFigure,
  type Said,
  type SweepRead,
  saysOf,
  sweepCsv,
  worldNamed,
} from "./whole-job.testdata";

const world = worldNamed("five-tube-live-chassis");
const p = playerOf("Five tubes");
afterAll(p.end);

interface SupplyRead {
  readonly lineV: number;
  readonly firstV: number;
  readonly secondV: number;
  readonly inputW: number;
}
interface SupplyTruth {
  readonly firstV: number;
  readonly secondV: number;
  readonly firstRipplePpV: number;
}
interface TouchRead {
  readonly rows: readonly {
    readonly plug: string;
    readonly canBeTouched: boolean;
    readonly touchA: number;
  }[];
}
/** The worst that a hand can meet, mA, with the plug one way and turned. */
const worstTouch = (read: TouchRead): Readonly<Record<string, string>> => {
  const worst = (plug: string): string =>
    `${1e3 * Math.max(...read.rows.filter((r) => r.canBeTouched && r.plug === plug).map((r) => r.touchA))}`;
  return { "Touch current one way, mA": worst("chassis on hot"), "Touch current other way, mA": worst("chassis on neutral") };
};
const described = [
  "title=Five-tube set, chassis on the line",
  "chassis=live",
  "lineVoltage=117 V",
  "watts=30 W",
  "rectifier=half-wave vacuum, from the line",
  "secondaryVoltage=117 V",
  "mixerPlate=90 V",
  "cans=2",
  "canQuality=wide",
  "rfStages=0",
  "bfo=no",
  "bands=0.525 - 1.53 MHz",
  "tubes=V1, 12BE6, mixer\nV2, 6BA6, IF\nV3, 6AV6, detector\nV4, 50C5, output\nV5, 35W4, rectifier",
].flatMap((f) => ["--field", f]);
/** What the diagram says: the output plate is fed from the first filter capacitor, all else behind 1 kohm from the other. */
const byDiagram = [
  "supplies.addedResistance=33 ohm",
  "supplies.secondaryResistance=1 ohm",
  "supplies.primaryResistance=0 ohm",
  "supplies.firstCapacitance=40 uF ±8 uF",
  "supplies.firstResistance=1 ohm",
  "supplies.firstChoke=0 H",
  "supplies.secondCapacitance=10 nF",
  "supplies.secondResistance=1 kohm",
  "supplies.thirdCapacitance=40 uF ±8 uF",
  "supplies.plateCurrent=36 mA ±4 mA",
  "supplies.restCurrent=25 mA ±3 mA",
  "supplies.bleeder=1 Mohm",
  "stages.output.cathodeResistor=150 ohm",
  "bands.a.gangLow=10 pF ±1 pF",
  "bands.a.gangHigh=103 pF ±2 pF",
  "bands.a.padderLayout=no padder",
];
/** Behind the isolation transformer: volts of the script's own, the world has none. */
const provedDead = [
  ...["live-proved-dead", "--volts-one-way", "0.3 V", "--volts-other-way", "0.4 V", "--transformer", "100 VA, screened"],
  ...["--meter", "multimeter across 1.5 kohm", "--how", "chassis to earth, set on, plug both ways", "--confirm", "live-proved-dead"],
];
interface StripTruth {
  readonly width3Hz: number;
  readonly width6Hz: number;
}
const chartAs = (of: "found" | "left", firstV: number, secondV: number) =>
  p.file(
    `${of}.csv`,
    chartCsv(world.reads<ChartRead>(5), of, [
      ["V5", 90, secondV],
      ["V5", 115, firstV],
    ]),
  );
const dial = (n: number, state: string) =>
  p.act("read", p.file(`${state}.csv`, dialCsv(world.reads<DialRead>(n), 0, 1e3, "kHz")), "--as", "dial", "--state", state, "--band", "a");

/** Of all sheets that belong to a step: how many begin with a stop; the rest must want nothing of the set, or speak of what it has not. */
async function stops(): Promise<number> {
  let count = 0;
  for (const s of sheets.filter((x) => x.steps.length > 0)) {
    const r = await p.run("sheet", s.id, "Five tubes", "--draws", "200", "--json");
    if (r.code === 2) {
      expect(r.err, s.id).toContain("this one has none");
      continue;
    }
    const { headline, findings } = JSON.parse(r.out) as Said;
    if (headline.startsWith("Stop:")) count++;
    else expect(findings.filter((f) => f.state !== "desk").map((f) => `${s.id}, ${f.id}`)).toEqual([]);
  }
  return count;
}

describe.sequential("a five-tube set with its chassis on the line, from new to hand-over", () => {
  it("is stopped at by every sheet that wants anything of it, and no ohms prove it isolated", async () => {
    expect((await p.run("new", "Five tubes", ...described)).code).toBe(0);
    await p.act("set", ...byDiagram);
    await p.fill("intake", { Condition: world.reads<{ words: string }>(1).words });
    await p.done("01");
    expect(await stops()).toBeGreaterThan(20);
    const how = ["--meter", "insulation tester", "--how", "blades to chassis", "--confirm", "isolated"];
    expect(await p.refused("chassis", "isolated", "--ohms", "22 Mohm", ...how)).toContain("rectifier fed from the line");
    expect((await p.run("sheet", "safety", "Five tubes", "--try", "chassis=isolated")).err).toContain("never tried");
  });
  it("is proved dead behind an isolation transformer, by volts both ways of the plug and nothing less", async () => {
    const said = (one: string, transformer: string) => [
      ...["live-proved-dead", "--volts-one-way", one, "--volts-other-way", "0.4 V", "--transformer", transformer],
      ...["--meter", "multimeter across 1.5 kohm", "--how", "chassis to earth", "--confirm", "live-proved-dead"],
    ];
    // straight on the line the world's chassis stands at 120 V
    expect(await p.refused("chassis", ...said("120 V", "100 VA"))).toContain("voltsOneWay");
    expect(await p.refused("chassis", ...said("0.3 V", ""))).toContain("transformer: nothing given");
    expect(await p.refused("done", "03")).toMatch(/First prove step 02[\s\S]*The chassis is live: prove it/);
    await p.act("chassis", ...provedDead);
    expect((await p.ask("b-plus")).headline).not.toContain("Stop:");
    const { "Insulation line to chassis, MΩ": _, ...card } = safetyIn;
    await p.fill("safety-in", { ...card, "Cord type": "two-pin, plain", "Fuse rating and type": "0.5 A" });
    await p.done("02", "03", "04");
    const { inputW, lineV } = world.reads<SupplyRead>(4);
    await p.fill("first-power", { ...firstPower, "Current at full line, A": (inputW / lineV).toFixed(2) });
    await p.done("08");
  });
  it("has a first capacitor that has lost its value among the causes of its low B+", async () => {
    const read = world.reads<SupplyRead>(4);
    await p.act("set", `line.today=${read.lineV} V ±0.5 V`, `supplies.measuredFirst=${read.firstV} V`, "--origin", "measured");
    const a = await p.ask("b-plus");
    expect(a.results.bPlusFirst.low).toBeGreaterThan(read.firstV);
    expect(saysOf(a, "b-plus-tie")).toContain("a first filter capacitor that has lost its value");
    // of the ripples that the tie tells its causes apart by, the one read, 65 V, is nearest to that one's
    expect(a.findings.find((f) => f.id === "b-plus-tie")!.do).toMatch(
      /33\.4 V .* heavy load, 73 V .* first capacitor, 15\.9 V .* weak rectifier/,
    );
    const b = await p.ask("b-plus", "--try", "firstCapacitance=11 uF");
    const truth = world.truth<SupplyTruth>(4);
    holds(b.results.bPlusFirst, truth.firstV);
    holds(b.results.bPlusThird, truth.secondV);
    holds(b.results.rippleFirst, truth.firstRipplePpV);
  });
  it("has a positive grid that nobody leaves on, and its leak named", async () => {
    const meters = { "Line volts": "120.3 V", Meter: "20 kohm/V", "Chart's meter and line": "1 kohm/V, 117 V" };
    const { firstV, secondV } = world.reads<SupplyRead>(4);
    await p.fill("voltage-chart", meters, "--rows", chartAs("found", firstV, secondV));
    const v = await p.ask("volts");
    expect(saysOf(v, "danger")).toContain("V4, grid at 3.64 V");
    const a = await p.ask("suspects", "--at", "stages.output", "--try", "meter=VTVM, 11 MΩ");
    const { leakOhm } = world.truth<{ leakOhm: number }>(6);
    expect(Math.abs(a.results.couplingLeak.value / leakOhm - 1)).toBeLessThan(1 / 6);
    expect(a.headline).toMatch(/^Switch off now[\s\S]*coupling capacitor to the grid leaky/);
  });
  it("reads sweep and dial: the width is the truth's, the coil is named", async () => {
    const out = await p.act("read", p.file("if.csv", sweepCsv(world.reads<SweepRead>(7))), "--as", "if-sweep", "--state", "as-found");
    const { truth } = world.reads<{ truth: StripTruth }>(7);
    holds(readFigure(out, "width at -6 dB"), truth.width6Hz);
    holds(readFigure(out, "width at -3 dB"), truth.width3Hz);
    holds((await p.ask("if-response")).results.width6dB, truth.width6Hz);
    await dial(8, "as-found");
    const t = await p.ask("tracking", "--at", "bands.a");
    expect(t.headline).toMatch(/it may be the coil, 2\.9 % too small/);
    holds(t.results.coilOff, -0.03);
  });
  it("is mended: work on the line side takes the proof of the chassis away, and every sheet stops again", async () => {
    await p.act("work", "line-capacitor-replaced", "--now", "safety.bypassClass=none fitted", "--now", "safety.bypass=0 pF");
    await p.act("work", "cord-changed", "--note", "polarised plug, switch in the hot lead, fuse");
    expect(await stops()).toBeGreaterThan(20);
    await p.act("chassis", ...provedDead);
    await p.act("work", "capacitor-replaced", "--note", "both electrolytics, coupling capacitor");
    await p.act("work", "if-aligned");
    await p.act("work", "oscillator-aligned", "--at", "bands.a");
    const { firstV, secondV, lineV } = world.reads<SupplyRead>(10);
    await p.act("set", `line.today=${lineV} V ±0.5 V`, `supplies.measuredFirst=${firstV} V`, "--origin", "measured");
    const b = await p.ask("b-plus");
    const truth = world.truth<SupplyTruth>(10);
    holds(b.results.bPlusFirst, truth.firstV);
    holds(b.results.bPlusThird, truth.secondV);
    holds(b.results.rippleFirst, truth.firstRipplePpV);
    await p.fill("voltage-chart", { "Line volts": "118.6 V" }, "--rows", chartAs("left", firstV, secondV));
    const v = await p.ask("volts");
    expect(saysOf(v, "danger")).toBe("");
    const strip = world.reads<{ truth: StripTruth }>(11).truth;
    const out = await p.act("read", p.file("if-left.csv", sweepCsv(world.reads<SweepRead>(11))), "--as", "if-sweep", "--state", "as-left");
    holds(readFigure(out, "width at -3 dB"), strip.width3Hz);
    holds(readFigure(out, "width at -6 dB"), strip.width6Hz);
    holds((await p.ask("if-response")).results.width6dB, strip.width6Hz);
    await dial(12, "as-left");
    // its maker reads this dial with 0.15 % of scatter, more than is taken where nobody has tried
    await p.act("set", "bands.a.readingNoiseShare=0.15 %", "--origin", "measured");
    expect((await p.ask("tracking", "--at", "bands.a")).headline).toContain("right as far as these readings tell");
  });
  it("is handed over once nothing that can be touched is live, and not before", async () => {
    expect(await p.refused("done", "36")).toContain("step 03");
    const { "Insulation line to chassis, MΩ": _, ...card } = safetyIn;
    const now = { "Cord type": "polarised two-wire", "Fuse rating and type": "0.5 A slow" };
    await p.fill("safety-in", { ...card, ...now });
    await p.done("03");
    const { "Insulation line to chassis, MΩ": __, ...out } = safetyOut;
    await p.fill("safety-out", { ...out, ...now, ...worstTouch(world.reads<TouchRead>(2)), "Knob screws covered": "no" });
    const why = await p.refused("done", "35");
    for (const said of [/one way, mA: read "80.4", expected 0.5 mA/, /other way, mA: read "73.7"/, /Knob screws covered: read "no"/])
      expect(why).toMatch(said);
    expect(await p.refused("done", "36")).toContain("step 35");
    await p.fill("safety-out", { ...worstTouch(world.reads<TouchRead>(13)), "Knob screws covered": "yes" });
    await p.fill("handover", { ...handover, "What was not done": "what the work on its first can made due again" });
    await p.done("35", "36");
    expect((await p.next()).map((n) => n.step)).not.toContain("36");
    await p.act("work", "covers-changed");
    expect(await p.refused("done", "36")).toContain("step 35");
  });
});
