import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { made, tau, wav16 } from "../../readings/sound/waves.testdata";
import { commandLine } from "./main";

const folder = mkdtempSync(join(tmpdir(), "cli-ear-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const beat = join(import.meta.dirname, "../../../samples/first-job/beat.flac");
const run = async (...argv: string[]) => {
  const [out, err]: string[][] = [[], []];
  const world = {
    out: (t: string) => void out.push(t),
    err: (t: string) => void err.push(t),
    progress: () => undefined,
    page: { columns: 120, bold: (s: string) => s },
    now: () => "2026-02-01T10:00:00.000Z",
    env: { FETTLE_STORE: join(folder, "jobs.db") },
  };
  const code = await commandLine(world).run(argv);
  return { code, out: out.join("\n"), err: err.join("\n") };
};
const wav = (name: string, x: Float64Array): string => {
  writeFileSync(join(folder, name), wav16(x));
  return join(folder, name);
};
beforeAll(async () => {
  await run("new", "Mill", "--pattern", "nine-tube-bandspread");
});

describe("note", () => {
  it("tells a tone, its interval and what that is made of, without a set or a job", async () => {
    const { code, out } = await run(
      "note",
      wav(
        "tone.wav",
        made(8000, 12, (t) => 0.1 * Math.sin(tau * 1000.25 * t), 0.001),
      ),
    );
    expect(code).toBe(0);
    expect(out).toContain("Tone: 1000.25 Hz (1000.14 to 1000.36)");
    expect(out).toContain("taken as within 100 ppm");
    expect(out).toContain("held still");
  });
  it("with the device's clock measured once, by a standard tone, the interval is that of the noise", async () => {
    const file = wav(
      "standard.wav",
      made(8000, 30, (t) => 0.1 * Math.sin(tau * 999.97 * t), 0.001),
    );
    const { out } = await run("note", file, "--standard", "1 kHz");
    expect(out).toContain("runs 30.000 ppm fast");
    const said = /--clock "([^"]+)"/.exec(out)?.[1] ?? "";
    expect((await run("note", file, "--clock", said)).out).toMatch(/Tone: 1000\.000\d* Hz/);
    expect((await run("note", file, "--standard", "600 Hz")).out).toContain("no nearer to 600");
  });
  it("gives a marker's beat to the question on its trim, by the swell", async () => {
    const { code, out } = await run("note", beat, "--carrier", "10 MHz", "--job", "Mill", "--for", "marker-trim");
    expect(out).toMatch(/0\.0700\d ppm \(0\.0[67]\d+ to 0\.07\d+\) of the carrier/);
    expect(code).toBe(0);
    const sheet = (await run("sheet", "marker-trim", "Mill")).out;
    expect(sheet).toContain("0.07");
    expect((await run("show", "Mill")).out).toContain("beat.flac");
  });
  it("gives a track to the drift question, once it is told what the set listened to", async () => {
    const file = wav(
      "warm.wav",
      made(8000, 40, (t) => 0.1 * Math.sin(tau * (1000 * t - 3 * t * Math.exp(-t / 20))), 0.001),
    );
    const asked = await run("note", file, "--job", "Mill", "--for", "drift");
    expect([asked.code, asked.err]).toEqual([2, expect.stringContaining("--carrier")]);
    const { code } = await run(
      "note",
      file,
      "--job",
      "Mill",
      "--for",
      "drift",
      "--carrier",
      "10 MHz",
      "--sideband",
      "upper",
      "--after",
      "2 min",
    );
    expect(code).toBe(0);
    const json = JSON.parse((await run("sheet", "drift", "Mill", "--json")).out);
    const rows = json.inputs.driftLog.rows as { time: number; frequency: number }[];
    expect(rows.length).toBeGreaterThan(30);
    expect(rows[0].time).toBeCloseTo(122.524, 3);
    // upper sideband: the set is tuned below the carrier by the note, 1000 - 3 exp(-t/20) (1 - t/20) Hz
    const noteHz = 1000 - 3 * Math.exp(-2.524 / 20) * (1 - 2.524 / 20);
    expect(rows[0].frequency).toBeCloseTo(10e6 - noteHz, 1);
  });
  it("tells what is bad: silence, no such file, a file of another kind, a clock that can't be", async () => {
    expect((await run("note", wav("none.wav", new Float64Array(8000)))).err).toContain("is the lead in the right socket");
    expect((await run("note", join(folder, "gone.wav"))).err).toContain("no such file");
    expect((await run("note", folder)).err).toContain("folder");
    expect((await run("note", join(folder, "jobs.db"))).err).toContain("WAV (also RF64) or FLAC");
    expect((await run("note", beat, "--clock", "5 %")).err).toContain("10,000 ppm");
    expect((await run("note", beat, "--from", "2 kHz", "--to", "1 kHz")).err).toContain("above 2 kHz");
    expect((await run("note", beat, "--for", "drift")).err).toContain("--job");
  });
  it("warns before the sound is led out of the set: in its help", async () => {
    const { out } = await run("note", "--help");
    for (const word of [
      "isolating transformer rated for line voltage",
      "it never replaces it",
      "live chassis",
      "earth",
      "load left on",
      "free of DC",
    ])
      expect(out.replace(/\s+/g, " ")).toContain(word);
  });
});

