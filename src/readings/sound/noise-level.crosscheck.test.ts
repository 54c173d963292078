/** Level in a band against numpy 2 / scipy 1.17: one periodogram over the whole file, its mean taken off, bins of the band summed; on noise of a receiver recorded by others. */
import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { bytesOf, here } from "../shared-readings.testdata";
import { readWav } from "../wav";
import { BandLevel } from "./noise-level";
import { play } from "./waves.testdata";

const file = "receiver-audio/noise-mid.wav";
describe.runIf(here(file))("noise of a receiver", () => {
  it.each([
    [50, 5000, -36.425],
    [300, 3000, -37.399],
  ])("from %i to %i Hz is %f dB re full scale", (fromHz, toHz, want) => {
    const w = orThrow(readWav(bytesOf(file), file));
    const { rmsDbfs, uDb, tone } = play(new BandLevel(w.sampleRateHz, { fromHz, toHz }), w.samples(0, 0, w.samplesCount)).told;
    // two seconds: what the frames weigh otherwise at its ends
    expect(Math.abs(rmsDbfs - want)).toBeLessThan(Math.min(0.1, 2 * uDb));
    expect(tone).toBeUndefined();
  });
});
