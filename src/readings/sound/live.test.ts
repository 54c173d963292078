/** A live input is heard by the same analysis as a file, whatever blocks it comes in. */
import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { InputWatch } from "./input-level";
import { Live, type LiveFor, takeListener } from "./live";
import { highestHz, Note } from "./note";
import { openSound } from "./open-sound";
import { PeakWatch } from "./peak";
import { allOf, made, pieces, play, tau } from "./waves.testdata";
import { writeWav } from "./write-wav";

const rate = 48_000;
const begun = "2026-11-20 19:04:11";
const note: LiveFor = { what: "note", everyS: 0.5, range: { fromHz: 20, toHz: highestHz } };
const live = (what: LiveFor, channel?: number) => new Live({ sampleRateHz: rate, for: what, clock: 0, begun, channel });
function feed(l: Live, channels: readonly Float64Array[], each = 256): Live {
  for (let at = 0; at < channels[0].length; at += each) l.push(channels.map((x) => x.subarray(at, at + each)));
  return l;
}
const sine = (hz: number, a = 0.1, seconds = 6) => made(rate, seconds, (t) => a * Math.sin(tau * hz * t), 0.0005);

describe("live", () => {
  it("tells the tone that a recording tells, and gives each reading out once", () => {
    const l = feed(live(note), [sine(1000.25)]);
    const file = play(new Note(rate, { everyS: 0.5, range: { fromHz: 20, toHz: highestHz } }), sine(1000.25)).told.tone!;
    const { tone } = l.told.note!;
    expect(tone!.meanHz).toBeCloseTo(file.meanHz, 4);
    expect(tone!.readings).toHaveLength(file.readings.length);
    const first = l.news();
    expect(first.note!.fresh).toEqual(tone!.readings);
    expect(first.note!.following).toBe(true);
    expect(l.news().note!.fresh).toEqual([]);
  });
  it("tells the level that a recording tells", () => {
    const x = made(rate, 5, (t) => 0.1 * (1 - 0.5 * Math.cos(tau * 0.3 * t)) * Math.sin(tau * 1000 * t), 0.001);
    const { top } = feed(live({ what: "peak", of: "tone" }), [x]).news().peak!;
    const file = play(new PeakWatch(rate, { of: "tone" }), x).now.top!;
    expect(top!.bestDb).toBeCloseTo(file.bestDb, 2);
    expect(top!.underDb).toBeCloseTo(file.underDb, 2);
  });
  it("corrects by the device's clock: one that runs 50 ppm fast makes a kilohertz read 50 mHz low", () => {
    const l = feed(new Live({ sampleRateHz: rate, for: note, clock: 50e-6, begun }), [sine(1000)]);
    expect(l.told.note!.tone!.meanHz).toBeCloseTo(1000.05, 3);
  });
  it("listens to the channel that the sound is on, once there is one; or to the one asked for", () => {
    const silent = new Float64Array(6 * rate);
    const late = sine(700).map((v, i) => (i < 2 * rate ? 0 : v));
    const l = live(note);
    feed(l, [silent.subarray(0, rate), silent.subarray(0, rate)]);
    expect(l.news()).toMatchObject({ side: "", seconds: 0, input: { is: "nothing" } });
    feed(l, [silent, late]);
    expect(l.news()).toMatchObject({ side: "right", input: { is: "good" } });
    expect(l.told.note!.tone!.meanHz).toBeCloseTo(700, 2);
    expect(l.told.health.warnings.join()).toContain("on one side, right");
    const asked = feed(live(note, 0), [silent, late]);
    expect(asked.news().side).toBe("left");
    expect(asked.told.note!.tone).toBeUndefined();
  });
  it("says whether the signal is on one side, on another than the one listened to, or on both", () => {
    const [x, half, none] = [sine(700), sine(700, 0.05), new Float64Array(6 * rate)];
    expect(feed(live(note), [x, none]).news()).toMatchObject({ side: "left", sides: "this one", channelsCount: 2 });
    expect(feed(live(note, 1), [x, none]).news()).toMatchObject({ side: "right", sides: "another" });
    expect(feed(live(note), [x, half]).news()).toMatchObject({ side: "left", sides: "several" });
    expect(feed(live(note), [x]).news()).toMatchObject({ side: "", channelsCount: 1 });
  });
  it("tells a second tone that stands beside the first, once, and no harmonic of it", () => {
    const both = made(rate, 8, (t) => 0.1 * Math.sin(tau * 1000 * t) + 0.05 * Math.sin(tau * 1437 * t), 0.0005);
    const { events } = feed(live(note), [both]).told.note!.tone!;
    expect(events.map((e) => [e.kind, Math.round(e.hz)])).toEqual([
      ["found", 1000],
      ["second", 1437],
    ]);
    const harmonics = made(rate, 8, (t) => 0.1 * Math.sin(tau * 1000 * t) + 0.05 * Math.sin(tau * 3000 * t), 0.0005);
    expect(feed(live(note), [harmonics]).told.note!.tone!.events.map((e) => e.kind)).toEqual(["found"]);
  });
  it.each([
    { what: "hum" },
    { what: "noise", band: { fromHz: 50, toHz: 5000 } },
    { what: "crackle" },
    { what: "response", resolutionHz: 12 },
  ] as const)("tells of $what what a recording tells", (what) => {
    const x = made(rate, 8, (t) => 0.02 * Math.sin(tau * 120.03 * t), 0.01);
    for (let i = 0; i < 20; i++) x[4 * rate + i] += 0.9;
    const { hum, noise, crackle, spectrum } = feed(live(what), [x]).told;
    const own = play(takeListener(what, rate), x).told;
    expect([hum, noise, crackle, spectrum].filter((t) => t !== undefined)).toHaveLength(1);
    // halved once before and once within, or all at once: alike to a thousandth of a decibel
    if (hum) expect(hum.lines[1].rmsDbfs).toBeCloseTo(own.hum!.lines[1].rmsDbfs, 2);
    if (noise) expect(noise.rmsDbfs).toBeCloseTo(own.noise!.rmsDbfs, 2);
    if (crackle) expect(crackle.events.map((e) => [e.kind, e.atS.toFixed(1)])).toEqual([["burst", "4.0"]]);
    if (spectrum) expect(10 * Math.log10(spectrum.power[85] / own.spectrum!.power[85])).toBeCloseTo(0, 1);
  });
  it("keeps the sound as a file that opens, with the time it began, and finds the same tone in it", async () => {
    const l = feed(live(note), [sine(1000.25)]);
    const { wav } = l;
    const sound = orThrow(await openSound(pieces(wav, 5000), "live.wav", wav.length));
    expect([sound.sampleRateHz, sound.begun, sound.warnings]).toEqual([12_000, begun, []]);
    const { channels } = await allOf(wav, 5000);
    expect(channels[0].length / 12_000).toBeCloseTo(6, 1);
    const again = play(new Note(12_000, { everyS: 0.5, range: { fromHz: 20, toHz: highestHz } }), Float64Array.from(channels[0])).told
      .tone!;
    expect(again.meanHz).toBeCloseTo(1000.25, 3);
    expect(again.meanPeakDbfs).toBeCloseTo(-20, 1);
    expect(l.news().keptS).toBeCloseTo(6, 1);
  });
  it("keeps no more sound than can be stored, and goes on listening", () => {
    const l = feed(new Live({ sampleRateHz: rate, for: note, clock: 0, begun, mostBytes: 48_000 }), [sine(1000)]);
    const { keptS, seconds, note: track } = l.news();
    expect(seconds).toBe(6);
    expect(keptS).toBeCloseTo(2, 2);
    expect(l.wav.length).toBeLessThan(49_000);
    expect(track!.fresh.at(-1)!.atS).toBeGreaterThan(5);
  });
});

