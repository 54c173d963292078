import { inventStage, makings, studiedStage, toldTolerances, visibleFaults } from "../src/set/invented-stage";
import { rankCauses } from "../src/set/rank-causes";
import type { Fault } from "../src/set/stage-faults";

interface Hits {
  readonly making: number;
  readonly fault: string;
  readonly first: boolean;
  readonly three: boolean;
  readonly tied: boolean;
  readonly unexplained: boolean;
}
/** How often the ranking is right on invented stages: the part of the study that falls to one core. */
export function studyStages(part: number, parts: number, each: number): Hits[] {
  const out: Hits[] = [];
  makings.forEach((making, m) => {
    visibleFaults.forEach((fault, k) => {
      for (let seed = part; seed < each; seed += parts) {
        const second = visibleFaults[(k + 1 + (seed % (visibleFaults.length - 1))) % visibleFaults.length];
        const own: readonly Fault[] = making.faultCount === 2 ? [fault, second] : [fault];
        const volts = inventStage(making, own, seed);
        const r =
          volts && rankCauses(studiedStage, { volts, meterOf: () => 1e-7, meterShare: 0.01, meterFloorV: 0.02, tests: {} }, toldTolerances);
        if (!r) continue;
        const ids = own.map((f) => f.id);
        out.push({
          making: m,
          fault: fault.id,
          first: ids.includes(r.causes[0].fault.id),
          three: r.causes.slice(0, 3).some((c) => ids.includes(c.fault.id)),
          tied: r.ties.some((c) => ids.includes(c.fault.id)),
          unexplained: r.worstMiss > 5,
        });
      }
    });
  });
  return out;
}
const percent = (hits: readonly Hits[], of: (h: Hits) => boolean): string =>
  `${((100 * hits.filter(of).length) / Math.max(1, hits.length)).toFixed(0)} %`;

/** The study as tables. */
export function stageTables(all: readonly Hits[], each: number): string[] {
  const rows = makings.map((m, i) => {
    const own = all.filter((h) => h.making === i);
    return `| ${m.id} | ${own.length} | ${percent(own, (h) => h.first)} | ${percent(own, (h) => h.three)} | ${percent(own, (h) => h.first || h.tied)} | ${percent(own, (h) => h.unexplained)} |`;
  });
  const byFault = visibleFaults.map((f) => {
    const of = (m: number) => all.filter((h) => h.making === m && h.fault === f.id);
    return `| ${f.says.split(":")[0]} | ${percent(of(0), (h) => h.first)} | ${percent(of(0), (h) => h.three)} | ${percent(of(1), (h) => h.first)} | ${percent(of(1), (h) => h.three)} |`;
  });
  return [
    "## What a stage's readings come of",
    "",
    `${each} invented IF stages a fault, five pins read with a meter of 10 megohm. The second and third rows are made by what the ranking does not assume: a tube that leaves cutoff gradually and by the power 1.35, its mu a tenth lower, resistors drifted up 8 % and then up to 20 % either way, tubes spread by 25 %. With two faults a hit is either of them.`,
    "",
    "| made by | stages | right first | among the first three | first or in the tie said | said that no single fault explains them |",
    "| --- | --- | --- | --- | --- | --- |",
    ...rows,
    "",
    "| fault | first, own law | first three | first, other law | first three |",
    "| --- | --- | --- | --- | --- |",
    ...byFault,
    "",
    "A leak that hides in the tolerance of the parts reads as no visible fault; those that read alike (a leaky coupling capacitor, a gassy tube, a positive AVC line) share the first place by how common they are, which is what the next measurement is for.",
    "",
  ];
}