describe("peak", () => {
  it("tells the peak of a can that was turned through it, when, and where it was left", async () => {
    // 4 s to find the tone, up to the peak at 7 s, past it, and left 3 dB under it
    const at = (t: number) => (t < 4 ? -10 : t < 8 ? -10 * (t / 3 - 7 / 3) ** 2 - 0 : -3);
    const file = wav(
      "slug.wav",
      made(8000, 12, (t) => 0.1 * 10 ** (at(t) / 20) * Math.sin(tau * 1000 * t), 0.0002),
    );
    const { code, out } = await run("peak", file);
    expect(code).toBe(0);
    expect(out).toMatch(/the tone at 1000 Hz: best -23\.0 dB re full scale at 0:0[67]\.\d, left 3\.0 dB under the best/);
    expect(out).toMatch(/0:0[67]\.\d +-23\.0 dB +after a rise of (?:9\.9|10\.0) dB/);
    expect(out).toMatch(/a steady tone at 1000 Hz: from here/);
    const whole = (await run("peak", file, "--of", "whole")).out;
    expect(whole).toContain("the whole sound: best -23.0 dB");
    expect(
      (
        await run(
          "peak",
          wav(
            "hiss.wav",
            made(8000, 3, () => 0, 0.05),
          ),
        )
      ).out,
    ).toContain("There is no steady tone in it");
    expect((await run("peak", "--help")).out.replace(/\s+/g, " ")).toContain("isolating transformer rated for line voltage");
  });
});

describe("noise", () => {
  const noisy = (name: string, of: (t: number) => number, seed: number, deviation = 0.05) => wav(name, made(8000, 20, of, deviation, seed));
  const tone = (t: number) => 0.1 * Math.sin(tau * 1000 * t);
  it("gives (S+N)/N of two recordings or two stretches of one, with band and weighting, and SINAD", async () => {
    // white to 4 kHz: 50 Hz to 3.6 kHz of it counts; a tone of 0.1 over 0.05^2 of 0.8875
    const want = 10 * Math.log10(1 + 0.005 / (0.0025 * 0.8875));
    const { code, out } = await run(
      "noise",
      noisy("on.wav", tone, 1),
      "--off",
      noisy("off.wav", () => 0, 2),
    );
    expect(code).toBe(0);
    expect(Math.abs(Number(/\(S\+N\)\/N: ([\d.]+) dB/.exec(out)![1]) - want)).toBeLessThan(0.15);
    expect(Math.abs(Number(/SINAD: ([\d.]+) dB/.exec(out)![1]) - want)).toBeLessThan(0.15);
    expect(out).toContain("50 Hz to 3.6 kHz, unweighted, rms; AVC not said");
    const both = noisy("both.wav", (t) => (t < 10 ? tone(t) : 0), 3);
    const spans = (await run("noise", both, "--spans", "0-9 11-20", "--avc", "held")).out;
    expect(Math.abs(Number(/\(S\+N\)\/N: ([\d.]+) dB/.exec(spans)![1]) - want)).toBeLessThan(0.15);
    expect(spans).toContain("AVC held");
    expect((await run("noise", both, "--spans", "0-9")).err).toContain("0-10 12-22");
    expect((await run("noise", both, "--spans", "0-9 30-40")).err).toContain("within the recording");
  });
  it("tells whether the set hears the band; refuses it where the gain or AVC may have moved", async () => {
    const [antenna, dummy] = [noisy("antenna.wav", () => 0, 4, 0.1), noisy("dummy.wav", () => 0, 5, 0.05)];
    const { out } = await run("noise", antenna, "--dummy", dummy, "--gain", "manual", "--avc", "off");
    expect(out).toMatch(/Rise from dummy load to antenna: (?:6\.0|5\.9|6\.1) dB/);
    expect(out).toMatch(/costs 1\.[23] dB/);
    expect((await run("noise", dummy, "--dummy", dummy, "--gain", "manual", "--avc", "off")).out).toContain("does not rise");
    const refused = await run("noise", antenna, "--dummy", dummy, "--gain", "manual");
    expect([refused.code, refused.err]).toEqual([2, expect.stringContaining("turns itself down")]);
    expect((await run("noise", antenna, "--dummy", dummy, "--avc", "off")).err).toContain("--gain");
  });
  it("gives the sheet on sensitivity its ratio, once the generator's level is said", async () => {
    const [on, off] = [noisy("g-on.wav", tone, 6), noisy("g-off.wav", () => 0, 7)];
    const kept = await run("noise", on, "--off", off, "--job", "Mill", "--level", "3 uV", "--depth", "30 %", "--avc", "held");
    expect([kept.code, kept.err]).toEqual([0, ""]);
    const rest = ["levelIs=p.d.", "noiseBandwidth=6 kHz", "sourceResistance=50 ohm"].map((v) => `sensitivity.${v}`);
    expect((await run("set", "Mill", ...rest, "--origin", "measured")).err).toBe("");
    const asked = await run("sheet", "sensitivity", "Mill", "--json");
    expect([asked.code, asked.err]).toEqual([0, ""]);
    const { inputs } = JSON.parse(asked.out);
    expect(inputs.ratioDb.value).toBeCloseTo(5.1, 0);
    expect(inputs.level.value).toBeCloseTo(3e-6, 12);
    expect((await run("show", "Mill")).out).toContain("(S+N)/N");
  });
});

