import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type SimulatedBench, startSimulatedBench } from "../../instruments/simulated-bench";
import { commandLineIn } from "./command-line.testdata";

const { folder, run } = commandLineIn("instruments", { columns: 100 });
let bench: SimulatedBench;
beforeAll(async () => {
  bench = await startSimulatedBench({});
  await run("new", "Mill", "--pattern", "nine-tube-bandspread");
  const measured = [
    "--ohms",
    "22 Mohm",
    "--meter",
    "insulation tester, 500 V",
    "--how",
    "each blade to chassis, switch on; own transformer traced",
  ];
  await run("chassis", "Mill", "isolated", ...measured, "--confirm", "isolated");
  await run("new", "Barn", "--pattern", "five-tube-live");
});
afterAll(() => bench.close());
const to = (name: string) => join(folder, name);
const asked = (file: string, ...more: string[]) => [
  "sweep",
  bench.at.generator,
  "--meter",
  bench.at.voltmeter,
  ..."--from 455kHz --to 475kHz --points 21 --level -60dBm --avc off --settle 0.03s".split(" "),
  "-o",
  to(file),
  ...more,
];

describe("a sweep by instruments", () => {
  it("shows its plan with the cautions and switches nothing on, until it is told to", async () => {
    const before = bench.told.length;
    const { code, out } = await run(...asked("plan.csv"));
    expect(code).toBe(0);
    expect(out).toMatch(/21 frequencies from 455\.00 kHz to 475\.00 kHz/);
    expect(out.replace(/\s+/g, " ")).toMatch(
      /B\+ kills, and it is on every plate.*capacitor rated for it.*neither is ever clipped to a live chassis/,
    );
    expect(out).toContain("Nothing was switched on. Add --output-on");
    expect(bench.told.length).toBe(before);
    expect(() => readFileSync(to("plan.csv"))).toThrow();
  });
  it("becomes a reading of the job without a figure typed, and the strip is fitted to it", async () => {
    const r = await run(...asked("strip.csv", "--job", "Mill", "--output-on"));
    expect([r.code, r.err.includes("B+ kills")]).toEqual([0, true]);
    expect(r.out).toMatch(/Recorded in "Mill" as reading r-/);
    const peak = Number(/peak frequency\s+([\d.]+) kHz/.exec(r.out)?.[1]) * 1e3;
    expect(Math.abs(peak - bench.bench.peakHz)).toBeLessThan(1000);
    expect((await run("show", "Mill")).out).toContain("strip.csv");
    expect(bench.bench.isOn).toBe(false);
    const lines = readFileSync(to("strip.csv"), "utf8").trim().split("\n");
    expect(lines.slice(2, 4)).toEqual([
      "# generator held at -60 dBm; AVC off; AM 30 % at 400 Hz; 0.03 s to settle, 5 readings a point",
      "frequency Hz,level dB,uncertainty dB,output V,generator dBm",
    ]);
  });
  it("goes on with a file that was broken off, its torn last line dropped", async () => {
    const whole = readFileSync(to("strip.csv"), "utf8").split("\n");
    writeFileSync(to("torn.csv"), `${whole.slice(0, 9).join("\n")}\n46000`);
    const before = bench.told.filter((t) => t.startsWith("FREQ")).length;
    const plan = await run(...asked("torn.csv", "--go-on"));
    expect(plan.out).toContain("5 of them are in");
    const { code } = await run(...asked("torn.csv", "--go-on", "--output-on"));
    expect([code, bench.told.filter((t) => t.startsWith("FREQ")).length - before]).toEqual([0, 16]);
    const frequencies = readFileSync(to("torn.csv"), "utf8")
      .split("\n")
      .filter((l) => /^\d/.test(l))
      .map((l) => Number(l.split(",")[0]));
    expect(frequencies).toEqual([...frequencies].sort((a, b) => a - b));
    expect(new Set(frequencies).size).toBe(frequencies.length);
  });
  it.each([
    [["--avc", "on"], "AVC off or clamped, or --hold output"],
    [["--level", "0 dBm"], "at most -20 dBm"],
    [["--most", "20 dBm"], "more can harm a front end"],
    [["--narrowest", "50 Hz"], "at least 0.044 s"],
    [["--modulation", "0"], "hears nothing of a plain carrier"],
    [["--meter", "some where"], "an address with or without a port"],
  ])("is refused by name before anything is reached: %s", async (more, says) => {
    const before = bench.told.length;
    const r = await run(...asked("no.csv"), ...more, "--output-on");
    expect([r.code, bench.told.length - before]).toEqual([2, 0]);
    expect(r.err).toContain(says);
  });
  it("is never joined to a chassis that is not proved isolated", async () => {
    const before = bench.told.length;
    const r = await run(...asked("live.csv", "--job", "Barn", "--output-on"));
    expect([r.code, bench.told.length - before, r.err]).toEqual([2, 0, expect.stringContaining("a chassis proved isolated")]);
  });
  it("says what nobody answers, and what a job is not", async () => {
    const gone = await run(...asked("no.csv", "--output-on"), "--meter", "127.0.0.1:1");
    expect([gone.code, gone.err]).toEqual([2, expect.stringContaining("nothing listens there")]);
    expect((await run(...asked("no2.csv", "--output-on", "--job", "Nowhere"))).err).toContain("Nowhere");
  });
});

