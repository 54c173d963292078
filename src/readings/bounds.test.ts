/** What is refused before it is taken apart, and long recordings in little memory. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { orThrow, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { readTable } from "./delimited";
import { hearRecording } from "./recording";
import { bandLevelDbfs, strongestTone } from "./spectrum";
import { longestLine, mostLines, mostNumbers } from "./sweep";
import { sweepOfTable } from "./sweep-of-table";
import { readTouchstone } from "./touchstone";
import { readWav } from "./wav";
import { readZeroBeats } from "./zero-beats";

const bytes = (s: string) => new TextEncoder().encode(s);
const codeOf = (r: Read<unknown>) => (r.ok ? "read" : r.issues[0].code);
const runs = fc.constantFrom(" ", "\t", "+", "±", "[", "u", "_", "(", ",", '"', "1", "a ");

/** A WAVE file of one format and its data. */
function wave(format: { code: number; channels: number; rate: number; bits: number }, data: Uint8Array): Uint8Array {
  const out = new Uint8Array(44 + data.length);
  const view = new DataView(out.buffer);
  for (const [at, word] of [
    [0, "RIFF"],
    [8, "WAVE"],
    [12, "fmt "],
    [36, "data"],
  ] as const)
    out.set(bytes(word), at);
  view.setUint32(4, 36 + data.length, true);
  view.setUint32(16, 16, true);
  view.setUint16(20, format.code, true);
  view.setUint16(22, format.channels, true);
  view.setUint32(24, format.rate, true);
  view.setUint16(32, (format.channels * format.bits) / 8, true);
  view.setUint16(34, format.bits, true);
  view.setUint32(40, data.length, true);
  out.set(data, 44);
  return out;
}
const pcm = { code: 1, channels: 1, rate: 8000, bits: 16 };
const sound = (seconds: number, at: (s: number) => number) =>
  new Uint8Array(Int16Array.from({ length: seconds * pcm.rate }, (_, i) => Math.round(32767 * at(i / pcm.rate))).buffer);
const float32 = (...v: number[]) => new Uint8Array(Float32Array.from(v).buffer);
const float64 = (...v: number[]) => new Uint8Array(Float64Array.from(v).buffer);

describe("text of any length", () => {
  it("is refused as too long before any pattern meets it", () => {
    fc.assert(
      fc.property(runs, fc.integer({ min: 130, max: 200_000 }), fc.constantFrom("", "4", "110 pF"), (run, length, head) => {
        const text = `${head}x${run.repeat(length)}x`;
        expect(codeOf(parseQuantity(text, "capacitance"))).toBe("too-long");
      }),
      { numRuns: 60 },
    );
  });
  it("stands in a line of a file only so far", () => {
    fc.assert(
      fc.property(runs, fc.constantFrom("# MHz S MA R 50\n[", "1,2\n3,4\nkHz", "1 2\n3 4\n# "), (run, head) => {
        const file = bytes(`${head}${run.repeat(longestLine)}x\n1 2 3\n`);
        expect(codeOf(readTable(file, "x.csv"))).toBe("long-line");
        expect(codeOf(readTouchstone(file, "x.s1p"))).toBe("long-line");
      }),
      { numRuns: 20 },
    );
  });
  it("names no column when a heading's cell is longer than a name", () => {
    const t = orThrow(readTable(bytes(`${"kHz ".repeat(500)}${" ".repeat(3000)},dB\n1,2\n3,4\n`), "x.csv"));
    expect(t.columns.map((c) => [c.name, c.unit])).toEqual([
      ["", ""],
      ["", "dB"],
    ]);
  });
});

