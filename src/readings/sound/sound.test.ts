/** Sound files of every kind that is promised, read in pieces of any length; what is bad about one is told. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { orThrow, type Read } from "../../units/issue";
import { readWav } from "../wav";
import { clock } from "./health";
import { openSound } from "./open-sound";
import { allOf, chunk, formatChunk, heardIn, held, type MadeAs, made, pcm16, pieces, riff, tau, wav16 } from "./waves.testdata";

const some = Array.from({ length: 1200 }, (_, i) => 0.5 * Math.sin(i / 5));
const two = Array.from({ length: 600 }, (_, i) => [0.25 * Math.sin(i / 3), -0.5 * Math.cos(i / 7)]);
const codeOf = (r: Read<unknown>) => (r.ok ? "read" : r.issues[0].code);
const opened = async (bytes: Uint8Array, count = bytes.length) => openSound(pieces(bytes, 100), "x", count);
const near = (got: readonly number[], want: readonly number[], within: number) => {
  expect(got.length).toBe(want.length);
  expect(want.reduce((most, v, i) => Math.max(most, Math.abs(got[i] - v)), 0)).toBeLessThanOrEqual(within);
};

describe("WAV", () => {
  const kinds: readonly (readonly [number, number])[] = [
    [1, 8],
    [1, 16],
    [1, 24],
    [1, 32],
    [3, 32],
    [3, 64],
  ];
  it.each(kinds)("format %i of %i bits, mono and stereo, plain and extensible, in pieces of any length", async (code, bits) => {
    const step = code === 3 ? (bits === 32 ? 2 ** -24 : 0) : 2 ** -bits;
    for (const extensible of [false, true])
      for (const each of [7, 1000, 100_000]) {
        const mono: MadeAs = { ...pcm16, code, bits };
        near((await allOf(riff([formatChunk(mono, extensible), chunk("data", held(some, mono))]), each)).channels[0], some, step);
        const stereo = riff([formatChunk({ ...mono, channels: 2 }, extensible), chunk("data", held(two.flat(), mono))]);
        const { channels } = await allOf(stereo, each);
        near(
          channels[0],
          two.map((t) => t[0]),
          step,
        );
        near(
          channels[1],
          two.map((t) => t[1]),
          step,
        );
      }
  });
  it("chunks of odd length before the data, padded or not, and what follows it", async () => {
    const data = chunk("data", held(some, pcm16));
    for (const padded of [true, false]) {
      const odd = riff([formatChunk(pcm16), chunk("LIST", new Uint8Array(37), 37, padded), data, chunk("junk", new Uint8Array(9))]);
      expect((await allOf(odd)).channels[0].length).toBe(some.length);
    }
  });
  it("RF64 and BW64, whose length stands in a chunk of its own", async () => {
    const body = held(some, pcm16);
    const long = new Uint8Array(28);
    new DataView(long.buffer).setBigUint64(8, BigInt(body.length), true);
    for (const id of ["RF64", "BW64"]) {
      const s = await allOf(
        riff([chunk("ds64", long), formatChunk(pcm16), chunk("data", body, 0xffffffff), chunk("junk", new Uint8Array(8))], id),
      );
      expect([s.samplesCount, s.channels[0].length, s.warnings.length]).toEqual([some.length, some.length, 0]);
    }
  });
  it("a length that the recorder never wrote, one beyond the end, and one that ran over 4 GB mean up to the end", async () => {
    const body = held(some, pcm16);
    for (const size of [0, 0xffffffff, 2 * body.length]) {
      const s = await allOf(riff([formatChunk(pcm16), chunk("data", body, size)]));
      expect(s.channels[0].length).toBe(some.length);
      expect(s.warnings.join()).toContain("read to its end");
    }
    // a head that says 100 bytes, of a file of 4 GB and 100 bytes
    const ran = orThrow(await opened(riff([formatChunk(pcm16), chunk("data", body, 100)]), 44 + 2 ** 32 + 100));
    expect(ran.samplesCount).toBe((2 ** 32 + 100) / 2);
    expect(ran.warnings.join()).toContain("read to its end");
  });
  it("a file that ends within a sample gives the whole ones", async () => {
    const cut = riff([formatChunk({ ...pcm16, bits: 24 }), chunk("data", held(some, { code: 1, bits: 24 }))]).slice(0, -2);
    expect((await allOf(cut)).channels[0].length).toBe(some.length - 1);
  });
  it("what is piped in is read without its length", async () => {
    const s = await allOf(riff([formatChunk(pcm16), chunk("data", held(some, pcm16), 0xffffffff)]), 77, false);
    expect([s.samplesCount, s.channels[0].length]).toEqual([undefined, some.length]);
  });
  it("the recorder's time stamp is kept", async () => {
    const bext = new Uint8Array(602);
    bext.set(new TextEncoder().encode("2026-11-2019:04:11"), 320);
    const s = await allOf(riff([chunk("bext", bext), formatChunk(pcm16), chunk("data", held(some, pcm16))]));
    expect(s.begun).toBe("2026-11-20 19:04:11");
  });
  it("in memory whole gives the same samples", async () => {
    const file = riff([formatChunk({ ...pcm16, channels: 2, bits: 24 }), chunk("data", held(two.flat(), { code: 1, bits: 24 }))]);
    const whole = orThrow(readWav(file, "x"));
    const { channels } = await allOf(file);
    for (const c of [0, 1]) expect([...whole.samples(c, 0, 600)]).toEqual(channels[c]);
  });
  it("is refused where its head can't be", async () => {
    expect(codeOf(await opened(new Uint8Array(0)))).toBe("not-sound");
    expect(codeOf(await opened(new TextEncoder().encode("frequency,dB\n1,2\n3,4")))).toBe("not-sound");
    expect(codeOf(await opened(riff([formatChunk(pcm16)])))).toBe("no-data");
    expect(codeOf(await opened(riff([formatChunk({ ...pcm16, code: 85 }), chunk("data", new Uint8Array(9))])))).toBe("unknown-format");
    expect(codeOf(await opened(riff([formatChunk({ ...pcm16, rate: 0 }), chunk("data", new Uint8Array(9))])))).toBe("bad-rate");
    expect(codeOf(await opened(riff([chunk("data", new Uint8Array(9))])))).toBe("no-fmt");
    const nan = riff([formatChunk({ ...pcm16, code: 3, bits: 32 }), chunk("data", held([0.1, Number.NaN, 0.2], { code: 3, bits: 32 }))]);
    await expect(allOf(nan)).rejects.toThrow("sample 2");
  });
});

describe("FLAC", () => {
  // made by the format's reference encoder 1.4.2, 16 bits: it keeps every bit
  const file = new Uint8Array(readFileSync(new URL("../../../samples/sound/two-tones.flac", import.meta.url)));
  const want = [8000, 4000].map((a, c) =>
    Array.from({ length: 6000 }, (_, i) => Math.round(a * Math.sin((tau * [440, 1000][c] * i) / 8000)) / 32768),
  );
  it("is read bit by bit, in pieces of any length", async () => {
    for (const each of [97, 4096, 100_000]) {
      const s = await allOf(file, each);
      expect([s.sampleRateHz, s.samplesCount, s.heldAs]).toEqual([8000, 6000, "16-bit FLAC"]);
      for (const c of [0, 1]) near(s.channels[c], want[c], 0);
    }
  });
  it("cut short is read so far, and said", async () => {
    const s = await allOf(file.slice(0, -900));
    expect(s.channels[0].length).toBeLessThan(6000);
    expect(s.warnings.join()).toContain("cut short");
  });
  it("is refused where it does not describe itself", async () => {
    expect(codeOf(await opened(file.slice(0, 20)))).toBe("no-streaminfo");
  });
});

describe("what a recording is good for", () => {
  const tone = (a: number) => made(8000, 2, (t) => a * Math.sin(tau * 500 * t));
  it("silence is refused: nothing, and one step up and down", async () => {
    expect(codeOf(await heardIn(wav16(tone(0))))).toBe("silence");
    expect(codeOf(await heardIn(wav16(tone(0.00003))))).toBe("silence");
    expect(codeOf(await heardIn(wav16(tone(0.01))))).toBe("read");
  });
  it("clipping is counted and placed, and a sine that just reaches the top is none", async () => {
    const cut = made(8000, 2, (t) => Math.max(-1, Math.min(1, (t < 1 ? 0.5 : 1.5) * Math.sin(tau * 100 * t))));
    const h = orThrow(await heardIn(wav16(cut)));
    expect(h.clippedCount).toBe(200);
    expect(h.warnings.join()).toContain("first at 0:01.0");
    expect(orThrow(await heardIn(wav16(made(8000, 2, (t) => 0.99 * Math.sin(tau * 100 * t))))).clippedCount).toBe(0);
  });
  it("a signal on one side is found, and the other side is said where it was asked for", async () => {
    const x = tone(0.3);
    const stereo = new Float64Array(2 * x.length);
    for (const [i, v] of x.entries()) stereo[2 * i + 1] = v;
    const file = riff([
      formatChunk({ ...pcm16, channels: 2 }),
      chunk("data", new Uint8Array(Int16Array.from(stereo, (v) => Math.round(32767 * v)).buffer)),
    ]);
    const h = orThrow(await heardIn(file));
    expect(h.warnings.join()).toContain("on one side, right");
    expect(h.rmsDbfs).toBeCloseTo(20 * Math.log10(0.3 / Math.SQRT2), 2);
    expect(codeOf(await heardIn(file, 0))).toBe("silence");
    expect(codeOf(await heardIn(file, 2))).toBe("no-channel");
  });
  it("a low level and DC are said, a short one is refused", async () => {
    expect(orThrow(await heardIn(wav16(tone(0.0005)))).warnings.join()).toContain("very quiet");
    expect(orThrow(await heardIn(wav16(made(8000, 2, (t) => 0.2 + 0.1 * Math.sin(tau * 500 * t))))).warnings.join()).toContain("DC");
    expect(codeOf(await heardIn(wav16(made(8000, 0.1, () => 0.1))))).toBe("too-short");
  });
  it("times are told as a clock does", () => {
    expect([0, 7.26, 59.96, 61, 3723.4].map(clock)).toEqual(["0:00.0", "0:07.3", "1:00.0", "1:01.0", "1:02:03"]);
  });
});
