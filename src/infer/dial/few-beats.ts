import { normalStream, uniformStream } from "../../numerics/random";
import { type Conversion, oscillatorHz, signalHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { inventDial } from "./possible-dials";

/** A dial for the study of few zero beats: what it is on at each reading, and a band that lies anywhere on its scale. */
export interface FewBeatsWorld {
  readonly kind: (typeof worldKinds)[number];
  readonly lowHz: number;
  readonly highHz: number;
  readonly truthHz: (reading: number) => number;
  readonly points: readonly DialPoint[];
}
/** Laws that share nothing with the fit but that they are smooth: the invented capacitor, straight frequency, capacitance, and logarithm, a wavy one. */
export const worldKinds = ["capacitor", "straight frequency", "straight capacitance", "logarithm", "wavy"] as const;
export const fewBeatsConversion: Conversion = { intermediateHz: 455e3, oscillator: "above" };
const bands = [
  [7e6, 7.3e6],
  [14e6, 14.35e6],
  [3.5e6, 4e6],
  [26.5e6, 29.8e6],
] as const;
const spacingHz = 100e3;
const noise = 0.1;

/** Reading to frequency by one of the laws, the band between two places of a scale of a hundred divisions. */
function lawOf(kind: FewBeatsWorld["kind"], low: number, high: number, u: Float64Array, seed: number): (reading: number) => number {
  const [from, to] = [30 * u[0], 100 - 30 * u[1]];
  const part = (r: number): number => (r - from) / (to - from);
  switch (kind) {
    case "capacitor": {
      const used = [from / 100, to / 100] as const;
      const c = { id: `few ${low}`, lowHz: low, highHz: high, spacingHz, divisions: 100, conversion: fewBeatsConversion, used };
      return (r) => inventDial(c, seed).truthHz(r, 1);
    }
    case "straight frequency":
      return (r) => low + (high - low) * part(r);
    case "straight capacitance": {
      const [a, b] = [low, high].map((hz) => oscillatorHz(hz, fewBeatsConversion) ** -2);
      return (r) => signalHz((a + (b - a) * part(r)) ** -0.5, fewBeatsConversion);
    }
    case "logarithm":
      return (r) => low * (high / low) ** part(r);
    case "wavy":
      return (r) => low + (high - low) * (part(r) + 0.04 * (u[2] - 0.5) * Math.sin(2 * Math.PI * (part(r) + u[3])));
  }
}

/**
 * A dial with so many zero beats: spread over the band, the first of it, or any, by the seed.
 *
 * @param seed seed; kind, band and choice of the markers go by it
 * @param beatsCount two or more
 * @returns truth and zero beats, read with noise; undefined where the band has too few markers
 * @source invented
 */
export function fewBeatsWorld(seed: number, beatsCount: number): FewBeatsWorld | undefined {
  const kind = worldKinds[seed % worldKinds.length];
  const [lowHz, highHz] = bands[Math.floor(seed / worldKinds.length) % bands.length];
  const u = uniformStream(seed, "few beats", 16);
  const truthHz = lawOf(kind, lowHz, highHz, u, seed);
  const readingOf = (hz: number): number => {
    let [a, b] = [-10, 110];
    for (let i = 0; i < 50; i++) {
      const m = (a + b) / 2;
      if (truthHz(m) < hz) a = m;
      else b = m;
    }
    return (a + b) / 2;
  };
  const first = Math.ceil(lowHz / spacingHz - 1e-9);
  const all = Array.from({ length: Math.floor(highHz / spacingHz + 1e-9) - first + 1 }, (_, i) => (first + i) * spacingHz);
  const how = Math.floor(3 * u[4]);
  const spread = Array.from({ length: beatsCount }, (_, i) => all[Math.round((i * (all.length - 1)) / (beatsCount - 1))]);
  const any = [...all].sort((a, b) => (((a / spacingHz) * u[5] * 97) % 1) - (((b / spacingHz) * u[5] * 97) % 1)).slice(0, beatsCount);
  const markers = [...new Set([spread, all.slice(0, beatsCount), any][how])].sort((a, b) => a - b);
  if (markers.length < beatsCount) return undefined;
  const z = normalStream(seed, "few beats read", beatsCount);
  const points = markers.map(
    (frequencyHz, i): DialPoint => ({ frequencyHz, approach: 1, reading: Math.round((readingOf(frequencyHz) + noise * z[i]) * 100) / 100 }),
  );
  return { kind, lowHz, highHz, truthHz, points };
}
export const fewBeatsAssumed = (w: FewBeatsWorld) => ({
  readingNoise: noise,
  zeroBeatHz: 20,
  backlash: 0.2,
  backlashU: 0.2,
  beforehand: { scale: [0, 100] as const, bandHz: [w.lowHz, w.highHz] as const },
});
