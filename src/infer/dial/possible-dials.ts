import { normalStream, uniformStream } from "../../numerics/random";
import { type Conversion, oscillatorHz, signalHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";

export interface DialCase {
  readonly id: string;
  readonly lowHz: number;
  readonly highHz: number;
  readonly spacingHz: number;
  /** scale readings run from 0 to this */
  readonly divisions: number;
  readonly conversion: Conversion;
  /** part of the scale that the band takes */
  readonly used?: readonly [number, number];
}
export interface InventedDial {
  /** frequency that the set is on when its scale says so, turned up or down to it */
  readonly truthHz: (reading: number, approach: -1 | 1) => number;
  readonly readingFor: (hz: number, approach: -1 | 1) => number;
  readonly points: readonly DialPoint[];
  readonly readingNoise: number;
  readonly backlash: number;
}

/**
 * A dial that nobody ever turned: a tuning capacitor between straight-line capacitance and straight-line frequency, its plates a little bent, its
 * scale read with noise and backlash. For the demo, for tests and studies, and marked so.
 *
 * @param c the band, its scale and its markers
 * @param seedIndex seed
 * @param how which sides markers are approached from
 * @returns truth and zero beats, readings rounded to 0.01 division
 * @source invented; its law shares nothing with the fit but that capacitance is smooth in the angle
 */
export function inventDial(c: DialCase, seedIndex: number, how: "up" | "both" = "up"): InventedDial {
  const u = uniformStream(seedIndex, `dial ${c.id}`, 24);
  const bow = 1 + 1.3 * u[0];
  const mix = 0.7 * u[1];
  const readingNoise = 0.1 * 2 ** (1.2 * (u[2] - 0.5));
  const backlash = 0.4 * u[3];
  const bends = Array.from({ length: 5 }, (_, k) => ({ size: (0.004 * (u[4 + k] - 0.5)) / (k + 1), phase: 2 * Math.PI * u[10 + k] }));
  // the rest of the field at the plates' edges keeps the law smooth where they have left each other
  const fringe = 0.15;
  const [atNone, atAll] = [fringe ** bow, (1 + fringe) ** bow];
  const taper = (x: number): number => (Math.max(0, x + fringe) ** bow - atNone) / (atAll - atNone);
  const shape = (t: number): number => {
    const x = 1 - t;
    const bent = bends.reduce((s, b, k) => s + b.size * (Math.sin((k + 1) * Math.PI * x + b.phase) - Math.sin(b.phase)), 0);
    return (1 - mix) * x + mix * taper(x) + bent;
  };
  const [from, to] = c.used ?? [0.03, 0.97];
  const lowY = oscillatorHz(c.lowHz, c.conversion) ** -2;
  const highY = oscillatorHz(c.highHz, c.conversion) ** -2;
  const [s0, s1] = [shape(from), shape(to)];
  const yAt = (t: number): number => lowY + ((highY - lowY) * (shape(t) - s0)) / (s1 - s0);
  const truthHz = (reading: number, approach: -1 | 1): number =>
    signalHz(yAt((reading - (approach * backlash) / 2) / c.divisions) ** -0.5, c.conversion);
  const readingFor = (hz: number, approach: -1 | 1): number => {
    let [a, b] = [-0.2 * c.divisions, 1.2 * c.divisions];
    for (let i = 0; i < 60; i++) {
      const m = (a + b) / 2;
      if (truthHz(m, approach) < hz) a = m;
      else b = m;
    }
    return (a + b) / 2;
  };
  const first = Math.ceil(c.lowHz / c.spacingHz - 1e-9);
  const count = Math.floor(c.highHz / c.spacingHz + 1e-9) - first + 1;
  const noise = normalStream(seedIndex, `dial noise ${c.id}`, count);
  const sides = uniformStream(seedIndex, `dial sides ${c.id}`, count);
  const points = Array.from({ length: count }, (_, i): DialPoint => {
    const frequencyHz = (first + i) * c.spacingHz;
    const approach = how === "both" && sides[i] < 0.5 ? -1 : 1;
    return { frequencyHz, approach, reading: Math.round((readingFor(frequencyHz, approach) + readingNoise * noise[i]) * 100) / 100 };
  });
  return { truthHz, readingFor, points, readingNoise, backlash };
}

const above: Conversion = { intermediateHz: 455e3, oscillator: "above" };
/** Four dials for studies: a main dial, and bandspread scales with many and with few markers. */
export const dialCases: readonly DialCase[] = [
  { id: "main 1.5-4.3 MHz, 100 kHz", lowHz: 1.5e6, highHz: 4.3e6, spacingHz: 100e3, divisions: 100, conversion: above },
  { id: "bandspread 28-30 MHz, 100 kHz", lowHz: 28e6, highHz: 30e6, spacingHz: 100e3, divisions: 100, conversion: above },
  { id: "bandspread 3.5-4 MHz, 50 kHz", lowHz: 3.5e6, highHz: 4e6, spacingHz: 50e3, divisions: 100, conversion: above },
  { id: "bandspread 3.5-4 MHz, 100 kHz", lowHz: 3.5e6, highHz: 4e6, spacingHz: 100e3, divisions: 100, conversion: above },
];
