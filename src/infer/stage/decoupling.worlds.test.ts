import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { lawFrom, type Stage, solveStage } from "../../physics/tube-stage";
import { tubePointOf } from "../../standards/receiving-tubes";
import { faults } from "./faults";
import { rankCauses } from "./rank-causes";
import { testById } from "./tests";

/**
 * A decoupling capacitor that leaks behind its feed resistor: by Thevenin, and on readings that were made in another language by other tube laws
 * (samples/worlds/faults.json: fifteen such leaks, and fifteen feed resistors that drifted).
 */
interface World {
  readonly tube: string;
  readonly marked: Readonly<Record<string, number>>;
  readonly chart: readonly { readonly electrode: string; readonly chartV: number; readonly readV: number }[];
  readonly followUps: readonly { readonly test: string; readonly at: string; readonly reads: number | null }[];
  readonly truth: { readonly fault: string; readonly leakOhm?: number };
}
const { faults: worlds } = JSON.parse(readFileSync(new URL("../../../samples/worlds/faults.json", import.meta.url), "utf8")) as {
  readonly faults: readonly World[];
};
const types: Readonly<Record<string, string>> = {
  "high-mu triode": "12AX7",
  "high-mu triode of steep slope": "12AT7",
  "medium-mu triode": "12AU7",
  "sharp-cutoff RF pentode": "6AU6",
  "remote-cutoff RF pentode": "6BA6",
};
const base: Stage = {
  tube: lawFrom({ plateV: 250, gridV: -2, plateA: 1.2e-3, transconductance: 1.6e-3 }),
  supplyV: 250,
  plateOhm: 242e3,
  feedOhm: 22e3,
  ...{ screenOhm: 1, cathodeOhm: 2700, gridOhm: 1e6, returnV: 0, screenLeak: 0, cathodeLeak: 0, couplingLeak: 0, beforeV: 0 },
};
const leaky = faults.find((f) => f.id === "decoupling-leaky")!;

describe("a leak behind the feed resistor", () => {
  it("is Thevenin's: the same plate as a supply and a resistor put together by hand", () => {
    for (const leakOhm of [5e3, 22e3, 200e3]) {
      const part = leakOhm / (leakOhm + 22e3);
      const by = solveStage(leaky.apply(base, part))!;
      const { feedOhm: _, ...plain } = base;
      const hand = solveStage({ ...plain, supplyV: 250 * part, plateOhm: 220e3 + 1 / (1 / 22e3 + 1 / leakOhm) })!;
      expect(by.plate).toBeCloseTo(hand.plate, 6);
      expect(by.supply).toBe(250);
      expect(leaky.sizeSays(part, base)).toContain(`${leakOhm / 1e3} kΩ`);
    }
  });
  it("comes up to the sound plate when the capacitor is lifted, and to no other cause's", () => {
    const test = testById("decoupling-lifted")!;
    const sound = solveStage(base)!.plate;
    expect(test.predict(leaky.apply(base, 0.4), leaky, 0.4)).toBeCloseTo(sound, 9);
    const drifted = faults.find((f) => f.id === "plate-feed-drifted")!;
    expect(test.predict(drifted.apply(base, 2), drifted, 2)).toBeLessThan(0.8 * sound);
    expect(test.predict({ ...base, feedOhm: 0 }, leaky, 0.4)).toBeUndefined();
  });
});

/** Chances of a world's causes by its volts, the supply's before the feed, and the ohms of its plate. */
function chances(w: World): ReadonlyMap<string, number> | undefined {
  const p = tubePointOf(types[w.tube] ?? "");
  const at = (e: string) => w.chart.find((r) => r.electrode === e);
  const read = (test: string, where: string) => w.followUps.find((r) => r.test === test && r.at === where)?.reads ?? undefined;
  const line = read("supplyVolts", "B+ line");
  const [load, feed] = [read("plateLoad", "plateOhm"), read("feedResistor", "feedOhm")];
  if (!p || line === undefined || load === undefined || feed === undefined) return undefined;
  const pentode = (p.screenV ?? 0) > 0;
  const healthy: Stage = {
    ...base,
    tube: lawFrom(p),
    supplyV: line,
    plateOhm: w.marked.plateOhm + w.marked.feedOhm,
    feedOhm: w.marked.feedOhm,
    screenOhm: w.marked.screenOhm ?? 1,
    cathodeOhm: w.marked.cathodeOhm,
    gridOhm: w.marked.gridOhm,
    beforeV: line,
  };
  const volts = Object.fromEntries(["plate", "cathode"].flatMap((e) => (at(e) ? [[e, at(e)!.readV]] : [])));
  const ranking = rankCauses(
    healthy,
    {
      volts,
      meterOf: () => 1 / 11e6,
      meterShare: 0.03,
      meterFloorV: 0.05,
      tests: { "plate-ohm": load + feed },
    },
    { resistor: 0.2 / Math.sqrt(3), tube: 0.3, supply: 0.03 },
    pentode ? {} : { "screen-bypass-leaky": 0, "screen-resistor-drifted": 0, "screen-resistor-open": 0 },
  );
  return ranking && new Map(ranking.causes.map((c) => [c.fault.id, c.probability]));
}
it("of fifteen leaks and fifteen drifted feeds made by other laws, none that it tells apart is taken for the other", () => {
  const ranked = worlds
    .filter((w) => ["decouplingLeak", "feedResistor"].includes(w.truth.fault))
    .flatMap((w) => {
      const c = chances(w);
      return c
        ? [{ leak: w.truth.fault === "decouplingLeak", of: c.get("decoupling-leaky") ?? 0, other: c.get("plate-feed-drifted") ?? 0 }]
        : [];
    });
  expect(ranked.length).toBeGreaterThanOrEqual(10);
  expect(ranked.filter((r) => r.leak).length).toBeGreaterThanOrEqual(5);
  expect(ranked.filter((r) => (r.leak ? r.other : r.of) > 0.5)).toEqual([]);
  expect(ranked.filter((r) => r.leak && r.of > 0.5).length).toBeGreaterThanOrEqual(4);
});
