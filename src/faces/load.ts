/** Starts the program from its one piece, with what was compiled of it when it was built: compiled anew, that takes half of a short command's time. */
import { existsSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { createRequire, Module } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { setFlagsFromString } from "node:v8";
import { Script } from "node:vm";

/** The piece's file beside this one, named by what is in it: what was compiled of another is never taken for it. */
declare const piece: string;

// What is compiled is taken only under the switches it was compiled under. Answers are many short-lived numbers: room for them saves a tenth of the
// time (the launcher's own switch gives it to the first thread, this one to the others). A run of a few seconds is over before most of what is
// compiled early pays: three times as late, the demo takes a tenth less of the processor.
for (const flag of ["--max-semi-space-size=64", "--interrupt-budget=200000"]) setFlagsFromString(flag);
const here = dirname(fileURLToPath(import.meta.url));
const file = join(here, piece);
const compiled = `${file}.compiled`;
const script = new Script(Module.wrap(readFileSync(file, "utf8")), {
  filename: file,
  ...(existsSync(compiled) ? { cachedData: readFileSync(compiled) } : {}),
});
if (process.env.FETTLE_TRACE && script.cachedDataRejected !== false) process.stderr.write("compiled anew\n");
// the build keeps what a few commands have had compiled: whole or not at all, for another may be starting
if (process.env.FETTLE_KEEP_COMPILED)
  process.once("exit", () => {
    const beside = `${compiled}.${process.pid}`;
    writeFileSync(beside, script.createCachedData());
    renameSync(beside, compiled);
  });
const module = { exports: {} };
script.runInThisContext()(module.exports, createRequire(file), module, file, here);
