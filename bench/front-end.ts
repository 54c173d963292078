import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { chooseCrystals } from "../src/infer/crystal/choose";
import { fitDrift } from "../src/infer/drift/fit";
import { responsesOf } from "../src/physics/converter";
import { minimaxTracking } from "../src/physics/tracking";
import { orThrow } from "../src/units/issue";

const band = { lowHz: 540e3, highHz: 1650e3, intermediateHz: 455e3, oscillator: "above" } as const;
const [low, high] = [28e6, 28.5e6];
const crystals = Array.from({ length: 1000 }, (_, i) => 14e6 + (9.2e6 * i) / 999);
const timeS = Float64Array.from({ length: 91 }, (_, i) => i * 60);
const log = { timeS, hz: timeS.map((t) => 7e6 - 2100 + 1500 * Math.exp(-t / 360) + 3200 * Math.exp(-t / 2700) + 20 * Math.sin(t * 0.37)) };

/** Timings of the front end's heavy parts, each beside scientific Python where that is here. */
export function frontEndLines(best: (run: () => void, times?: number) => number, python: string | undefined): string[] {
  let worstHz = 0;
  const tracking = best(() => {
    worstHz = minimaxTracking(band)?.worstHz ?? 0;
  });
  let reached = 0;
  const listed = best(() => {
    reached = crystals.reduce(
      (s, crystalHz) => s + responsesOf({ crystalHz, side: "below", lowHz: low, highHz: high }, 15, low, high).length,
      0,
    );
  }, 5);
  let looked = 0;
  const search = best(() => {
    chooseCrystals(
      {
        lowHz: low,
        highHz: high,
        ranges: [{ lowHz: 4.8e6, highHz: 14.5e6 }],
        receiver: { ifHz: 455e3, oscillator: "above" },
        circuits: 2,
        qRatio: 60,
        order: 15,
        stock: [],
        gridHz: 18e3,
      },
      (_, of) => {
        looked = of;
      },
    );
  }, 5);
  const drift = best(() => void orThrow(fitDrift(log)), 5);
  const out = [
    `least worst tracking ${tracking.toFixed(2)} ms; responses to order 15 of 1000 crystals ${listed.toFixed(0)} ms`,
    `a whole search: ${looked} plans, responses, birdies, traps and ranking, ${search.toFixed(0)} ms; a warm-up of 91 readings, one and two time constants, ${drift.toFixed(0)} ms`,
  ];
  const r = python ? JSON.parse(spawnSync(python, [join("bench", "front_end.py")], { encoding: "utf8" }).stdout || "{}") : {};
  if (r.scipy === undefined) return [...out, "  skipped: Python with scipy is not here"];
  if (Math.abs(r.trackingValue / worstHz - 1) > 1e-4)
    throw new Error(`scipy disagrees with this project's tracking: ${r.trackingValue} and ${worstHz} Hz`);
  if (r.converterValue !== reached) throw new Error(`numpy disagrees with this project's responses: ${r.converterValue} and ${reached}`);
  const times = (theirs: number, mine: number): string =>
    `${theirs.toFixed(1)} ms, ${Number((theirs / mine).toPrecision(2))} times this project's`;
  return [
    ...out,
    `  scipy ${r.scipy}: tracking by its root finder ${times(r.tracking, tracking)}; responses in one numpy piece ${times(r.converter, listed)}`,
    `  the two time constants alone by its least squares, four starts, ${times(r.drift, drift)}`,
  ];
}
