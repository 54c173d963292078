/**
 * Timings, as ratios in one run: the general strip (three cans, tank through a cable, ladder filter) in this project's code, in numpy (in one
 * piece, in blocks, by batched solves) and in C, scalar and in wide vectors; growth with points, draws and stages; the fit of a strip; an answer.
 * Where Python with numpy or a C compiler is absent, that side is skipped by name.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { answer } from "../src/ask/answer";
import { fitDial } from "../src/infer/dial/fit";
import { dialAt } from "../src/infer/dial/fitted";
import { judgeDial } from "../src/infer/dial/judge";
import { dialCases, inventDial } from "../src/infer/dial/possible-dials";
import { faults } from "../src/infer/stage/faults";
import { rankCauses } from "../src/infer/stage/rank-causes";
import { fitStrip } from "../src/infer/strip/fit";
import { studiedStage, toldTolerances } from "../src/invented/stage";
import { inventSweep } from "../src/invented/strip";
import { StripResponse } from "../src/physics/if-strip";
import { oscillationPoint, PlateSeen, TankLoad } from "../src/physics/q-multiplier";
import { perveanceOf, solveSupply } from "../src/physics/supply";
import type { Supply } from "../src/physics/supply-numbers";
import { solveStage } from "../src/physics/tube-stage";
import { emptyBench } from "../src/set/bench";
import { ceramicStrip, mediumStrip } from "../src/set/patterns/strips";
import { type DescribedStrip, plainStrip, setStripLeaf, stripLeaves } from "../src/set/strip";
import { sheets } from "../src/sheets/index";
import { drawQuantity } from "../src/units/draws";
import { orThrow } from "../src/units/issue";
import { frontEndLines } from "./front-end";
import { pageLines } from "./page";
import { startLines } from "./start";

/** Time of the processor, ms, so that other work on the machine counts for little. */
const spent = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e3;
};
/** The shortest time of one run; short ones are timed some at once, as the clock itself takes its part of a millisecond. */
const best = (run: () => void, times = 15): number => {
  const before = spent();
  run();
  const atOnce = Math.max(1, Math.ceil(10 / Math.max(0.1, spent() - before)));
  let ms = Number.POSITIVE_INFINITY;
  for (let i = 0; i < times; i++) {
    const t = spent();
    for (let k = 0; k < atOnce; k++) run();
    ms = Math.min(ms, (spent() - t) / atOnce);
  }
  return ms;
};
const general: DescribedStrip = { ...mediumStrip(455e3), filter: ceramicStrip(455e3).filter };
const accessory = { tankCapacitance: 1.5e-9, tankQ: 130, couplingCapacitance: 1e-9, cableCapacitance: 87e-12, cableCoilQ: 70 };

/** Draws of the general strip, loaded into responses beforehand: what is timed is the response itself. */
function strips(draws: number, described: DescribedStrip, plain = false): StripResponse[] {
  const leaves = stripLeaves(described);
  const values = leaves.map((l) => drawQuantity(l.quantity, l.path, { seed: 1, draws }, l.positive));
  return Array.from({ length: draws }, (_, i) => {
    const strip = plainStrip(described);
    for (const [k, l] of leaves.entries()) setStripLeaf(strip, l.path, values[k][i]);
    return new StripResponse(strip, plain);
  });
}
const axis = (points: number): Float64Array => Float64Array.from({ length: points }, (_, i) => 445e3 + (20e3 * i) / (points - 1));
const tank = new TankLoad().load(accessory, 455e3, 455e3);
const sweep = (all: readonly StripResponse[], hz: Float64Array, out: Float64Array): void => {
  const load = tank.asSeries();
  for (const [k, s] of all.entries()) s.fill(hz, out.subarray(k * hz.length, (k + 1) * hz.length), load);
};

const draws = 1000;
const points = 401;
const all = strips(draws, general);
tank.regenerationS = 0.8 * oscillationPoint(tank, new PlateSeen().load(all[0], accessory.couplingCapacitance, 455e3)).criticalS;
const hz = axis(points);
const out = new Float64Array(draws * points);
const mine = best(() => sweep(all, hz, out), 60);
const oneByOne = strips(draws, general, true);
const plain = best(() => sweep(oneByOne, hz, new Float64Array(draws * points)));
const sum = out.reduce((s, v) => s + Math.log10(v), 0);

