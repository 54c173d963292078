/** What the check makes of the registry's answer: none, some, or nobody there. npm itself stands aside. */
import { spawnSync } from "node:child_process";
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";

const folder = mkdtempSync(join(tmpdir(), "known-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
/** Asks where npm answers so. */
const asked = (answer: string, code: number) => {
  const npm = join(folder, "npm");
  writeFileSync(npm, `#!/bin/sh\n[ "$1 $2" = "audit --omit=dev" ] || exit 9\ncat <<'END'\n${answer}\nEND\nexit ${code}\n`);
  chmodSync(npm, 0o755);
  const r = spawnSync(join(import.meta.dirname, "known-vulnerabilities"), {
    env: { ...process.env, PATH: `${folder}:${process.env.PATH}` },
    encoding: "utf8",
  });
  return { status: r.status, out: r.stdout };
};

describe("known vulnerabilities", () => {
  it("are told from none, and from a registry that can't be asked", () => {
    expect(asked('{"vulnerabilities":{},"metadata":{"vulnerabilities":{"total":0}}}', 0)).toEqual({ status: 0, out: "" });
    const some = '{"vulnerabilities":{"left":{"severity":"high","range":"<2"}},"metadata":{"vulnerabilities":{"total":1}}}';
    expect(asked(some, 1)).toEqual({ status: 1, out: "left <2: high\n" });
    for (const none of ['{"message":"405 Method Not Allowed","statusCode":405}', "", "npm error"])
      expect(asked(none, 1)).toEqual({ status: 3, out: "" });
  });
  it("are asked for by the whole check, which names that it could not", () => {
    const check = readFileSync(join(import.meta.dirname, "..", "check"), "utf8");
    expect(check).toContain("checks/known-vulnerabilities");
    expect(check).toContain('skipped+=("known vulnerabilities (the registry can\'t be asked)")');
  });
});
