/** Bad sound, over every tool that listens: each is told plainly, by all of them alike. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { chunk, formatChunk, made, pcm16, riff, tau, wav16 } from "../../readings/sound/waves.testdata";
import { commandLineIn } from "./command-line.testdata";

const { folder, run } = commandLineIn("bad-input");
const rate = 12_000;
const seconds = 12;
const file = (name: string, bytes: Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};
const tone = (a: number, hz = 1000) => made(rate, seconds, (t) => a * Math.sin(tau * hz * t), 0.002);
const stereo = (x: Float64Array, side: 0 | 1): Uint8Array => {
  const both = new Int16Array(2 * x.length);
  for (const [i, v] of x.entries()) both[2 * i + side] = Math.round(32767 * v);
  return riff([formatChunk({ ...pcm16, rate, channels: 2 }), chunk("data", new Uint8Array(both.buffer))]);
};
/** A head that promises four gigabytes. */
const promised = (x: Float64Array): Uint8Array => {
  const bytes = wav16(x, rate).slice();
  const view = new DataView(bytes.buffer);
  view.setUint32(4, 0xfffffff8, true);
  view.setUint32(40, 0xffffffd4, true);
  return bytes;
};
const tools = [["peak"], ["note"], ["hum"], ["noise"], ["crackle"], ["response", "--by", "envelope"]] as const;
/** What is bad, and what each tool says of it: refused, or warned and gone on with. */
const bad = [
  ["silence", wav16(new Float64Array(rate * seconds), rate), 2, /expected a sound: is the lead in the right socket/],
  [
    "clipping",
    wav16(
      tone(1.6).map((v) => Math.max(-1, Math.min(1, v))),
      rate,
    ),
    0,
    /clipped in \d+ places, first at 0:00/i,
  ],
  [
    "a head's rate of 20 Hz",
    riff([formatChunk({ ...pcm16, rate: 20 }), chunk("data", new Uint8Array(4000))]),
    2,
    /a sample rate from 250 Hz/,
  ],
  ["stereo with the signal on its right alone", stereo(tone(0.2), 1), 0, /the signal is on one side, right/i],
  ["a head of 4 GB", promised(tone(0.2)), 0, /does not say how long it is, or is cut short: read to its end/i],
  ["no sound at all", new TextEncoder().encode("frequency,dB\n1,2\n"), 2, /a sound file: WAV \(also RF64\) or FLAC/],
] as const;

describe.each(bad)("%s", (name, bytes, code, says) => {
  const path = file(`${name.replace(/\W/g, "-")}.wav`, bytes);
  it.each(tools)("is told by %s %s %s", async (command, ...how) => {
    const r = await run(command, path, ...how.filter((h) => h !== undefined));
    expect(r.code).toBe(code);
    expect(`${r.out}\n${r.err}`.replace(/\s+/g, " ")).toMatch(says);
  });
});
describe("two tones", () => {
  const path = file(
    "two.wav",
    wav16(
      made(rate, seconds, (t) => 0.2 * Math.sin(tau * 1000 * t) + 0.15 * Math.sin(tau * 1730 * t), 0.002),
      rate,
    ),
  );
  it.each([
    ["peak", [], /second steady tone beside it, at 1730 Hz: the first is followed/],
    ["note", [], /second tone beside it, at 1730\.0\d* Hz: the first is followed/],
    ["noise", [], /A second tone, at 1730 Hz, counts as noise and distortion/],
    ["response", ["--by", "envelope"], /Left out, being tones and not noise: \d+ Hz, 1730 Hz/],
  ] as const)("are told by %s", async (command, how, says) => {
    expect((await run(command, path, ...how)).out.replace(/\s+/g, " ")).toMatch(says);
  });
  it("are no hum, no burst and no jump", async () => {
    expect((await run("hum", path)).out).toContain("No hum rises above the noise");
    expect((await run("crackle", path)).out).toContain("Nothing crackles");
  });
  it("one tone is told as one", async () => {
    const one = file("one.wav", wav16(tone(0.2), rate));
    for (const command of ["peak", "note", "noise"]) expect((await run(command, one)).out).not.toContain("second");
  });
});
it("a wrong sample rate is told by the comb that it makes of the mains", async () => {
  const comb = made(rate, seconds, (t) => [1, 2, 3].reduce((s, k) => s + (0.02 / k) * Math.sin(tau * 55.125 * k * t), 0), 0.001);
  const path = file("comb.wav", wav16(comb, rate));
  for (const [command, ...how] of tools)
    expect((await run(command, path, ...how)).out.replace(/\s+/g, " "), command).toContain("may give the wrong sample rate");
});
