import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { commandLine } from "./main";

const folder = mkdtempSync(join(tmpdir(), "cli-evening-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const run = async (...argv: string[]): Promise<string> => {
  const said: string[] = [];
  const world = {
    out: (t: string) => void said.push(t),
    err: (t: string) => void said.push(t),
    progress: () => undefined,
    page: { columns: 400, bold: (s: string) => s },
    now: () => "2026-02-01T19:00:00.000Z",
    env: { FETTLE_STORE: join(folder, "jobs.db") },
  };
  const code = await commandLine(world).run(argv);
  expect(code, said.join("\n")).toBe(0);
  return said.join("\n");
};

/** A first evening, from a blank store: every value that a person types is one of these; job, command and path are picked from lists. */
const evening: readonly { readonly types: readonly string[]; readonly as: (...typed: readonly string[]) => readonly string[] }[] = [
  {
    types: ["6SG7", "6SA7", "6SK7", "6SK7", "6SQ7", "6V6", "5Y3", "455 kHz"],
    as: (...t) => ["describe", "Attic set", "--say", t.slice(0, 7).join(" "), "--say", `IF ${t[7]}`, "--yes"],
  },
  { types: ["seen"], as: (seen) => ["history", "Attic set", `rectifierChanged=${seen}`] },
  { types: ["silicon"], as: (it) => ["set", "Attic set", `supplies.rectifierType=${it}`, "--why", "looked under the socket"] },
  { types: ["121 V"], as: (v) => ["set", "Attic set", `line.today=${v}`, "--origin", "measured", "--why", "meter at the outlet"] },
];

it("a first evening: from blank to an answer about this set in at most twenty typed values", async () => {
  for (const { types, as } of evening) await run(...as(...types));
  const typed = evening.flatMap((e) => e.types).length;
  expect(typed).toBeLessThanOrEqual(20);
  const said = await run("sheet", "bring-up", "Attic set", "--draws", "400");
  expect(said).toMatch(/behind a \d+ W bulb: a sound set then shows \d+ V and \d+ mA/);
  expect(said).not.toMatch(/Not enough recorded|EXAMPLE/);
  // what was seen leads: silicon stands where the set was made for a tube, and the bulb comes first
  const stands = await run("Attic set");
  expect(stands).toContain("rectifier changed");
  expect(stands).toContain("counts as LIVE");
  // and it is this set's answer: with the tube back in its place B+ is another
  const high = await run("sheet", "b-plus", "Attic set", "--draws", "400");
  await run("set", "Attic set", "supplies.rectifierType=5Y3GT or 80", "--why", "tube back in");
  const low = await run("sheet", "b-plus", "Attic set", "--draws", "400");
  const volts = (t: string): number => Number(/B\+ should be (\d+) V/.exec(t)?.[1]);
  expect(volts(high) - volts(low)).toBeGreaterThan(30);
});
