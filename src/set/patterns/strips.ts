import { exact, type Quantity, tolerance } from "../../units/quantity";
import { type DescribedCan, type DescribedStrip, nothingAdded } from "../strip";

const from = "pattern: invented, typical of the kind";
const part = (value: number, percent: number): Quantity => ({
  value,
  spread: tolerance((value * percent) / 100),
  origin: "assumed",
  source: from,
});
const off = (half: number): Quantity => ({ value: 0, spread: tolerance(half), origin: "assumed", source: from });
const none: Quantity = { value: 0, spread: exact, origin: "assumed", source: nothingAdded };

export interface CanSketch {
  readonly label: string;
  readonly c: readonly [number, number];
  readonly q: readonly [number, number];
  readonly k: number;
  readonly gm: number;
  readonly rp: number;
  readonly cout: number;
  readonly cin: number;
  readonly load: number;
}

/**
 * A can with the usual tolerances: mica 5 %, Q 15 %, coupling 12 %, tube 25 %, and windings set to within a few hundred hertz.
 *
 * @param s sketch of a can, SI
 * @returns leaves with their tolerances
 * @source common practice, no source
 */
export function can(s: CanSketch): DescribedCan {
  return {
    label: s.label,
    primaryCapacitance: part(s.c[0], 5),
    primaryQ: part(s.q[0], 15),
    primaryOffset: off(400),
    secondaryCapacitance: part(s.c[1], 5),
    secondaryQ: part(s.q[1], 15),
    secondaryOffset: off(400),
    coupling: part(s.k, 12),
    transconductance: part(s.gm, 25),
    plateResistance: part(s.rp, 30),
    outputCapacitance: part(s.cout, 15),
    inputCapacitance: part(s.cin, 15),
    loadResistance: part(s.load, 20),
    addedCapacitance: none,
  };
}

export const intermediate = (hz: number): Quantity => ({ value: hz, spread: tolerance(500), origin: "stated", source: "service sheet" });

/** Two cans between mixer, one IF tube and a diode: about 10 kHz wide. */
export const wideStrip = (ifHz: number): DescribedStrip => ({
  intermediateFrequency: intermediate(ifHz),
  cans: [
    can({ label: "T1", c: [108e-12, 110e-12], q: [72, 72], k: 0.0175, gm: 0.45e-3, rp: 500e3, cout: 9e-12, cin: 6e-12, load: 1e6 }),
    can({ label: "T2", c: [108e-12, 105e-12], q: [72, 72], k: 0.0185, gm: 2e-3, rp: 800e3, cout: 6e-12, cin: 8e-12, load: 150e3 }),
  ],
  filter: null,
});

/** Three cans round two IF tubes: about 6 kHz wide. */
export const mediumStrip = (ifHz: number): DescribedStrip => ({
  intermediateFrequency: intermediate(ifHz),
  cans: [
    can({ label: "T1", c: [112e-12, 114e-12], q: [108, 108], k: 0.0105, gm: 0.4e-3, rp: 600e3, cout: 8e-12, cin: 6e-12, load: 1e6 }),
    can({ label: "T2", c: [114e-12, 114e-12], q: [108, 108], k: 0.0105, gm: 1.6e-3, rp: 800e3, cout: 6e-12, cin: 6e-12, load: 1e6 }),
    can({ label: "T3", c: [114e-12, 110e-12], q: [95, 95], k: 0.0135, gm: 1.6e-3, rp: 800e3, cout: 6e-12, cin: 10e-12, load: 220e3 }),
  ],
  filter: null,
});

/** A ladder of ceramic resonators, about 4 kHz wide at 455 kHz; it scales with the IF. */
export const ladderFilter = (ifHz: number): NonNullable<DescribedStrip["filter"]> => ({
  centre: { value: ifHz, spread: tolerance(500), origin: "assumed", source: from },
  spread: part((3500 / 455e3) * ifHz, 3),
  seriesCapacitance: part((90e-12 * 455e3) / ifHz, 5),
  shuntCapacitance: part((198e-12 * 455e3) / ifHz, 5),
  resonatorQ: part(1500, 20),
  termination: part(2000, 10),
});

/** Two cans with a ladder of ceramic resonators between them: about 4 kHz wide. */
export const ceramicStrip = (ifHz: number): DescribedStrip => ({
  intermediateFrequency: intermediate(ifHz),
  cans: [
    can({ label: "T1", c: [112e-12, 114e-12], q: [70, 70], k: 0.018, gm: 0.45e-3, rp: 500e3, cout: 8e-12, cin: 6e-12, load: 1e6 }),
    can({ label: "T2", c: [114e-12, 110e-12], q: [70, 70], k: 0.018, gm: 2e-3, rp: 800e3, cout: 6e-12, cin: 10e-12, load: 150e3 }),
  ],
  filter: ladderFilter(ifHz),
});

/** Three cans of high Q at the second IF of a double-conversion set: about 3 kHz wide. */
export const sharpStrip = (ifHz: number): DescribedStrip => ({
  intermediateFrequency: intermediate(ifHz),
  cans: [
    can({ label: "T1", c: [180e-12, 182e-12], q: [190, 190], k: 0.0055, gm: 0.4e-3, rp: 700e3, cout: 8e-12, cin: 6e-12, load: 2.2e6 }),
    can({ label: "T2", c: [182e-12, 182e-12], q: [190, 190], k: 0.0055, gm: 1.4e-3, rp: 900e3, cout: 6e-12, cin: 6e-12, load: 2.2e6 }),
    can({ label: "T3", c: [182e-12, 178e-12], q: [170, 170], k: 0.007, gm: 1.4e-3, rp: 900e3, cout: 6e-12, cin: 10e-12, load: 470e3 }),
  ],
  filter: null,
});
