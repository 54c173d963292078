import { describe, expect, it } from "vitest";
import { fewBeatsAssumed, fewBeatsConversion, fewBeatsWorld } from "../../infer/dial/few-beats";
import { fitDial } from "../../infer/dial/fit";
import { dialAt, reach, wideningOf } from "../../infer/dial/fitted";
import { type Edging, edges } from "../band-edge/solve";

const worldsCount = 80;
const placesCount = 21;
/** How many places of the band, over many dials, lie within the 95 % interval; how wide it is, in parts of the band. */
const studied = new Map<number, ReturnType<typeof study>>();
const studyOf = (beatsCount: number) => {
  const had = studied.get(beatsCount) ?? study(beatsCount);
  studied.set(beatsCount, had);
  return had;
};
function study(beatsCount: number) {
  let [held, places, width, fits] = [0, 0, 0, 0];
  for (let seed = 0; seed < worldsCount; seed++) {
    const w = fewBeatsWorld(seed, beatsCount);
    if (!w) continue;
    const r = fitDial(w.points, fewBeatsConversion, fewBeatsAssumed(w));
    if (!r.ok) continue;
    fits++;
    const [from, to] = reach(r.value);
    for (let i = 0; i < placesCount; i++) {
      const x = from + ((to - from) * i) / (placesCount - 1);
      const a = dialAt(r.value, x);
      const half = 1.96 * wideningOf(r.value) * a.uHz;
      if (Math.abs(a.hz - w.truthHz(x)) <= half) held++;
      width += (2 * half) / (w.highHz - w.lowHz);
      places++;
    }
  }
  return { held: held / places, width: width / places, fits };
}
describe("a law of few zero beats", () => {
  it.each([2, 3, 4])(
    "holds with %i of them: the truth lies within its 95 per cent interval at 93 places of 100 and more, on dials of five laws",
    (n) => {
      const { held, fits } = studyOf(n);
      expect(fits).toBeGreaterThan(0.95 * worldsCount);
      expect(held).toBeGreaterThan(0.93);
    },
  );
  it("is no wider than it must be: narrower with each beat, and under a half of the band with two", () => {
    const widths = [2, 3, 4].map((n) => studyOf(n).width);
    expect(widths[0]).toBeLessThan(0.5);
    expect(widths[1]).toBeLessThan(0.75 * widths[0]);
    expect(widths[2]).toBeLessThan(0.85 * widths[1]);
  });
  it("leaves nobody out of the band more often than was asked: 1 % at each edge, settings of few beats", () => {
    const x: Edging = {
      ...{ mode: "CW", side: "same", confidence: 0.99, keyedWidth: 150 },
      ...{ audioHigh: 3000, markerDoubt: 3e-6, drift: 0, driftDoubt: 50 },
    };
    let [out, settings] = [0, 0];
    for (const n of [2, 3, 4])
      for (let seed = 0; seed < 25; seed++) {
        const w = fewBeatsWorld(seed, n);
        const r = w && fitDial(w.points, fewBeatsConversion, fewBeatsAssumed(w));
        if (!r?.ok) continue;
        // edges a tenth inside the band, on no marker
        const inside = 0.137 * (w!.highHz - w!.lowHz);
        const [low, high] = [w!.lowHz + inside, w!.highHz - inside];
        const { carrierLow, carrierHigh } = edges(r.value, low, high, x);
        for (const [reading, passed] of [
          [carrierLow, (hz: number) => hz < low],
          [carrierHigh, (hz: number) => hz > high],
        ] as const) {
          if (typeof reading !== "number") continue;
          settings++;
          if (passed(w!.truthHz(reading))) out++;
        }
      }
    expect(settings).toBeGreaterThan(120);
    expect(out / settings).toBeLessThanOrEqual(0.01);
  });
});