/** The same coefficients for the other sides, read out of the loaded objects. */
type Inside = { c: Float64Array; f: Float64Array };
type InsideTank = {
  c: number;
  cableF: number;
  inverseL: number;
  cableInverseL: number;
  g: number;
  cc: number;
  cableG: number;
  negativeS: number;
};
const t = tank as unknown as InsideTank;
const rows = all.flatMap((s) => {
  const { c, f } = s as unknown as Inside;
  return [...c, ...f.slice(0, 9), t.c + t.cableF, t.inverseL + t.cableInverseL, t.g, t.cc, t.cableG, t.negativeS];
});
const folder = mkdtempSync(join(tmpdir(), "bench-"));
const data = join(folder, "strip.bin");
writeFileSync(data, new Uint8Array(Float64Array.from([draws, points, ...rows, ...hz]).buffer));

const lines: string[] = [];
const say = (text: string): void => {
  lines.push(text);
  console.log(text);
};
say(`general strip, ${draws} draws at ${points} points; ${cpus()[0].model}, Node ${process.version}`);
say(`  this project            ${mine.toFixed(1)} ms, by WebAssembly two to a step; in plain arithmetic ${plain.toFixed(1)} ms`);
const python = ["python3", "/usr/bin/python3"].find((p) => spawnSync(p, ["-c", "import numpy"]).status === 0);
if (!python) say("  skipped: Python with numpy is not here");
else {
  const r = JSON.parse(
    spawnSync(python, [join("bench", "strip.py"), data], {
      encoding: "utf8",
      env: { ...process.env, OMP_NUM_THREADS: "1", OPENBLAS_NUM_THREADS: "1" },
    }).stdout,
  );
  if (Math.abs(r.sum / sum - 1) > 1e-9) throw new Error("numpy disagrees with this project");
  const of = (ms: number) => `${ms.toFixed(1)} ms, ${(ms / mine).toFixed(1)} times this project's`;
  say(`  numpy ${r.numpy}, one piece   ${of(r.whole)}`);
  say(`  numpy, blocks of ${r.block}      ${of(r.blocked)}`);
  say(`  numpy, batched solves   ${of(r.solves)}`);
}
say("");
const supply: Supply = {
  plateV: 325,
  lineHz: 60,
  fullWave: true,
  sourceOhm: 130,
  diode: { perveance: perveanceOf(50, 0.125), drop: 0 },
  first: { farad: 20e-6, ampere: 0, siemens: 0 },
  sections: [
    { ohm: 250, henry: 8, farad: 20e-6, ampere: 0.045, siemens: 0 },
    { ohm: 1500, henry: 0, farad: 10e-6, ampere: 0.035, siemens: 1 / 50e3 },
  ],
};
const steady = solveSupply(supply);
const cold = best(() => void solveSupply(supply));
const warm = best(() => void solveSupply({ ...supply, plateV: 330 }, { steps: 96, ...(steady ? { like: steady } : {}) }));
const readings = { supply: 250, plate: 236, screen: 65.2, cathode: 0.576, grid: 0 };
const evidence = { volts: readings, meterOf: () => 1e-7, meterShare: 0.01, meterFloorV: 0.02, tests: {} };
const ranking = best(() => void rankCauses(studiedStage, evidence, toldTolerances));
const hundred = best(() => {
  for (let i = 0; i < 100; i++) solveStage({ ...studiedStage, screenOhm: 33e3 * (1 + (3 * i) / 99) });
});
say(`a supply to its steady state ${cold.toFixed(2)} ms; from a like one, in a draw, ${warm.toFixed(2)} ms`);
say(
  `a stage's causes ranked, ${faults.length} faults with their sizes, ${ranking.toFixed(1)} ms; 100 stages solved ${hundred.toFixed(2)} ms`,
);
if (python) {
  const r = JSON.parse(spawnSync(python, [join("bench", "supply.py")], { encoding: "utf8" }).stdout || "{}");
  if (r.scipy === undefined) say("  skipped: Python with scipy is not here");
  else {
    if (Math.abs(r.volts / (steady?.volts[0] ?? 0) - 1) > 2e-3) throw new Error("scipy disagrees with this project's supply");
    say(
      `  scipy ${r.scipy}: supply to steady state by its stiff solver ${r.supply.toFixed(0)} ms, ${(r.supply / cold).toFixed(0)} times this project's`,
    );
    say(`  100 stages by its root finder ${r.stages.toFixed(1)} ms, ${(r.stages / hundred).toFixed(0)} times`);
  }
}
for (const l of frontEndLines(best, python)) say(l);
say("");
const exe = join(folder, "strip");
for (const [name, ...flags] of [
  ["scalar C, -O2", "-O2"],
  ["C in wide vectors, -O3 -march=native", "-O3", "-march=native"],
]) {
  if (spawnSync("gcc", [...flags, "-o", exe, join("bench", "strip.c"), "-lm"]).status !== 0) {
    say(`  skipped: ${name}: no C compiler`);
    continue;
  }
  const r = JSON.parse(spawnSync(exe, [data], { encoding: "utf8" }).stdout);
  if (Math.abs(r.sum / sum - 1) > 1e-9) throw new Error("C disagrees with this project");
  say(`  ${name}: ${r.ms.toFixed(1)} ms; this project takes ${(mine / r.ms).toFixed(2)} times that`);
}
say("growth, per point and draw:");
for (const n of [101, 401, 1601, 4001])
  say(
    `  ${String(n).padStart(5)} points, 200 draws   ${((best(() => sweep(all.slice(0, 200), axis(n), new Float64Array(200 * n)), 5) * 1e6) / (200 * n)).toFixed(1)} ns`,
  );
