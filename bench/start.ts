/** The command line from its start to its end, by the clock, through the launcher and on a store of its own: what a person waits for. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoName } from "../src/desk/demo";

/** Seconds by the clock, and of the processor with all threads, of one command. */
function timed(store: string, words: readonly string[]): { readonly wallS: number; readonly cpuS: number } {
  const { status, stderr } = spawnSync("bash", ["-c", 'TIMEFORMAT="%R %U %S"; time "$0" "$@" >/dev/null 2>&1', "./fettle", ...words], {
    // certificates that a machine adds are read at each start of Node: not this program's time
    env: { ...process.env, NODE_EXTRA_CA_CERTS: undefined, FETTLE_STORE: store },
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`fettle ${words.join(" ")} ended with ${status}`);
  const [wallS, userS, systemS] = stderr.trim().split(" ").map(Number);
  return { wallS, cpuS: userS + systemS };
}

/** Lines: what one command takes, the best of some runs; the demo first, whose job the others are asked about. */
export function startLines(): string[] {
  const folder = mkdtempSync(join(tmpdir(), "bench-start-"));
  const store = join(folder, "jobs.db");
  const line = (says: string, times: number, words: (run: number) => readonly string[], digits: number): string => {
    const runs = Array.from({ length: times }, (_, i) => timed(store, words(i)));
    const least = (of: "wallS" | "cpuS"): string => Math.min(...runs.map((r) => r[of])).toFixed(digits);
    return `  ${says.padEnd(38)} ${least("wallS")} s; of the processor ${least("cpuS")} s`;
  };
  try {
    return [
      line("the demo, whole", 1, () => ["demo", "--folder", join(folder, "demo")], 1),
      line("its report to the owner", 2, (i) => ["report", demoName, "-o", join(folder, `report${i}.pdf`)], 1),
      line("its technical record", 2, (i) => ["technical-record", demoName, "-o", join(folder, `record${i}.pdf`)], 1),
      line("next", 9, () => ["next", demoName], 2),
      line("a small sheet (regulator)", 9, () => ["sheet", "regulator"], 2),
      line("a long sheet (q-multiplier)", 5, () => ["sheet", "q-multiplier"], 2),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