describe("a file of numbers", () => {
  it("is refused by its lines before they are split, by its numbers before they are kept", () => {
    expect(codeOf(readTable(bytes("1,2\n".repeat(mostLines + 1)), "x.csv"))).toBe("too-many-lines");
    const wide = `${Array.from({ length: 200 }, (_, i) => i).join(",")}\n`;
    expect(codeOf(readTable(bytes(wide.repeat(mostNumbers / 200 + 1)), "x.csv"))).toBe("too-many-numbers");
    expect(codeOf(readTable(bytes(`${Array.from({ length: 300 }, () => 1).join(",")}\n`.repeat(9)), "x.csv"))).toBe("too-many-columns");
    const points = `# Hz S RI R 50\n${"1 0 0\n".repeat(mostNumbers / 3 + 1)}`;
    expect(codeOf(readTouchstone(bytes(points), "x.s1p"))).toBe("too-many-numbers");
    expect(codeOf(readZeroBeats(bytes("reading,kHz\n1,2\n".repeat(30_000)), "x.csv"))).toBe("too-large");
  });
  it("holds finite figures, or is refused where one is not", () => {
    const huge = "GHz,dB\n1e305,1\n2e305,1\n3e305,1\n4e305,1\n5e305,1\n";
    expect(codeOf(sweepOfTable(orThrow(readTable(bytes(huge), "x.csv")), "x.csv"))).toBe("out-of-range");
    expect(codeOf(readTouchstone(bytes("# GHz S RI R 50\n1e305 0 0\n"), "x.s1p"))).toBe("out-of-range");
    expect(codeOf(readZeroBeats(bytes("reading,MHz\n1,1e305\n2,3\n"), "x.csv"))).toBe("out-of-range");
    for (const text of ["121 V u 1e308 kV", "1e308 kV", "121 V ±1e308 kV"])
      expect(codeOf(parseQuantity(text, "voltage"))).toBe("not-finite");
  });
});

describe("a recording", () => {
  it("is judged by its header: one sample, a rate of 1 Hz, levels that are none, too short to tell", () => {
    expect(codeOf(readWav(wave(pcm, new Uint8Array(2)), "x.wav"))).toBe("no-samples");
    expect(codeOf(readWav(wave({ ...pcm, rate: 1 }, new Uint8Array(200)), "x.wav"))).toBe("bad-rate");
    const floats = { ...pcm, code: 3, bits: 64 };
    for (const v of [1e200, Number.NaN, Number.NEGATIVE_INFINITY])
      expect(codeOf(readWav(wave(floats, float64(0, v)), "x.wav"))).toBe("not-a-level");
    expect(codeOf(readWav(wave({ ...floats, bits: 32 }, float32(0, 3e38)), "x.wav"))).toBe("not-a-level");
    expect(codeOf(hearRecording(orThrow(readWav(wave(pcm, new Uint8Array(40)), "x.wav")), "x.wav"))).toBe("too-short");
  });
  it("that is long is heard in stretches, with the same tone, hum and levels as a short one", () => {
    const tune = (s: number) => 0.5 * Math.sin(2 * Math.PI * 1001.3 * s) + 0.02 * Math.sin(2 * Math.PI * 100 * s);
    const [short, long] = [10, 100].map((s) => orThrow(hearRecording(orThrow(readWav(wave(pcm, sound(s, tune)), "x.wav")), "x.wav")));
    expect(long.warnings.join()).toContain("stretches");
    expect(short.warnings).toEqual([]);
    expect(long.spectrum.length).toBeLessThanOrEqual(2 ** 20);
    const [a, b] = [short, long].map((h) => strongestTone(h.spectrum, 1, 4000));
    expect(Math.abs(a.hz - b.hz)).toBeLessThan(0.01);
    expect(Math.abs(a.peakDbfs - b.peakDbfs)).toBeLessThan(0.01);
    expect(Math.abs(bandLevelDbfs(short.spectrum, 100, 2) - bandLevelDbfs(long.spectrum, 100, 2))).toBeLessThan(0.02);
    expect(Math.abs(short.rmsDbfs - long.rmsDbfs)).toBeLessThan(0.01);
    expect(short.peakDbfs).toBeCloseTo(long.peakDbfs, 2);
  });
  it("is decoded as it is asked for, never whole", () => {
    const w = orThrow(
      readWav(
        wave(
          { ...pcm, channels: 2 },
          sound(4, () => 0.25),
        ),
        "x.wav",
      ),
    );
    expect([w.channelsCount, w.samplesCount, w.samples(1, 10, 5).length, w.samples(0, w.samplesCount - 2, 50).length]).toEqual([
      2, 16000, 5, 2,
    ]);
    expect(w.samples(1, 0, 1)[0]).toBeCloseTo(0.25, 4);
  });
});
