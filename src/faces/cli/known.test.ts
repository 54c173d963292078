/** What the records know, at a terminal, over a store. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { commandLine } from "./main";

const folder = mkdtempSync(join(tmpdir(), "known-line-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
async function fettle(...argv: readonly string[]) {
  const out: string[] = [];
  const code = await commandLine({
    out: (t) => void out.push(t),
    err: (t) => void out.push(t),
    progress: () => undefined,
    page: { columns: 100, bold: (s: string) => s },
    now: () => "2026-02-01T08:00:00.000Z",
    env: { FETTLE_STORE: join(folder, "jobs.db") },
  }).run(argv);
  return { code, out: out.join("\n") };
}

it("counts what is recorded in jobs, leaves out what is undone, and says where there is too little to call anything typical", async () => {
  expect((await fettle("known")).out).toBe("No set of that kind is in the records.");
  for (const [name, gm] of [
    ["Mill", "45"],
    ["Pier", "92"],
    ["Lock", "51"],
  ]) {
    await fettle("new", name, "--pattern", "nine-tube-bandspread");
    await fettle("fill", name, "intake", "What it is said to be=Invented Nine");
    expect(await fettle("fill", name, "tubes", "row 1: Type found=6BA6", `row 1: gm %=${gm}`)).toMatchObject({ code: 0 });
  }
  const { out, code } = await fettle("known", "--set", "nine", "--part", "6ba6");
  expect(code).toBe(0);
  expect(out).toContain("3 sets in the records.\n\nTubes\n  6BA6: worn or failed in 2 of 3 sets.\n");
  expect(out).not.toMatch(/ %/);
  expect((await fettle("undo", "Lock")).code).toBe(0);
  expect((await fettle("known", "--set", "nine")).out).toContain("6BA6: worn or failed in 1 of 2 sets.");
  expect((await fettle("known", "--set", "eleven")).out).toBe("No set of that kind is in the records.");
});
