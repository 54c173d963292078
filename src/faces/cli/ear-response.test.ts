/** Responses as typed: the sound device by a loop-back, audio, envelope, beside the BFO, and by a generator; what is kept, and what is refused. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { made, tau, wav16 } from "../../readings/sound/waves.testdata";
import { commandLineIn } from "./command-line.testdata";

const { folder, run } = commandLineIn("cli-response", { columns: 120 });
const rate = 12_000;
const seconds = 30;
const file = (name: string, x: Float64Array): string => {
  const path = join(folder, name);
  writeFileSync(path, wav16(x, rate));
  return path;
};
/** One pole up to so many hertz. */
const lowPass = (x: Float64Array, hz: number): Float64Array => {
  const share = 1 - Math.exp((-tau * hz) / rate);
  let y = 0;
  return x.map((v) => (y += share * (v - y)));
};
const hiss = (seed: number) => made(rate, seconds, () => 0, 0.15, seed);
const loop = file("loop.wav", hiss(1));
const audio = file("audio.wav", lowPass(hiss(2), 2000));
/** Noise of one strip pole, 500 Hz to either side of 455 kHz, beside a BFO at 452 kHz, through the same audio. */
function besideBfo(): Float64Array {
  const z = normalStream(3, "strip", 2 * rate * seconds);
  const pole = Math.exp((-tau * 300) / rate);
  let [re, im] = [0, 0];
  return lowPass(
    Float64Array.from({ length: rate * seconds }, (_, i) => {
      re = pole * re + (1 - pole) * z[2 * i];
      im = pole * im + (1 - pole) * z[2 * i + 1];
      return 0.5 * (re * Math.cos((tau * 3000 * i) / rate) - im * Math.sin((tau * 3000 * i) / rate));
    }),
    2000,
  );
}
const strip = file("strip.wav", besideBfo());
const bfo = ["--by", "bfo", "--bfo", "452 kHz", "--sideband", "upper"];
beforeAll(async () => {
  expect((await run("new", "Quarry", "--pattern", "nine-tube-bandspread")).code).toBe(0);
});

describe("response", () => {
  it("measures the sound device once, and divides it out of the audio", async () => {
    const device = join(folder, "device.csv");
    const { code, out } = await run("response", loop, "--by", "loop-back", "-o", device);
    expect([code, out.replace(/\s+/g, " ")]).toEqual([0, expect.stringContaining("between none of this and all of it")]);
    expect(readFileSync(device, "utf8")).toMatch(/^# The sound device.*\nfrequency Hz,level dB,uncertainty dB\n/);
    const heard = await run("response", audio, "--by", "audio", "--device", device, "--job", "Quarry");
    expect(heard.code).toBe(0);
    expect(heard.out).toMatch(/3 dB down +not reached +(?:1\.9|2\.\d)\d* kHz/);
    expect(heard.out).not.toContain("sound device's own response is in it");
    expect((await run("show", "Quarry")).out).toContain("audio, 3 dB down, high end");
  });
  it("takes noise through an envelope detector for the whole set's audio, and calls it a bound", async () => {
    const { out } = await run("response", audio, "--by", "envelope");
    expect(out.replace(/\s+/g, " ")).toContain("IF included: no selectivity");
    expect(out.replace(/\s+/g, " ")).toMatch(/Upper bound on selectivity|gives no bound/);
    expect(out).toContain("sound device's own response is in it");
  });
  it("reads selectivity beside the BFO with the kept audio divided out, and keeps it as a sweep that the strip is fitted to", async () => {
    const { code, out, err } = await run("response", strip, ...bfo, "--far", "22 dB", "--job", "Quarry");
    expect([code, err.includes("!")]).toEqual([0, false]);
    // the pole's own width, 600 Hz
    const width = Number(out.match(/3 dB down .* (\d+)(?:\.\d+)? Hz \(/)?.[1]);
    expect(width).toBeGreaterThan(500);
    expect(width).toBeLessThan(700);
    expect((await run("show", "Quarry")).out).toContain("width at -6 dB");
  });
  it.each([
    [bfo, "--far", "with both sides heard at once there is no selectivity"],
    [[...bfo, "--far", "5 dB"], "--far", "10 dB or more"],
    [[...bfo, "--far", "40 dB"], "--audio", "measured first"],
    [["--by", "bfo", "--far", "40 dB"], "--bfo", "frequency of the BFO"],
    [["--by", "generator", "--from", "445 kHz", "--to", "465 kHz", "--takes", "40 s"], "--avc", "too broad"],
    [
      ["--by", "generator", "--from", "445 kHz", "--to", "465 kHz", "--takes", "40 s", "--avc", "on"],
      "--avc",
      "the curve would come out too broad",
    ],
    [
      ["--by", "generator", "--from", "445 kHz", "--to", "465 kHz", "--takes", "5 s", "--avc", "off"],
      "--takes",
      "at most 2000 Hz a second",
    ],
    [["--by", "generator", "--takes", "40 s", "--avc", "on", "--hold", "output"], "--levels", "tells nothing where it is held"],
  ])("refuses %j by its option", async (typed, option, why) => {
    const { code, err } = await run("response", strip, ...typed);
    expect(code).toBe(2);
    expect(err).toContain(option);
    expect(err.replace(/\s+/g, " ")).toContain(why);
  });
  it("reads a stepped generator, its level held or the output", async () => {
    const level = (hz: number) => -10 * Math.log10(1 + ((2 * (hz - 455e3)) / 5000) ** 2);
    const at = Array.from({ length: 21 }, (_, i) => 445e3 + 1000 * i);
    const stepped = (held: boolean) =>
      made(rate, 22, (t) => (t < 21 ? 0.3 * 10 ** (held ? 0 : level(at[Math.floor(t)]) / 20) * Math.sin(tau * 400 * t) : 0), 0.002);
    const how = ["--by", "generator", "--takes", "21 s", "--avc", "clamped"];
    const byLevel = await run(
      "response",
      file("level.wav", stepped(false)),
      ...how,
      "--from",
      "445 kHz",
      "--to",
      "465 kHz",
      "--points",
      "21",
    );
    const levels = join(folder, "levels.csv");
    writeFileSync(levels, `frequency Hz,level dBm\n${at.map((hz) => `${hz},${(-60 - level(hz)).toFixed(2)}`).join("\n")}\n`);
    const byOutput = await run("response", file("output.wav", stepped(true)), ...how, "--hold", "output", "--levels", levels);
    for (const { out } of [byLevel, byOutput]) expect(out).toMatch(/3 dB down .* (?:4\.9|5\.0|5\.1)\d* kHz \(/);
  });
  it("says beside it what is to be heeded of all that is led to the set", async () => {
    const { out } = await run("response", "--help");
    for (const heed of ["Before you lead a set's sound", "clip the noise to nothing inside the set", "B+ kills, and it is on every plate"])
      expect(out.replace(/\s+/g, " ")).toContain(heed);
    expect((await run("test-noise", "--help")).out.replace(/\s+/g, " ")).toContain("audio isolating transformer of its own");
  });
  it("writes the noise that is played", async () => {
    const hissed = join(folder, "hiss.wav");
    const written = await run("test-noise", "--seconds", "10", "-o", hissed);
    expect([written.code, written.out]).toEqual([0, expect.stringContaining("B+ kills: clip the noise to nothing inside the set")]);
    const { out } = await run("response", hissed, "--by", "loop-back");
    expect(out.replace(/\s+/g, " ")).toContain("3 dB down not reached not reached");
  });
});
