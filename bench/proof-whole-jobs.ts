/**
 * The rate at which whole jobs of many seeds hold the truth. Worlds from a folder (samples/worlds/make_whole_jobs.py --many N FOLDER); prints the table of
 * docs/whole-jobs.md, and keeps it there with --write.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { playForRate, type Rate } from "../src/desk/whole-jobs/rate.testdata";

const [folder, write] = process.argv.slice(2);
const files = readdirSync(folder).filter((f) => f.endsWith(".json"));
const all: { readonly id: string; readonly rate: Rate }[] = [];
for (const f of files) {
  const world = JSON.parse(readFileSync(join(folder, f), "utf8"));
  try {
    all.push({ id: world.id, rate: playForRate(world) });
  } catch (e) {
    console.error(f, e instanceof Error ? e.message : e);
  }
  if (all.length % 10 === 0) console.error(`${all.length} of ${files.length}`);
}

/** Wilson's score interval at 95 % of a share. Source: Wilson, Journal of the American Statistical Association 22 (1927), 209; NIST/SEMATECH e-Handbook 7.2.4.1 (from memory). */
function wilson(k: number, n: number): string {
  const z = 1.96;
  const [p, d] = [k / n, 1 + z ** 2 / n];
  const [middle, half] = [(p + z ** 2 / (2 * n)) / d, (z / d) * Math.sqrt((p * (1 - p)) / n + z ** 2 / (4 * n ** 2))];
  const shown = (x: number): string => (100 * x).toFixed(1);
  return `${shown(p)} % (${shown(middle - half)} to ${shown(middle + half)})`;
}
const inside = (h: { readonly low: number; readonly high: number; readonly truth: number }): boolean =>
  h.truth >= h.low && h.truth <= h.high;
const kindOf = (what: string): string => what.replace(/^\S+ /, "").replace(/ (?:found|left)$/, "");
const rows = (ids: readonly string[], of: (id: string) => readonly Rate["held"][number][]): string[] =>
  ids.map((id) => {
    const own = of(id);
    return `| ${id} | ${own.filter(inside).length} of ${own.length} | ${wilson(own.filter(inside).length, own.length)} |`;
  });
const every = all.flatMap(({ rate }) => rate.held);
const sum = (of: (r: Rate) => number): number => all.reduce((n, { rate }) => n + of(rate), 0);
const jobs = [...new Set(all.map((a) => a.id))];
const table = [
  `| ${all.length} jobs, values that hold the truth at 95 % | values | rate, with Wilson's interval |`,
  "| --- | --- | --- |",
  ...rows(jobs, (id) => all.filter((a) => a.id === id).flatMap((a) => a.rate.held)),
  ...rows([...new Set(every.map((h) => kindOf(h.what)))], (kind) => every.filter((h) => kindOf(h.what) === kind)),
  ...rows(["all"], () => every),
  `| faults shown by the readings | ${sum((r) => r.shown)} of ${sum((r) => r.faults)} | ${wilson(
    sum((r) => r.shown),
    sum((r) => r.faults),
  )} |`,
  `| faults proved mended and closed | ${sum((r) => r.closed)} of ${sum((r) => r.faults)} | ${wilson(
    sum((r) => r.closed),
    sum((r) => r.faults),
  )} |`,
].join("\n");
console.log(table);
for (const { id, rate } of all) for (const o of rate.open) console.error(id, o);
for (const h of every.filter((x) => !inside(x)).slice(0, 60)) console.error(h.what, h.low, h.high, h.truth);
if (write === "--write") {
  const page = join("docs", "whole-jobs.md");
  writeFileSync(page, readFileSync(page, "utf8").replace(/^\| \d+ jobs, values(?:.*\n)(?:\|.*\n)*/m, `${table}\n`));
}