describe("input", () => {
  const now = (x: Float64Array) => play(new InputWatch(rate), x).now;
  it.each([
    [0.3, "good"],
    [0.85, "near the top"],
    [0.002, "quiet"],
    [0.00001, "nothing"],
  ] as const)("at %f of full scale is %s", (a, is) => {
    expect(now(made(rate, 2, (t) => a * Math.sin(tau * 400 * t))).is).toBe(is);
  });
  it("of zeros is nothing", () => expect(now(new Float64Array(rate)).is).toBe("nothing"));
  it("that was cut off is told for three seconds, and counted for good", () => {
    const loud = made(rate, 1, (t) => Math.max(-1, Math.min(1, 1.3 * Math.sin(tau * 400 * t))));
    const w = play(new InputWatch(rate), loud);
    expect(w.now.is).toBe("cut");
    play(w, sine(400, 0.1, 2.9));
    expect(w.now.is).toBe("cut");
    play(w, sine(400, 0.1, 0.3));
    expect(w.now.is).toBe("good");
    expect(w.now.cutsCount).toBe(800);
    expect(w.now.nowDbfs).toBeCloseTo(-20, 0);
  });
});

it("a WAV that is written is read as it was", async () => {
  const parts = [Int16Array.of(0, 1, -1), Int16Array.of(32767, -32768)];
  const { channels, begun: time } = await allOf(writeWav(parts, 11_025, begun));
  expect(channels[0].map((v) => Math.round(v * 32768))).toEqual([0, 1, -1, 32767, -32768]);
  expect(time).toBe(begun);
});
