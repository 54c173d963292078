/** What settles a fault, and in how many minutes, by worth and in other orders: prints the table of docs/worth.md, and keeps it there with --write. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { kindsOf, study, tableOf } from "../src/infer/worth/world-study.testdata";

const done = study();
const table = tableOf(done);
console.log([`${done.all} faults, ${done.unseen} unseen, ${done.unasked} not asked`, table, ...kindsOf(done)].join("\n"));
if (process.argv[2] === "--write") {
  const page = join("docs", "worth.md");
  writeFileSync(page, readFileSync(page, "utf8").replace(/^\| \d+ faults(?:.*\n)(?:\|.*\n)*/m, `${table}\n`));
}