for (const n of [100, 300, 1000])
  say(
    `  ${String(n).padStart(5)} draws, 401 points   ${((best(() => sweep(all.slice(0, n), hz, out), 5) * 1e6) / (n * points)).toFixed(1)} ns`,
  );
for (const n of [1, 2, 3, 6]) {
  const cans = Array.from({ length: n }, (_, i) => general.cans[i % 3]);
  const some = strips(200, { ...general, cans, filter: null });
  say(`  ${String(n).padStart(5)} cans, no filter     ${((best(() => sweep(some, hz, out), 5) * 1e6) / (200 * points)).toFixed(1)} ns`);
}
const strip = mediumStrip(455e3);
const swept = inventSweep(strip, { centreHz: 455e3, halfSpanHz: 14_000, points: 401 }, { db: 0.1, peakDb: 0 }, 3);
say(`fit of a three-can strip to 401 points: ${best(() => orThrow(fitStrip(strip, { ...swept, noiseDb: 0.1 }, "e", []))).toFixed(0)} ms`);
const beats = inventDial({ ...dialCases[0], spacingHz: 80e3 }, 5);
const law = { readingNoise: 0.1, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 };
const bare = best(() => orThrow(fitDial(beats.points, dialCases[0].conversion, law)));
const whole = best(() => {
  const fit = orThrow(judgeDial(beats.points, dialCases[0].conversion, law, { spacingHz: 80e3 })).fit;
  for (let i = 0; i <= 100; i++) dialAt(fit, fit.low + ((fit.high - fit.low) * i) / 100);
});
say(
  `fit of a dial to ${beats.points.length} zero beats: ${bare.toFixed(1)} ms; with odd ones sought and its interval at 101 readings: ${whole.toFixed(1)} ms`,
);
const full: number[] = [];
say("answers, 2,000 draws at 401 points / 200 draws at 201; a log that was fitted once is not fitted again:");
for (const s of sheets) {
  const whole = best(() => orThrow(answer(s, emptyBench)), 10);
  const quick = best(() => orThrow(answer(s, emptyBench, { quick: true })), 60);
  full.push(whole);
  say(`  ${s.id.padEnd(20)} ${whole.toFixed(0)} ms / ${quick.toFixed(0)} ms`);
}
full.sort((a, b) => a - b);
say(`  median ${full[full.length >> 1].toFixed(0)} ms, longest ${full[full.length - 1].toFixed(0)} ms`);
const response = sheets.find((s) => s.id === "if-response");
if (response) say(`10,000 draws of if-response: ${best(() => orThrow(answer(response, emptyBench, { draws: 10_000 })), 2).toFixed(0)} ms`);
const load = `the machine's load was ${loadavg()[0].toFixed(0)} on ${cpus().length} processors`;
say(`from start to end, through the launcher, by the clock; ${load}:`);
for (const l of startLines()) say(l);
say(`the page, in headless Chromium, by the clock; ${load}:`);
for (const l of await pageLines()) say(l);
if (process.argv.includes("--write"))
  writeFileSync(
    join("docs", "bench.md"),
    `# Timings\n\nMade by \`npm run bench -- --write\`; ratios in one run are what counts. Times are the processor's, so that other work on the machine counts for little; those from start to end, and the page's, are by the clock. The ear has its own: \`npm run bench:ear\`.\n\n\`\`\`text\n${lines.join("\n")}\n\`\`\`\n`,
  );
