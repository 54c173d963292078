/** The live way of a rehearsal against the one that renders it whole; switched and changed while it plays, without a click. */
import { describe, expect, it } from "vitest";
import { blockSamples, firstTapsOf, type LiveSide, LiveStrip } from "./live-strip";
import { baseband, rehearsalRateHz } from "./scene";
import { type Detector, type DrawnResponse, heard, strip } from "./through";

const resonance = (widthHz: number): DrawnResponse => {
  const frequencyHz = Array.from({ length: 801 }, (_, i) => 455e3 - 12e3 + 30 * i);
  return { frequencyHz, levelDb: frequencyHz.map((f) => -10 * Math.log10(1 + ((2 * (f - 455e3)) / widthHz) ** 2)) };
};
const [wide, narrow] = [4000, 600].map((w) => strip(resonance(w), 455e3));
const side = (bins: Float64Array, gain = 0.1): LiveSide => ({ taps: firstTapsOf(bins), gain });
const detector: Detector = { kind: "am", pitchHz: 700, avc: undefined, audio: { lowHz: 100, highHz: 5000 } };
const scene = { seconds: 4, neighbours: [], carriers: [], crashes: { perSecond: 0, levelDb: 0 }, fadingDb: 0, speed: 20 } as const;
const z = baseband({ ...scene, kind: "am", noiseDb: 60 });
/** A plain tone of 400 Hz on a carrier: whatever is no 400 Hz is a click. */
const tone = Float32Array.from({ length: 4 * rehearsalRateHz }, (_, i) =>
  i % 2 === 0 ? 1 + 0.3 * Math.cos((2 * Math.PI * 400 * (i / 2)) / rehearsalRateHz) : 0,
);
const rendered = (live: LiveStrip, count: number, at: (i: number) => void = () => undefined): Float32Array => {
  const out = new Float32Array(count);
  for (let i = 0; i < count; i += 128) {
    at(i);
    live.render(out.subarray(i, i + 128));
  }
  return out;
};
/** Largest step of the second difference: of a click far more than of its tone. */
const roughest = (x: Float32Array): number => {
  let most = 0;
  for (let i = 1; i + 1 < x.length; i++) most = Math.max(most, Math.abs(x[i - 1] - 2 * x[i] + x[i + 1]));
  return most;
};

describe("a band through two strips while it is listened to", () => {
  it.each([
    ["am", undefined],
    ["cw", { attackS: 0.05, decayS: 0.5 }],
  ] as const)("%s sounds as it does rendered whole", (kind, avc) => {
    const d = { ...detector, kind, avc };
    const live = rendered(new LiveStrip(Float32Array.from(z), d, [side(wide), side(narrow)]), 2 * rehearsalRateHz);
    const whole = heard(z, wide, d);
    // once AVC has settled from either beginning; a tap beyond 43 ms is left out live
    const from = Math.round(1.5 * rehearsalRateHz);
    let [off, all] = [0, 0];
    for (let i = from; i < live.length; i++) {
      off += (live[i] - 0.1 * whole[i]) ** 2;
      all += (0.1 * whole[i]) ** 2;
    }
    expect(10 * Math.log10(off / all)).toBeLessThan(-30);
  });
  it("is switched, and its strip changed under a knob, without a click, and then is what was asked for", () => {
    const still = rendered(new LiveStrip(tone, detector, [side(wide), side(wide)]), rehearsalRateHz);
    const settled = still.subarray(blockSamples * 4);
    const live = new LiveStrip(tone, detector, [side(wide), side(narrow, 0.2)]);
    const played = rendered(live, 2 * rehearsalRateHz, (i) => {
      if (i === 128 * 60) live.choose(1);
      if (i === 128 * 120) live.take([side(wide), side(wide, 0.2)]);
      if (i === 128 * 180) live.choose(0);
    }).subarray(blockSamples * 4);
    // twice as loud at most in between: rougher than twice the tone's own would be a click
    expect(roughest(played)).toBeLessThan(2.2 * roughest(settled));
    const end = played.subarray(played.length - 2400);
    const rms = (x: Float32Array) => Math.sqrt(x.reduce((s, v) => s + v * v, 0) / x.length);
    expect(rms(end) / rms(settled.subarray(settled.length - 2400))).toBeCloseTo(1, 2);
  });
});
