import { mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { commandLine } from "./main";

const root = join(import.meta.dirname, "..", "..", "..");
const folder = mkdtempSync(join(tmpdir(), "readme-"));
const home = process.cwd();
/** Words of a line as a shell has them: blanks part them, quotes hold them together, a comment ends it. */
const wordsOf = (line: string): string[] =>
  [...line.replace(/\s+#.*$/, "").matchAll(/(?:[^\s"]+|"[^"]*")+/g)].map((m) => m[0].replace(/"/g, ""));
const block = /## A first job[\s\S]*?```sh\n([\s\S]*?)```/.exec(readFileSync(join(root, "README.md"), "utf8"))?.[1] ?? "";
const lines = block.split("\n").filter((l) => l.startsWith("./fettle "));

describe("the README's first job", () => {
  beforeAll(() => {
    symlinkSync(join(root, "samples"), join(folder, "samples"));
    process.chdir(folder);
  });
  afterAll(() => {
    process.chdir(home);
    rmSync(folder, { recursive: true, force: true });
  });
  it("has its lines", () => expect(lines.length).toBeGreaterThan(25));
  it.each(lines)("%s", async (line) => {
    let err = "";
    let out = "";
    const world = {
      out: (t: string) => {
        out += t;
      },
      err: (t: string) => {
        err += t;
      },
      progress: () => undefined,
      page: { columns: 96, bold: (s: string) => s },
      now: () => "2026-05-03T12:00:00.000Z",
      env: { FETTLE_STORE: join(folder, "jobs.db") },
    };
    const code = await commandLine(world).run(wordsOf(line).slice(1));
    // a long one says what it is at; nothing is refused
    expect(err).not.toContain("expected");
    expect(code).toBe(0);
    expect(out.length).toBeGreaterThan(10);
  });
});
