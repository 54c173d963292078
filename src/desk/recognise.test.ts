import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatName, formatVersion } from "../job/format";
import { viewOf } from "../job/view";
import { demoCards, demoSet, demoSweepCsv, demoZeroBeatsCsv } from "./demo";
import { recognise } from "./recognise";

const at = "2026-02-01T00:00:00.000Z";
const chart = { id: "c", at, who: "t", kind: "form" as const, form: "voltage-chart", fields: { ...demoCards["voltage-chart"] } };
const view = viewOf({ format: formatName, version: formatVersion, id: "j", name: "j", created: at, set: demoSet(), entries: [chart] });
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const is = (b: Uint8Array, unit = "") => recognise(view, b, "name-says-nothing.bin", unit);
const sample = (...path: string[]): Uint8Array => readFileSync(join(import.meta.dirname, "..", "..", "samples", ...path));
// Source: RFC 9639, sections 6 and 8.2; the sample's own length is 6000 samples at 8 kHz (samples/NOTES.md)
it("tells a FLAC file by its mark and its description, whatever its name", () => {
  const found = is(sample("sound", "two-tones.flac"));
  expect(found).toEqual({ is: "reading", as: "recording", asks: [], says: "A FLAC recording of 750 ms" });
  expect(is(sample("sound", "two-tones.flac").subarray(0, 12)).says).toBe("A FLAC recording");
});
/** One second of 16-bit silence at 8 kHz. Source: layout of RIFF WAVE, Microsoft and IBM 1991. */
function wav(): Uint8Array {
  const b = Buffer.alloc(44 + 16_000);
  b.write("RIFF", 0);
  b.writeUInt32LE(b.length - 8, 4);
  b.write("WAVEfmt ", 8);
  b.writeUInt32LE(16, 16);
  b.writeUInt16LE(1, 20);
  b.writeUInt16LE(1, 22);
  b.writeUInt32LE(8000, 24);
  b.writeUInt32LE(16_000, 28);
  b.writeUInt16LE(2, 32);
  b.writeUInt16LE(16, 34);
  b.write("data", 36);
  b.writeUInt32LE(16_000, 40);
  return b;
}

describe("a file is told by its content", () => {
  it("a sweep around this set's IF is its strip's; one elsewhere is of something else", () => {
    expect(is(bytes(demoSweepCsv()))).toMatchObject({ is: "reading", as: "if-sweep", asks: ["which sweep"] });
    const elsewhere = ["MHz,dB", ...Array.from({ length: 50 }, (_, i) => `${(9.99 + i * 4e-4).toFixed(5)},${-Math.abs(i - 25)}`)].join(
      "\n",
    );
    expect(is(bytes(elsewhere))).toMatchObject({ is: "reading", as: "sweep", shown: { xLabel: "frequency, MHz", yLabel: "level, dB" } });
  });
  it("a sweep without a unit is asked its unit, and no more once it is said", () => {
    const bare = Array.from({ length: 60 }, (_, i) => `${440 + i},${-Math.abs(i - 25)}`).join("\n");
    expect(is(bytes(bare))).toMatchObject({ as: "if-sweep", asks: expect.arrayContaining(["unit"]) });
    expect(is(bytes(bare), "kHz")).toMatchObject({ as: "if-sweep", asks: ["which sweep"] });
  });
  it("zero beats, a log, a recording, a network file", () => {
    expect(is(bytes(demoZeroBeatsCsv()))).toMatchObject({ as: "dial", asks: ["band"], shown: { points: true } });
    const log = ["time min,frequency kHz", ...Array.from({ length: 30 }, (_, i) => `${i},${3500 + i / 100}`)].join("\n");
    expect(is(bytes(log))).toMatchObject({ as: "table", asks: [], shown: { xLabel: expect.stringContaining("time") } });
    expect(is(wav())).toMatchObject({ as: "recording", asks: [], says: "A recording of 1 s", shown: { xLabel: "seconds" } });
    expect(is(sample("readings", "touchstone-examples", "touchstone_ex_8.s1p"))).toMatchObject({ is: "reading" });
  });
  it("a chart headed as a card is goes to that card: the same point to its own row, a new one behind", () => {
    const csv = "Tube,Pin,Electrode,Measured V\nV4 first IF,6,screen,99\nV7 BFO,5,plate,120\n";
    const r = is(bytes(csv));
    expect(r).toMatchObject({ is: "chart", card: "voltage-chart" });
    expect(r.is === "chart" && r.fields).toMatchObject({
      "row 5: Measured V": "99",
      "row 13: Tube": "V7 BFO",
      "row 13: Measured V": "120",
    });
  });
  it("photographs and zips by their first bytes, whatever they are called; what nobody knows is kept nowhere", () => {
    expect(is(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0)).is).toBe("photograph");
    expect(is(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d)).is).toBe("photograph");
    expect(is(Uint8Array.of(0x50, 0x4b, 3, 4)).is).toBe("job");
    expect(is(Uint8Array.of(0, 1, 2, 3)).is).toBe("unknown");
    expect(is(new Uint8Array()).is).toBe("unknown");
  });
  it("never fails, whatever it is given, and draws only numbers of equal count", () => {
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 400 }), fc.string({ maxLength: 400 }).map(bytes)), (b) => {
        const { shown } = is(b);
        for (const t of shown?.traces ?? []) expect(t.x).toHaveLength(t.y.length);
      }),
      { numRuns: 2000 },
    );
  });
});
