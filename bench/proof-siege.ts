/**
 * What Fettle bears: processes killed, hostile requests, damaged files, bad words, what-ifs that no set is like. On this machine alone, with stores that are
 * thrown away after. `--rounds 0.03` tries that part of it; `--only what-ifs,readers` these parts; `--write` renews docs/reliability.md.
 */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { commands } from "./siege/commands";
import { kills, shopKills, upgrades } from "./siege/kills";
import { type Part, seed } from "./siege/kit";
import { readers } from "./siege/readers";
import { requests } from "./siege/requests";
import { full, power } from "./siege/shop/disk";
import { load } from "./siege/shop/load";
import { benches, clock, cuts, databaseKills } from "./siege/shop/writers";
import { signedIn } from "./siege/signed-in";
import { whatIfs } from "./siege/what-ifs";

const { values } = parseArgs({
  options: { rounds: { type: "string", default: "1" }, only: { type: "string" }, write: { type: "boolean" } },
});
const share = Number(values.rounds);
if (!(share > 0 && share <= 10)) throw new Error(`--rounds: read "${values.rounds}", expected a part of the whole, such as 0.03`);
const parts: Readonly<Record<string, Part>> = {
  kills,
  "shop-kills": shopKills,
  "database-kills": databaseKills,
  benches,
  power,
  full,
  cuts,
  clock,
  load,
  upgrades,
  requests,
  "signed-in": signedIn,
  readers,
  commands,
  "what-ifs": whatIfs,
};
const file = join("docs", "reliability.md");
/** The page's rows by part; a part that is not tried this time keeps its own. */
const rows = new Map<string, string>();
let broken = 0;
/** By what a row comes again, and of what code it is: when its last commit was made, which stays whatever it is laid upon later. */
const git = (...words: readonly string[]): string => execFileSync("git", words, { encoding: "utf8" }).trim();
const isChanged = git("status", "--porcelain", "--untracked-files=no", "--", ".", ":!docs") !== "";
const code = `${git("log", "-1", "--format=%ad", "--date=format:%Y-%m-%d %H:%M")}${isChanged ? " with changes" : ""}`;
const commandOf = (name: string): string => `\`--only ${name}${share === 1 ? "" : ` --rounds ${share}`}\`; code of ${code}`;
for (const [name, run] of Object.entries(parts)) {
  if (values.only !== undefined && !values.only.split(",").includes(name)) continue;
  const started = performance.now();
  const { attack, count, said, broke } = await run(share);
  rows.set(name, `| ${name} | ${attack} | ${count} | ${said} | ${broke.length === 0 ? "nothing" : broke.length} | ${commandOf(name)} |`);
  broken += broke.length;
  console.log(`${name}: ${count}, ${said} (${((performance.now() - started) / 1000).toFixed(0)} s)`);
  for (const b of broke) console.log(`  BROKE ${b}`);
}
if (values.write) {
  if (existsSync(file))
    for (const m of readFileSync(file, "utf8").matchAll(/^\| ([a-z-]+) +\| [^|]*\| +\d.*$/gm)) if (!rows.has(m[1])) rows.set(m[1], m[0]);
  const page = [
    "# What it bears",
    "",
    `Made by \`npm run proof:siege -- --write\`: attacks on stores that are thrown away after, on this machine's own address alone; chances are drawn with seed ${seed}, so the same ones come again. \`--only\` with the name of a part renews its row; \`--rounds 0.03\` tries that part of each, in about a minute.`,
    "",
    "| part | attack | count | what came of it | broke | command |",
    "| --- | --- | --- | --- | --- | --- |",
    ...Object.keys(parts).flatMap((name) => rows.get(name) ?? []),
    "",
    "Killed is a process ended by SIGKILL, as when the program alone dies. A power cut of the machine is borne as far as its disk keeps what it said it had synced, since every commit is synced. Acknowledged is what the program was told is recorded; a bench sends again, under the same ids, what nobody acknowledged. Times are this machine's, with whatever else it was doing. Whole are 240 kills with a store in a file, 200 with one in PostgreSQL, 50 of PostgreSQL itself, 1000 losses of power, 25 full disks, 300 cuts, 200 jumps of the clock, a million requests by people who are signed in; where the table has fewer, that many were tried. The command stands behind `npm run proof:siege --`; beside it stands when its code was committed. Refused is an answer in words that names the place. Broken is a defect, a trace, a number that is none, an answer that takes longer than its part allows, or an entry that can't be read back.",
    "",
    "Not tried here: another person of the same machine who may read this person's files, and known vulnerabilities of the packages that it is built from, for which a registry has to be asked (`npm audit`).",
    "",
  ].join("\n");
  writeFileSync(file, page);
}
if (broken > 0) process.exitCode = 1;
