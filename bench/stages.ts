import type { Fault } from "../src/infer/stage/faults";
import { stageFromChart } from "../src/infer/stage/from-chart";
import { type Ranking, rankCauses } from "../src/infer/stage/rank-causes";
import { type Design, designs, inventStage, makings, toldTolerances, visibleFaults } from "../src/invented/stage";
import { worldTables } from "./world-stages";

interface Hits {
  readonly making: number;
  readonly design: number;
  /** none for a sound stage */
  readonly fault: string;
  readonly first: boolean;
  readonly three: boolean;
  readonly tied: boolean;
  readonly unexplained: boolean;
}
const soundEach = 120;
const fixed = { "avc-bypass-leaky": 0, oscillating: 0.1, "return-positive": 0.05 };
const chartMeterS = (volts: number): number => 1 / (20e3 * ([2.5, 10, 50, 250, 1000].find((r) => r >= Math.abs(volts)) ?? 1000));
/** The ranking as a person gets it: the stage by its chart, its ohms written on every other card, the grid's danger before the odds. */
function rankInvented(design: Design, making: (typeof makings)[number], own: readonly Fault[], seed: number): Ranking | undefined {
  const set = inventStage(design, making, own, seed);
  if (!set) return undefined;
  const known = seed % 2 === 1 ? { cathodeOhm: true, screenOhm: true, plateOhm: true } : {};
  const { stage, doubt } = stageFromChart(design.stage, known, { volts: set.chart, meterOf: chartMeterS });
  const meterOf = () => 1e-7;
  return rankCauses(
    stage,
    { volts: set.volts, meterOf, meterShare: 0.01, meterFloorV: 0.02, tests: {} },
    { ...toldTolerances, chart: doubt(meterOf) },
    { ...(design.gridReturn === "fixed" ? fixed : {}), ...((set.volts.grid ?? 0) > 0.3 ? { "none-visible": 0 } : {}) },
  );
}

/** How often the ranking is right on invented stages: the part of the study that falls to one core. */
export function studyStages(part: number, parts: number, each: number): Hits[] {
  const out: Hits[] = [];
  const add = (making: number, design: number, own: readonly Fault[], seed: number): void => {
    const r = rankInvented(designs[design], makings[making], own, seed);
    if (!r) return;
    const ids = own.length > 0 ? own.map((f) => f.id) : ["none-visible"];
    out.push({
      making,
      design,
      fault: own[0]?.id ?? "",
      first: ids.includes(r.causes[0].fault.id),
      three: r.causes.slice(0, 3).some((c) => ids.includes(c.fault.id)),
      tied: r.ties.some((c) => ids.includes(c.fault.id)),
      unexplained: !r.explained,
    });
  };
  makings.forEach((making, m) => {
    if (making.faultCount === 1)
      designs.forEach((_, d) => {
        for (let seed = part; seed < soundEach; seed += parts) add(m, d, [], seed);
      });
    visibleFaults.forEach((fault, k) => {
      for (let seed = part; seed < each; seed += parts) {
        const d = (seed >> 1) % designs.length;
        const its = visibleFaults.filter((f) => designs[d].stage.tube.kind === "pentode" || !f.id.startsWith("screen"));
        const second = its[(k + 1 + (seed % (its.length - 1))) % its.length];
        if (its.includes(fault)) add(m, d, making.faultCount === 2 && second !== fault ? [fault, second] : [fault], seed);
      }
    });
  });
  return out;
}
const percent = (hits: readonly Hits[], of: (h: Hits) => boolean): string =>
  `${((100 * hits.filter(of).length) / Math.max(1, hits.length)).toFixed(0)} %`;

/** The study as tables. */
export function stageTables(all: readonly Hits[], each: number): string[] {
  const faulty = all.filter((h) => h.fault !== "");
  const rows = makings.map((m, i) => {
    const own = faulty.filter((h) => h.making === i);
    return `| ${m.id} | ${own.length} | ${percent(own, (h) => h.first)} | ${percent(own, (h) => h.three)} | ${percent(own, (h) => h.first || h.tied)} | ${percent(own, (h) => h.unexplained)} |`;
  });
  const byFault = visibleFaults.map((f) => {
    const of = (m: number) => faulty.filter((h) => h.making === m && h.fault === f.id);
    return `| ${f.says.split(":")[0]} | ${percent(of(0), (h) => h.first)} | ${percent(of(0), (h) => h.three)} | ${percent(of(1), (h) => h.first)} | ${percent(of(1), (h) => h.three)} |`;
  });
  const sound = designs.map((d, k) => {
    const of = (m: number) => all.filter((h) => h.fault === "" && h.design === k && h.making === m);
    return `| ${d.id} | ${of(0).length} | ${percent(of(0), (h) => h.first && !h.unexplained)} | ${percent(of(1), (h) => h.first && !h.unexplained)} |`;
  });
  return [
    "## What a stage's readings come of",
    "",
    `${each} invented stages a fault, of four designs (IF pentode, RF pentode, audio triode, output tube), each of any size that the fault may have; five pins read with a meter of 10 megohm. Each has a chart, by a set with marked parts on a meter of 20 kohm/V; on every other card the resistors are written. The tubes obey another law than the ranking assumes: a power of 1.4 to 1.6, a late and an early cutoff in one tube, a plate that pulls, a screen that takes more as the plate falls, a grid current that grows exponentially. With two faults a hit is either of them.`,
    "",
    "| made by | stages | right first | among the first three | first or in the tie said | said that no single fault explains them |",
    "| --- | --- | --- | --- | --- | --- |",
    ...rows,
    "",
    "| fault | first, parts in tolerance | first three | first, parts drifted | first three |",
    "| --- | --- | --- | --- | --- |",
    ...byFault,
    "",
    "A fault that hides in the tolerance of the parts reads as no visible fault; those that read alike (a leaky coupling capacitor, a gassy tube, a positive AVC line) share the first place by how common they are, which is what the next measurement is for.",
    "",
    "Sound stages that are called so:",
    "",
    "| design | stages | parts in their tolerance | parts drifted up 5 %, tubes wider |",
    "| --- | --- | --- | --- |",
    ...sound,
    "",
    ...worldTables(),
  ];
}
