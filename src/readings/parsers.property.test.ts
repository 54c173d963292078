/** Every parser, under thousands of damaged inputs: a valid value or a located error, never anything else, never without end. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Read } from "../units/issue";
import { readTable } from "./delimited";
import { readSweep } from "./read-sweep";
import { readTouchstone, sweepOfNetwork } from "./touchstone";
import { type Recording, readWav } from "./wav";

const bytes = (s: string) => new TextEncoder().encode(s);
const texts = [
  "! c\n# MHz S MA R 50\n1 0.1 0 0.9 10 0.9 10 0.1 0\n2 0.1 0 0.9 10 0.9 10 0.1 0\n1 2.5 0.5 45 10\n",
  "[Version] 2.0\n# kHz S RI R 50\n[Number of Ports] 2\n[Two-Port Data Order] 12_21\n[Reference] 50 75\n[Matrix Format] Lower\n[Network Data]\n1 0 0 1 0 1 0\n2 0 0 1 0 1 0\n[End]\n",
  "kHz,dB\n450,-40\n451,-20\n452,-3\n453,0\n454,-3\n455,-20\n",
  "f kHz;dB\n450,5;-40,1\n451;-20\n452;-3\n453;0\n454;-3\n455;-20\n",
].map(bytes);
const wav = Uint8Array.from(
  "524946463400000057415645666d7420100000000100010080bb000000770100020010004c495354030000006162630064617461040000000080ff7f"
    .match(/../g)!
    .map((h) => Number.parseInt(h, 16)),
);

const damaged = (seeds: readonly Uint8Array[]) =>
  fc
    .tuple(
      fc.constantFrom(...seeds),
      fc.array(fc.record({ at: fc.nat(400), cut: fc.nat(6), put: fc.uint8Array({ maxLength: 5 }) }), { maxLength: 4 }),
      fc.nat(400),
    )
    .map(([seed, edits, keep]) => {
      let b = Array.from(seed);
      for (const e of edits) b.splice(Math.min(e.at, b.length), e.cut, ...e.put);
      if (keep < 40) b = b.slice(0, keep);
      return Uint8Array.from(b);
    });
const check = (r: Read<unknown>, valid: (v: never) => void) => {
  if (r.ok) return valid(r.value as never);
  expect(r.issues.length).toBeGreaterThan(0);
  for (const i of r.issues)
    expect(i).toMatchObject({ path: expect.stringMatching(/./), code: expect.stringMatching(/./), expected: expect.stringMatching(/./) });
};
const allFinite = (a: Float64Array) => expect(a.every(Number.isFinite)).toBe(true);

describe("damaged files", () => {
  it("Touchstone", () =>
    fc.assert(
      fc.property(damaged(texts.slice(0, 2)), fc.constantFrom("x.s1p", "x.s2p", "x.ts"), (b, name) =>
        check(readTouchstone(b, name), (n: Extract<ReturnType<typeof readTouchstone>, { ok: true }>["value"]) => {
          allFinite(n.frequencyHz);
          for (const r of [...n.re, ...n.im]) allFinite(r);
          check(sweepOfNetwork(n, name), () => undefined);
        }),
      ),
      { numRuns: 6000 },
    ));
  it("tables and sweeps", () =>
    fc.assert(
      fc.property(
        fc.oneof(damaged(texts), fc.uint8Array({ maxLength: 300 }), fc.string({ unit: "grapheme", maxLength: 200 }).map(bytes)),
        (b) => {
          check(readTable(b, "x.csv"), (t: { columns: { values: Float64Array }[] }) => {
            for (const c of t.columns) allFinite(c.values);
          });
          check(readSweep(b, "x.csv"), (s: { frequencyHz: Float64Array; levelDb: Float64Array }) => {
            allFinite(s.frequencyHz);
            allFinite(s.levelDb);
            for (let i = 1; i < s.frequencyHz.length; i++) expect(s.frequencyHz[i]).toBeGreaterThan(s.frequencyHz[i - 1]);
          });
        },
      ),
      { numRuns: 6000 },
    ));
  it("recordings", () =>
    fc.assert(
      fc.property(fc.oneof(damaged([wav]), fc.uint8Array({ maxLength: 200 })), (b) =>
        check(readWav(b, "x.wav"), (w: Recording) => {
          for (let c = 0; c < w.channelsCount; c++) allFinite(w.samples(c, 0, w.samplesCount));
        }),
      ),
      { numRuns: 6000 },
    ));
});
it("reads the test vector with an odd chunk", () => {
  // Source: derived from the RIFF specification: 16-bit mono, samples -32768 and 32767 at 48 kHz, an odd LIST chunk before the data.
  const r = readWav(wav, "v.wav");
  expect(r.ok && [r.value.sampleRateHz, ...r.value.samples(0, 0, 9)]).toEqual([48000, -1, 32767 / 32768]);
});
