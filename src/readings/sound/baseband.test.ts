/** A band as a person recorded it, I and Q or at an intermediate frequency, brought down to zero: what stands where, how strong, and what does not fold in. */
import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { type BandHow, bandOf } from "./baseband";
import type { Block, Sound } from "./sound";
import { tau } from "./waves.testdata";

const toHz = 24_000;
/** A sound of tones, each of a frequency and an amplitude; of two channels as I and Q. */
function soundOf(rate: number, seconds: number, tones: readonly (readonly [hz: number, a: number])[], channels: 1 | 2): Sound {
  async function* blocks(): AsyncGenerator<Block> {
    for (let from = 0; from < rate * seconds; from += 4096) {
      const length = Math.min(4096, rate * seconds - from);
      const of = (f: (x: number) => number) =>
        Float64Array.from({ length }, (_, i) => tones.reduce((s, [hz, a]) => s + a * f((tau * hz * (from + i)) / rate), 0));
      yield channels === 2 ? [of(Math.cos), of(Math.sin)] : [of(Math.cos)];
    }
  }
  return { sampleRateHz: rate, channelsCount: channels, heldAs: "", step: 0, samplesCount: rate * seconds, warnings: [], blocks };
}
const how: BandHow = { as: "iq", centreHz: 0, fromS: 0, secondsCount: 2 };
/** Amplitude of what turns at a frequency, its middle second. */
function at(z: Float64Array, hz: number): number {
  let [re, im] = [0, 0];
  for (let i = 0; i < toHz; i++) {
    const k = 2 * (i + toHz / 2);
    const [c, s] = [Math.cos((tau * hz * i) / toHz), -Math.sin((tau * hz * i) / toHz)];
    re += z[k] * c - z[k + 1] * s;
    im += z[k] * s + z[k + 1] * c;
  }
  return Math.hypot(re, im) / toHz;
}
const db = (v: number): number => 20 * Math.log10(v);

describe("a band as it was recorded", () => {
  it.each([48_000, 44_100, 96_000, 192_000, 250_000, 20_000])(
    "I and Q at %i Hz: each tone where it stood about the centre, as strong",
    async (rate) => {
      const sound = soundOf(
        rate,
        2,
        [
          [1000, 0.1],
          [1700, 0.05],
          [-3000, 0.02],
        ],
        2,
      );
      const z = orThrow(await bandOf(sound, "x", { ...how, centreHz: 1000 }, toHz));
      expect(z.length / 2 / toHz).toBeGreaterThan(1.97);
      const carrier = at(z, 0);
      expect(db(at(z, 700) / carrier)).toBeCloseTo(db(0.5), 2);
      expect(db(at(z, -4000) / carrier)).toBeCloseTo(db(0.2), 2);
      expect(db(at(z, 4000) / carrier)).toBeLessThan(-70);
    },
  );
  it("I and Q the other way round is the mirror of it", async () => {
    const sound = soundOf(
      48_000,
      2,
      [
        [0, 0.1],
        [2000, 0.05],
      ],
      2,
    );
    const z = orThrow(await bandOf(sound, "x", { ...how, as: "qi" }, toHz));
    expect(db(at(z, -2000) / at(z, 0))).toBeCloseTo(db(0.5), 2);
    expect(db(at(z, 2000) / at(z, 0))).toBeLessThan(-70);
  });
  it("at an intermediate frequency: one channel, its own mirror and what would fold in gone", async () => {
    // 30 kHz lies 18 kHz off: at 24 kHz out it would fold onto -6 kHz
    const sound = soundOf(
      96_000,
      2,
      [
        [12_000, 0.1],
        [13_500, 0.05],
        [30_000, 0.1],
      ],
      1,
    );
    const z = orThrow(await bandOf(sound, "x", { ...how, as: "if", centreHz: 12_000 }, toHz));
    expect(db(at(z, 1500) / at(z, 0))).toBeCloseTo(db(0.5), 2);
    expect(db(at(z, -6000) / at(z, 0))).toBeLessThan(-70);
    expect(db(at(z, -1500) / at(z, 0))).toBeLessThan(-70);
  });
  it("a stretch of it alone, from where it was asked for", async () => {
    const sound = soundOf(48_000, 6, [[0, 0.1]], 2);
    expect(orThrow(await bandOf(sound, "x", { ...how, fromS: 3, secondsCount: 2 }, toHz)).length / 2 / toHz).toBeCloseTo(2, 1);
  });
  it.each([
    [{ as: "iq" }, 1, "one-channel"],
    [{ as: "if", centreHz: 0 }, 1, "out-of-range"],
    [{ as: "iq", centreHz: 30_000 }, 2, "out-of-range"],
    [{ as: "iq", fromS: 5.5 }, 2, "too-short"],
  ] as const)("refuses %j of %i channels: %s", async (more, channels, code) => {
    const r = await bandOf(soundOf(48_000, 6, [[0, 0.1]], channels), "x", { ...how, ...more }, toHz);
    expect(r.ok || r.issues[0].code).toBe(code);
  });
  it("refuses a recording with nothing in it", async () => {
    const r = await bandOf(soundOf(48_000, 3, [[0, 1e-6]], 2), "x", how, toHz);
    expect(r.ok || r.issues[0].code).toBe("silence");
  });
});