describe("a value off an instrument", () => {
  it("is recorded with its uncertainty and who read it", async () => {
    const mains = await startSimulatedBench({ receiver: { outputV: 121, rangeV: 300 } });
    Object.assign(mains.bench, { frequencyHz: mains.bench.peakHz, levelDbm: -60, isOn: true });
    const asked = ["from-instrument", "Mill", "line.today", mains.at.voltmeter, "--what", "ac", "--accuracy", "1"];
    expect((await run(...asked, "--dry-run")).out).toContain("Nothing was recorded (--dry-run).");
    expect((await run(...asked)).out).toMatch(/^Invented Bench voltmeter: 12[01](?:\.\d)? V.*Recorded at line\.today in "Mill"/);
    await mains.close();
    // 1 % of 121 V as a bound: standard uncertainty 0.70 V, and the scatter is a seventh of it
    const shown = (await run("sheet", "b-plus", "Mill", "--inputs")).out;
    expect(shown).toMatch(/= 12[01](?:\.\d)? V u 0\.7\d? V {2}\(measured/);
    bench.bench.isOn = false;
  });
  it("is of the kind that belongs there", async () => {
    const r = await run("from-instrument", "Mill", "line.today", bench.at.counter, "--what", "frequency");
    expect([r.code, r.err]).toEqual([2, expect.stringContaining("its kind of quantity: voltage")]);
    expect(r.err).toContain("B+ and line voltage kill");
    const live = await run("from-instrument", "Barn", "supplies.measuredFirst", bench.at.voltmeter, "--what", "dc");
    expect([live.code, live.err]).toEqual([2, expect.stringContaining("a chassis proved isolated")]);
    const off = await run("from-instrument", "Mill", "strip.intermediateFrequency", bench.at.counter, "--what", "frequency");
    expect([off.code, off.err]).toEqual([2, expect.stringContaining("a reading: check its range and its leads")]);
  });
});

describe("an instrument's own commands", () => {
  it("are printed to be edited, and used from the file", async () => {
    const { out } = await run("instrument-commands", "generator");
    expect(JSON.parse(out)).toMatchObject({ outputOff: "OUTP OFF" });
    writeFileSync(to("own.json"), JSON.stringify({ ...JSON.parse(out), frequency: "SOURCE:FREQUENCY:CW {Hz}" }));
    const before = bench.told.length;
    const r = await run(...asked("own.csv", "--output-on", "--generator-commands", to("own.json")));
    expect(r.code).toBe(0);
    expect(bench.told.slice(before)).toContain("SOURCE:FREQUENCY:CW 465000");
    writeFileSync(to("bad.json"), '{"frequency": "FREQ"}');
    const refused = await run(...asked("bad.csv", "--output-on", "--generator-commands", to("bad.json")));
    expect([refused.code, refused.err]).toEqual([2, expect.stringContaining("a command with {Hz}")]);
  });
});
