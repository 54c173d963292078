import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { dialCases, inventDial } from "../../infer/dial/possible-dials";
import type { JobDocument } from "../../job/document";
import { type JobView, viewOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import type { ReadingAsk } from "./asking";
import { readFileIn } from "./read-in";
import { zeroBeat } from "./zero-beat";

let count = 0;
const stamp = { newId: () => `e${++count}`, at: "2026-02-03T00:00:00Z", who: "t" };
const said = { band: "80", setPoint: "3.5 MHz dot", reading: "20", frequency: "3.6 MHz", approach: "up" as const };
const withBeats = (beats: readonly object[]): JobView => {
  const document: JobDocument = { format: "fettle-job", version: 5, id: "j", name: "j", created: stamp.at, set: patterns[1], entries: [] };
  let view = viewOf(document);
  for (const b of beats)
    view = viewOf({ ...document, entries: [...view.document.entries, orThrow(zeroBeat(view, { ...said, ...b }, stamp))] });
  return view;
};
const taken = (view: JobView, more: object) => {
  const entry = orThrow(zeroBeat(view, { ...said, ...more }, stamp));
  return entry.kind === "reading" ? entry.reading : undefined;
};

describe("a sweep of the strip with too few points", () => {
  it("is kept with its own values, and no strip is made of it", async () => {
    const csv = `frequency kHz,level dB\n${[450, 452, 454, 455, 456, 458, 460].map((f) => `${f},${-((f - 455) ** 2)}`).join("\n")}\n`;
    const file = { name: "few.csv", bytes: new TextEncoder().encode(csv) };
    const r = orThrow(await readFileIn(withBeats([]), file, { as: "if-sweep", state: "as-found" }, stamp));
    expect([r.fit, r.entries.length]).toEqual([undefined, 1]);
    expect(r.reading.warnings.join()).toMatch(/no strip was fitted: 7 points within 50 dB of the peak; wanted is at least 20/);
  });
});

describe("a zero beat as it is typed", () => {
  it("goes to the set-point that is meant, however it is spelt, and to a new one where it is new", () => {
    const view = withBeats([{}]);
    expect(taken(view, { setPoint: " 3.5 mhz DOT " })?.setPoint).toBe("3.5 MHz dot");
    expect(taken(view, { setPoint: "3.6 MHz dot" })?.setPoint).toBe("3.6 MHz dot");
  });
  it.each([
    [{ frequency: "7.1 MHz" }, "frequency", "outside-the-band"],
    [{ frequency: "0 Hz" }, "frequency", "not-positive"],
    [{ reading: "140" }, "reading", "off-the-scale"],
    [{ band: "160" }, "band", "no-band"],
  ])("refuses %j at its field", (more, path, code) => {
    const r = zeroBeat(withBeats([]), { ...said, ...more }, stamp);
    expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
  });
  it("knows a scale that is marked in frequency by its first beat", () => {
    expect(taken(withBeats([]), { reading: "3612", frequency: "3.6 MHz" })?.columns.reading).toEqual([3612]);
  });
  it("keeps beside the beat what is odd about it", () => {
    expect(taken(withBeats([{}]), { reading: "31" })?.warnings.join()).toContain("3.6 MHz was read at 20");
    const dial = inventDial({ ...dialCases[2], spacingHz: 100e3 }, 9);
    const all = dial.points.map((p) => ({ reading: String(p.reading), frequency: `${p.frequencyHz} Hz` }));
    const wrong = dial.readingFor(3.75e6, 1).toFixed(1);
    expect(taken(withBeats(all), { reading: wrong, frequency: "3.65 MHz" })?.warnings.join()).toContain("is expected near");
    expect(taken(withBeats(all), { reading: dial.readingFor(3.65e6, 1).toFixed(1), frequency: "3.65 MHz" })?.warnings).toEqual([]);
  });
});

describe("a file that is read in", () => {
  const empty = withBeats([]);
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  const read = (view: JobView, name: string, text: string, how: Partial<ReadingAsk>) =>
    readFileIn(view, { name, bytes: bytes(text) }, { as: "sweep", state: "as-found", ...how }, stamp);
  const bell = Array.from({ length: 41 }, (_, i) => `${435 + i},${(-20 * Math.log10(Math.hypot(1, (i - 20) / 3))).toFixed(2)}`).join("\n");
  const sweepText = `kHz,dB\n${bell}\n`;
  it("once more is told, with the reading that holds it and what that was kept as", async () => {
    const first = orThrow(await read(empty, "a.csv", sweepText, {}));
    expect(first.reading.warnings).toEqual([]);
    const with1 = viewOf({ ...empty.document, entries: [...first.entries] });
    const again = orThrow(await read(with1, "b.csv", sweepText, { state: "as-left" })).reading.warnings.join();
    expect(again).toContain(`as reading ${first.reading.id}, kept as found, and this as left`);
    expect(orThrow(await read(with1, "c.csv", sweepText.replace("435,", "435.5,"), {})).reading.warnings).toEqual([]);
  });
  const network = (points: number, q: number, ports: 1 | 2, leak = 0): string =>
    `# Hz S RI R 50\n${Array.from({ length: points }, (_, i) => {
      const f = 7e6 + ((i - (points - 1) / 2 + 0.3) * 400e3) / points;
      const x = q * (f / 7e6 - 7e6 / f);
      const [re, im] = [0.5 / (1 + x * x), (-0.5 * x) / (1 + x * x)].map((v, k) => (ports === 1 ? (k === 0 ? 0.98 : 0) - 2 * v : v));
      const noise = 1e-3 * Math.sin(i * i * 2.3);
      return ports === 1 ? `${f} ${re + noise} ${im}` : `${f} 0 0 ${re + noise} ${im + leak} ${re} ${im} 0 0`;
    }).join("\n")}\n`;
  it("as a resonance: one port by its circle, two by what goes through", async () => {
    const one = orThrow(await read(empty, "loop.s1p", network(101, 120, 1), { as: "resonance" })).reading;
    const told = (name: string) => one.figures.find((f) => f.name === name)?.quantity?.value ?? Number.NaN;
    expect(Math.abs(told("loaded Q, fitted") / 120 - 1)).toBeLessThan(0.01);
    // D is 1/0.98, but for what is lost: Q (1 + D / (2 - D)) is 245 where the line loses it
    expect(Math.abs(told("unloaded Q, fitted") / 245 - 1)).toBeLessThan(0.05);
    expect(one.figures.map((f) => f.name)).not.toContain("insertion loss");
    const two = orThrow(await read(empty, "coil.s2p", network(101, 120, 2), { as: "resonance" })).reading;
    expect(two.figures.map((f) => f.name)).toContain("insertion loss");
    expect(two.warnings).toEqual([]);
  });
  it("as a resonance with a leak past it: Q by width and by fit are both told where they differ", async () => {
    const r = orThrow(await read(empty, "coil.s2p", network(201, 120, 2, 0.15), { as: "resonance" })).reading;
    expect(r.warnings.join()).toMatch(/loaded Q is .* by the width and .* by the fit: trust the fit.*a leak past the resonance/);
    const coarse = await read(empty, "coil.s2p", network(31, 400, 2), { as: "resonance" });
    expect(coarse.ok || coarse.issues[0].code).toBe("too-coarse");
  });
  it("as an IF sweep that no strip can give is kept with its own figures, and no strip made of it", async () => {
    const hz = Array.from({ length: 81 }, (_, i) => 445e3 + 250 * i);
    const text = `Hz,dB\n${hz.map((f, i) => `${f},${(-20 * Math.log10(Math.hypot(1, ((f - 455e3) / 3500) ** 3)) - (Math.abs(f - 454e3) < 700 || Math.abs(f - 457e3) < 500 ? 4 : 0) + 0.02 * Math.sin(i * i)).toFixed(3)}`).join("\n")}\n`;
    const r = orThrow(await read(empty, "if.csv", text, { as: "if-sweep" }));
    expect(r.fit).toBeUndefined();
    expect(r.reading.warnings.join()).toContain("no strip was fitted");
    expect(r.entries).toHaveLength(1);
  });
  it("as a recording, packed or not: bytes, digest and kind as they came, the louder side listened to", async () => {
    const flac = new Uint8Array(readFileSync(new URL("../../../samples/sound/two-tones.flac", import.meta.url)));
    const how = { as: "recording", state: "as-found" } as const;
    const { reading, file } = orThrow(await readFileIn(empty, { name: "two-tones.flac", bytes: flac }, how, stamp));
    // left 8000 of 32768 at 440 Hz, right 4000 at 1 kHz (samples/NOTES.md)
    const told = (name: string) => reading.figures.find((f) => f.name === name)?.quantity?.value ?? Number.NaN;
    expect(Math.abs(told("strongest tone") - 440)).toBeLessThan(0.5);
    expect(told("peak, re full scale")).toBeCloseTo(20 * Math.log10(8000 / 32768), 1);
    expect(reading.columns).toEqual({ seconds: [0.75], sampleRateHz: [8000] });
    expect([file.media, file.bytes]).toEqual(["audio/flac", flac]);
    expect(reading.file.hash).toBe(createHash("sha256").update(flac).digest("hex").slice(0, 32));
    await expect(readFileIn(empty, { name: "x.flac", bytes: flac.slice(0, 20) }, how, stamp)).resolves.toMatchObject({
      issues: [{ code: "no-streaminfo" }],
    });
  });
});
