/** A wrong sample rate in a file's head is told by every command, and only there. Sounds by this test, and recordings by others of real receivers. */
import { describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { bytesOf, here } from "../shared-readings.testdata";
import { heardIn, made, tau, wav16 } from "./waves.testdata";

const warned = async (bytes: Uint8Array): Promise<boolean> => {
  const heard = await heardIn(bytes);
  return heard.ok && heard.value.warnings.some((w) => w.includes("wrong sample rate"));
};
/** Hum with its multiples, so strong, beside whatever else there is. */
const hum = (hz: number, t: number): number => [1, 2, 3, 4, 6].reduce((s, k) => s + (0.02 / k) * Math.sin(tau * hz * k * t + k), 0);

describe("hum in a file whose head has the wrong rate", () => {
  it.each([
    [50, 44_100, 48_000],
    [60, 44_100, 48_000],
    [50, 48_000, 44_100],
    [60, 48_000, 44_100],
  ])("of %i Hz, held at %i and said to be %i, is told", async (mains, is, said) => {
    for (const off of [-0.003, 0, 0.003]) {
      const x = made(is, 10, (t) => hum(mains * (1 + off), t), 0.001);
      expect(await warned(wav16(x, said)), `${off}`).toBe(true);
    }
  });
});
describe("a head that is right", () => {
  const rate = 8000;
  it("is not doubted in a hundred sounds: hum, notes with their harmonics, a voice that glides, noise that swells", async () => {
    const doubted: string[] = [];
    for (let seed = 1; seed <= 25; seed++) {
      const [a, b, c] = normalStream(seed, "sounds", 3);
      const pitch = (t: number): number => 125 + 20 * a + 15 * Math.sin(tau * (0.3 + 0.05 * b) * t);
      const turns = { voice: 0 };
      const sounds: Readonly<Record<string, (t: number) => number>> = {
        hum: (t) => hum((seed % 2 ? 50 : 60) * (1 + 0.001 * a), t),
        note: (t) => [1, 2, 3].reduce((s, k) => s + (0.1 / k ** 2) * Math.sin(tau * (600 + 150 * a) * k * t), 0),
        voice: (t) => {
          turns.voice += pitch(t) / rate;
          return (
            [1, 2, 3, 4, 5].reduce((s, k) => s + (0.1 / k) * Math.sin(tau * k * turns.voice), 0) * Math.max(0, Math.sin(tau * 1.3 * t))
          );
        },
        noise: (t) => 0.05 * c * Math.sin(tau * 37 * t),
      };
      for (const [name, of] of Object.entries(sounds))
        if (await warned(wav16(made(rate, 10, of, 0.01, seed), rate))) doubted.push(`${name} ${seed}`);
    }
    expect(doubted).toEqual([]);
  });
});
describe.runIf(here("receiver-audio/wwv1.wav", "mains-50Hz/003_ref.wav"))("recordings by others", () => {
  it.each([
    "receiver-audio/wwv1.wav",
    "receiver-audio/noise-mid.wav",
    "receiver-audio/krch-am.wav",
    "receiver-audio/flac1.wav",
    "mains-50Hz/003_ref.wav",
  ])("%s is not doubted", async (path) => expect(await warned(bytesOf(path))).toBe(false));
});
