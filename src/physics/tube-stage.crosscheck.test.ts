import { describe, expect, it } from "vitest";
import { lawFrom, nodes, readStage, type Stage, solveStage } from "./tube-stage";

/** A second implementation of the same circuit, in another language, gave these volts: plate, screen, cathode, grid; then on a meter of 20 kohm/V. */
const rows: readonly (readonly [string, object, readonly number[], readonly number[]])[] = [
  ["healthy", {}, [224.6234, 104.656, 1.083864, 0.0], [224.5246, 104.4159, 1.082549, 0.0]],
  ["Rk_x1.5..2", { cathodeOhm: 102.0 }, [225.9033, 111.9867, 1.543798, 0.0], [225.8039, 111.7037, 1.541129, 0.0]],
  ["Rk_x1.5..2", { cathodeOhm: 136.0 }, [227.056, 118.5888, 1.959933, 0.0], [226.9561, 118.2645, 1.955629, 0.0]],
  ["Rk_open", { cathodeOhm: 68000000000.0 }, [250.0, 250.0, 11.41303, 0.0], [249.89, 248.3608, 11.3788, 0.0]],
  ["Rg2_x1.5..2", { screenOhm: 49500.0 }, [230.8082, 85.12082, 0.819703, 0.0], [230.7067, 84.88913, 0.8186775, 0.0]],
  ["Rg2_x1.5..2", { screenOhm: 66000.0 }, [234.5201, 72.68136, 0.6611628, 0.0], [234.4169, 72.46028, 0.6603211, 0.0]],
  ["Rg2_open", { screenOhm: 33000000000000.0 }, [250.0, 4.069622, 1.323838e-5, -0.1946551], [249.89, 3.787879e-7, 1.32204e-5, -0.1636205]],
  ["Rd_x1.5..2", { plateOhm: 3300.0 }, [211.9364, 104.6543, 1.083841, 0.0], [211.7966, 104.4142, 1.082526, 0.0]],
  ["Rd_x1.5..2", { plateOhm: 4400.0 }, [199.2517, 104.6512, 1.083798, 0.0], [199.0766, 104.4112, 1.082482, 0.0]],
  ["Rd/IFT_pri_open", { plateOhm: 2200000000000.0 }, [0.409526, 51.25968, 0.4095255, 0.0], [5.681818e-6, 51.20643, 0.4089904, 0.0]],
  ["screen_bypass_leaky", { screenLeak: 2e-5 }, [230.9175, 84.76316, 0.8150327, 0.0], [230.8159, 84.59938, 0.8140796, 0.0]],
  ["screen_bypass_leaky", { screenLeak: 1e-5 }, [228.123, 93.76015, 0.9343893, 0.0], [228.0227, 93.56328, 0.9332789, 0.0]],
  ["screen_bypass_leaky", { screenLeak: 5e-6 }, [226.4752, 98.93769, 1.004773, 0.0], [226.3756, 98.7207, 1.003567, 0.0]],
  ["screen_bypass_leaky", { screenLeak: 2e-6 }, [225.3907, 102.2989, 1.051094, 0.0], [225.2915, 102.0684, 1.049824, 0.0]],
  ["screen_bypass_leaky", { screenLeak: 1e-6 }, [225.0116, 103.4653, 1.067282, 0.0], [224.9127, 103.2301, 1.06599, 0.0]],
  ["screen_bypass_short", { screenLeak: 0.2 }, [250.0, 0.03787305, 1.323655e-5, -0.1946551], [249.89, 0.03786926, 1.321857e-5, -0.1636205]],
  ["cathode_bypass_short", { cathodeLeak: 1.0 }, [222.1108, 90.2642, 0.0172637, -0.1777186], [222.0131, 90.1068, 0.01726336, -0.1487623]],
  ["weak_tube", { times: 0.35 }, [231.9575, 146.6637, 0.7706118, 0.0], [231.8555, 146.181, 0.7696506, 0.0]],
  ["weak_tube", { times: 0.5 }, [229.3056, 131.4744, 0.8838798, 0.0], [229.2047, 131.0914, 0.8827885, 0.0]],
  ["weak_tube", { times: 0.65 }, [227.4416, 120.7981, 0.963493, 0.0], [227.3416, 120.4768, 0.9623117, 0.0]],
  ["dead_tube", { times: 0.0001 }, [249.9866, 249.923, 0.0005872491, -0.1940914], [249.8766, 248.2851, 0.0005864516, -0.1631189]],
  ["grid_leak(coupling/gas)", { couplingLeak: 2e-7 }, [221.7182, 88.01516, 1.211184, 1.219491], [221.6207, 87.85976, 1.209548, 1.136694]],
  ["grid_leak(coupling/gas)", { couplingLeak: 5e-8 }, [222.0631, 89.99051, 1.193978, 1.073078], [221.9654, 89.83108, 1.192366, 0.5819477]],
  ["grid_leak(coupling/gas)", { couplingLeak: 1e-8 }, [222.2203, 90.89094, 1.186605, 1.006783], [222.1225, 90.72948, 1.185004, 0.1166111]],
];

const law = lawFrom({ plateV: 250, screenV: 100, gridV: -1.0336, plateA: 0.011, screenA: 0.0042, transconductance: 4400e-6 });
const healthy: Stage = {
  tube: law,
  supplyV: 250,
  plateOhm: 2200,
  screenOhm: 33e3,
  cathodeOhm: 68,
  gridOhm: 1e6,
  returnV: 0,
  screenLeak: 0,
  cathodeLeak: 0,
  couplingLeak: 0,
  beforeV: 245,
};
const ranges = [2.5, 10, 50, 250, 1000];
const meter = (volts: number): number => 1 / (20e3 * (ranges.find((r) => r >= Math.abs(volts)) ?? 1000));
const order = ["plate", "screen", "cathode", "grid"] as const;

it("law of a 6BA6 from its data-book point: K, mu, share", () => {
  expect(law.perveance).toBeCloseTo(0.002093132, 8);
  expect(law.mu).toBeCloseTo(20.90476, 4);
  expect(law.plateShare).toBeCloseTo(0.7236842, 6);
});
describe("volts of a pentode stage under each fault", () => {
  it.each(rows)("%s %j", (_, mod, ideal, at20k) => {
    const { times = 1, ...rest } = mod as { times?: number };
    const s = { ...healthy, ...rest, tube: { ...law, perveance: law.perveance * times } };
    const v = solveStage(s)!;
    for (const [i, n] of order.entries()) expect(Math.abs(v[n] - ideal[i]), n).toBeLessThan(Math.max(2e-3, 2e-4 * Math.abs(ideal[i])));
    const read = readStage(s, meter, nodes)!;
    for (const [i, n] of order.entries())
      expect(Math.abs(read[n]! - at20k[i]), `${n} on the meter`).toBeLessThan(Math.max(2e-3, 2e-4 * Math.abs(at20k[i])));
  });
});
