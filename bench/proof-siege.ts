/**
 * What Fettle bears: processes killed, hostile requests, damaged files, bad words, what-ifs that no set is like. On this machine alone, with stores that are
 * thrown away after. `--rounds 0.03` tries that part of it; `--only what-ifs` one part; `--write` writes docs/reliability.md.
 */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { commands } from "./siege/commands";
import { kills, upgrades } from "./siege/kills";
import { type Part, seed, type Tally } from "./siege/kit";
import { readers } from "./siege/readers";
import { requests } from "./siege/requests";
import { whatIfs } from "./siege/what-ifs";

const { values } = parseArgs({
  options: { rounds: { type: "string", default: "1" }, only: { type: "string" }, write: { type: "boolean" } },
});
const share = Number(values.rounds);
if (!(share > 0 && share <= 10)) throw new Error(`--rounds: read "${values.rounds}", expected a part of the whole, such as 0.03`);
const parts: Readonly<Record<string, Part>> = { kills, upgrades, requests, readers, commands, "what-ifs": whatIfs };
const tallies: Tally[] = [];
for (const [name, run] of Object.entries(parts)) {
  if (values.only !== undefined && values.only !== name) continue;
  const started = performance.now();
  const tally = await run(share);
  tallies.push(tally);
  console.log(`${name}: ${tally.count}, ${tally.said} (${((performance.now() - started) / 1000).toFixed(0)} s)`);
  for (const b of tally.broke) console.log(`  BROKE ${b}`);
}
const broke = tallies.flatMap((t) => t.broke);
if (values.write) {
  const page = [
    "# What it bears",
    "",
    `Made by \`npm run proof:siege -- --write\`${share === 1 ? "" : ` --rounds ${share}`}: attacks on stores that are thrown away after, on this machine's own address alone; chances are drawn with seed ${seed}, so the same ones come again. A part of it: \`npm run proof:siege -- --rounds 0.03\`, about a minute.`,
    "",
    "| attack | count | what came of it | broke |",
    "| --- | --- | --- | --- |",
    ...tallies.map((t) => `| ${t.attack} | ${t.count} | ${t.said} | ${t.broke.length === 0 ? "nothing" : t.broke.length} |`),
    "",
    "Killed is a process ended by SIGKILL, as by a power cut of the program alone; a power cut of the machine is borne as far as its disk keeps what it said it had written, since every commit is synced. Refused is an answer in words that names the place; a defect, a trace, a figure that is none, an answer that takes longer than the part allows, or an entry that can't be read back counts as broken.",
    "",
    "Not tried here: another person on the same machine who may read this person's files, and known vulnerabilities of the packages it is built from, for which a registry has to be asked (`npm audit`).",
    "",
    ...broke.map((b) => `- ${b}`),
  ].join("\n");
  writeFileSync(join("docs", "reliability.md"), `${page.trimEnd()}\n`);
}
if (broke.length > 0) process.exitCode = 1;
