/** IF stages from a simulation in another language, their charts taken with a meter of 1 kohm/V: what a lighter meter should read where no ohms are known. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { lawFrom, readStage } from "../../physics/tube-stage";
import { tubePointOf } from "../../standards/receiving-tubes";
import { stageFromChart } from "./from-chart";

interface World {
  readonly kind: string;
  readonly tube: string;
  readonly chart: Readonly<Record<"bplus" | "plate" | "screen" | "cathode", { readonly volts: number; readonly meterOhm: number }>>;
  readonly truth: { readonly chartUnloadedV: { readonly screen: number } };
}
const { stages } = JSON.parse(readFileSync("samples/worlds/stages.json", "utf8")) as { stages: World[] };

it("tells the screen without its meter to a third, on charts of IF stages whose ohms nobody wrote", () => {
  const own = stages.filter((s) => s.kind === "IF amplifier");
  expect(own.length).toBeGreaterThan(15);
  for (const { tube, chart, truth } of own) {
    const p = tubePointOf(tube.startsWith("remote") ? "6BA6" : "6AU6")!;
    const begin = {
      ...{ tube: lawFrom(p), supplyV: chart.bplus.volts, plateOhm: 2200, screenOhm: 33e3, cathodeOhm: p.cathodeOhm ?? 100 },
      ...{ gridOhm: 1e6, returnV: 0, screenLeak: 0, cathodeLeak: 0, couplingLeak: 0, beforeV: 0 },
    };
    const volts = { supply: chart.bplus.volts, plate: chart.plate.volts, screen: chart.screen.volts, cathode: chart.cathode.volts };
    const meterOf = (_: number, n: string) => 1 / chart[n === "plate" || n === "screen" || n === "cathode" ? n : "bplus"].meterOhm;
    const { stage } = stageFromChart(begin, { supplyV: true }, { volts, meterOf });
    const screen = readStage(stage, () => 1e-9, ["screen"])?.screen ?? Number.NaN;
    expect(Math.abs(Math.log(screen / truth.chartUnloadedV.screen))).toBeLessThan(Math.log(4 / 3));
  }
});
