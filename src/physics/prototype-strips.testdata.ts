/** Parts of the invented strips that a second implementation was given too, tuned by hand to round widths. */
import type { CanModel, FilterModel, StripModel } from "./if-strip-numbers";

const can = (c1: number, c2: number, q: number, k: number, gm: number, rp: number, rl: number, cout: number, cin: number): CanModel => ({
  primaryCapacitance: c1,
  primaryQ: q,
  primaryOffset: 0,
  secondaryCapacitance: c2,
  secondaryQ: q,
  secondaryOffset: 0,
  coupling: k,
  transconductance: gm,
  plateResistance: rp,
  outputCapacitance: cout,
  inputCapacitance: cin,
  loadResistance: rl,
  addedCapacitance: 0,
});
export const pair = (k: number): StripModel => ({
  intermediateFrequency: 455e3,
  cans: [can(120e-12, 120e-12, 100, k, 1, 1e15, 1e15, 0, 0)],
  filter: null,
});
const two = (q: number, k1: number, k2: number): readonly CanModel[] => [
  can(112e-12, 114e-12, q, k1, 0.45e-3, 500e3, 1e6, 8e-12, 6e-12),
  can(114e-12, 110e-12, q, k2, 2e-3, 800e3, 150e3, 6e-12, 10e-12),
];
export const ceramic: FilterModel = {
  centre: 455e3,
  spread: 3500,
  seriesCapacitance: 90e-12,
  shuntCapacitance: 198e-12,
  resonatorQ: 1500,
  termination: 2000,
};
export const wide: StripModel = { intermediateFrequency: 455e3, cans: two(75, 0.0165, 0.0175), filter: null };
export const narrow: StripModel = { intermediateFrequency: 455e3, cans: two(70, 0.018, 0.018), filter: ceramic };
