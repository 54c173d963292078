/** What was compiled when it was built is what the program starts from, on each of its threads; where it can't be taken, it is compiled anew and works as well. */
import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, expect, it } from "vitest";

const built = join(import.meta.dirname, "..", "..", "dist", "fettle.mjs");
const folder = mkdtempSync(join(tmpdir(), "load-"));
afterAll(() => rmSync(folder, { recursive: true }));
/** Asks under some switches of Node's; what it said, and how many threads had to have it compiled. */
async function asked(switches: readonly string[], words: readonly string[]) {
  const env = { ...process.env, FETTLE_STORE: join(folder, "jobs.db"), FETTLE_DATABASE_URL: "", FETTLE_TRACE: "1", NODE_OPTIONS: "" };
  const { stdout, stderr } = await promisify(execFile)(process.execPath, [...switches, built, ...words], { env });
  return { said: stdout, anew: stderr.split("compiled anew").length - 1 };
}
it("starts from it whether the launcher starts it or another", async () => {
  const { said, anew } = await asked([], ["works"]);
  expect(said).toMatch(/line cord/i);
  expect(anew).toBe(0);
  expect(await asked(["--max-semi-space-size=64"], ["works"])).toEqual({ said, anew: 0 });
});
it("compiles it anew under switches that are others, and says the same", async () => {
  const { said } = await asked([], ["works"]);
  expect(await asked(["--no-lazy"], ["works"])).toEqual({ said, anew: 1 });
});
it("starts the threads that work beside it from it too", async () => {
  await asked([], ["new", "Set", "--pattern", "nine-tube-bandspread"]);
  expect((await asked([], ["parts", "Set", "--csv", join(folder, "parts.csv")])).anew).toBe(0);
  expect((await asked(["--no-lazy"], ["parts", "Set", "--csv", join(folder, "again.csv")])).anew).toBeGreaterThan(1);
});
it("finds packages that are taken in only when they are needed, as the one that opens FLAC", async () => {
  const { said, anew } = await asked([], ["hum", join(import.meta.dirname, "../../samples/first-job/hum.flac")]);
  expect(said).toMatch(/16-bit FLAC/);
  expect(anew).toBe(0);
});