describe("crackle", () => {
  it("counts and times what crackles, and compares it with the antenna off", async () => {
    const clicks = (name: string, count: number) => {
      const x = made(8000, 30, () => 0, 0.002, 8);
      for (let k = 0; k < count; k++) for (let i = 0; i < 4; i++) x[Math.round((2 + k * 1.3 + 0.4 * Math.sin(k * k)) * 8000) + i] += 0.8;
      return wav(name, x);
    };
    const [loud, quiet] = [clicks("crackles.wav", 20), clicks("antenna-off.wav", 0)];
    const { code, out } = await run("crackle", loud, "--without", quiet);
    expect(code).toBe(0);
    expect(out).toMatch(/as used +40 +0\.0 +20 +20 +20/);
    expect(out).toMatch(/without antenna +0\.0 +0\.0 +0 +0 +0/);
    expect(out).toContain("it comes from outside");
    expect(out).toMatch(/0:02\.0 +burst/);
    expect((await run("crackle", quiet)).out).toContain("Nothing crackles");
    const kept = await run("crackle", loud, "--without", quiet, "--job", "Mill");
    expect(kept.out).toMatch(/Kept in "Mill" as reading r-\w+/);
    expect((await run("show", "Mill")).out).toMatch(/bursts a minute, without antenna/);
  });
});

describe("hum", () => {
  const hummed = (a: number) => made(8000, 10, (t) => a * Math.sin(tau * 120.04 * t) + 0.05 * a * Math.sin(tau * 60.02 * t), 0.0005);
  it("tells the mains, the lines, and by two recordings where it gets in", async () => {
    const [loud, zero] = [wav("loud.wav", hummed(0.02)), wav("zero.wav", hummed(0.0002))];
    const { code, out } = await run("hum", loud, "--at-zero", zero);
    expect(code).toBe(0);
    expect(out).toContain("The mains is at 60.02");
    expect(out).toContain("Hum: -37.0 dB re full scale");
    expect(out).toContain("ahead of the volume control");
    expect(out).toContain("ripple of a full-wave supply");
  });
  it("against full output keeps how far the hum is under it, with the doubt of its lines", async () => {
    const full = wav(
      "full.wav",
      made(8000, 10, (t) => 0.5 * Math.sin(tau * 1000 * t), 0.0005),
    );
    const { out } = await run("hum", wav("under.wav", hummed(0.02)), "--full", full, "--job", "Mill");
    // 0.02 and 0.001 beside 0.5: 20 lg (0.5 / 0.020025)
    expect(out).toContain("27.9 dB under full output");
    const kept = /all hum, under full output\s+-27\.9 dB \((-\d+\.\d) to (-\d+\.\d)\)/.exec((await run("show", "Mill")).out);
    expect(Number(kept?.[2]) - Number(kept?.[1])).toBeGreaterThan(0.1);
  });
  it("tells the sidebands on a carrier's beat with the BFO", async () => {
    const beat = made(8000, 10, (t) => 0.2 * (1 + 0.05 * Math.sin(tau * 120 * t)) * Math.sin(tau * 1013 * t), 0.0003);
    const { out } = await run("hum", wav("normal.wav", hummed(0.02)), "--carrier", wav("on-carrier.wav", beat));
    expect(out.replace(/\s+/g, " ")).toMatch(
      /beat at 1013 Hz: 60 Hz to both sides under [\d.]+ %, 120 Hz to both sides modulates it 5\.0 % deep/,
    );
  });
  it("warns before the ripple is measured, with this set's volts where a job is named, and keeps the lines", async () => {
    const { out } = await run("hum", wav("hum.wav", hummed(0.02)), "--job", "Mill");
    expect(out).toMatch(/B\+ kills: up to \d+ V here[\s\S]*open, LIVE/);
    expect((await run("show", "Mill")).out).toContain("hum at 120 Hz");
  });
});
