/** The launcher builds what has changed since it was built last, and nothing else: played in a folder of its own, with a build that only counts. */
import { execFileSync } from "node:child_process";
import { appendFileSync, copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";

const counting = `import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
mkdirSync("dist", { recursive: true });
appendFileSync("builds", "built\\n");
writeFileSync("dist/fettle.mjs", "console.log(" + JSON.stringify(readFileSync("src/a.ts", "utf8")) + ")");
if (readFileSync("src/a.ts", "utf8") === "first") appendFileSync("src/while.ts", "changed while it was built");
`;
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "launcher-"));
  for (const name of ["src", "node_modules"]) mkdirSync(join(folder, name));
  copyFileSync(join(import.meta.dirname, "..", "fettle"), join(folder, "fettle"));
  for (const [name, text] of [
    ["package.json", "{}"],
    ["package-lock.json", "{}"],
    ["assemble.mjs", ""],
    ["build.mjs", counting],
    ["src/a.ts", "first"],
    ["src/a.test.ts", "a test"],
  ])
    writeFileSync(join(folder, name), text);
  writeFileSync(join(folder, "node_modules/.fettle-installed"), execFileSync("cksum", { input: "{}", encoding: "utf8" }).trim());
});
afterEach(() => rmSync(folder, { recursive: true }));
const says = (): string => execFileSync(join(folder, "fettle"), { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).trim();
const builds = (): number => readFileSync(join(folder, "builds"), "utf8").trim().split("\n").length;

it("builds once, again for what changed while it did so, and then no more", () => {
  expect(says()).toBe("first");
  expect(builds()).toBe(1);
  writeFileSync(join(folder, "src/a.ts"), "second");
  expect(says()).toBe("second");
  expect([says(), builds()]).toEqual(["second", 2]);
});
it("builds for what was changed while it was built", () => {
  says();
  says();
  expect(builds()).toBe(2);
});
it("doesn't build for a test, nor for what was only touched; it does for what is there no more, and for an older file in a newer one's place", () => {
  writeFileSync(join(folder, "src/a.ts"), "second");
  writeFileSync(join(folder, "src/b.ts"), "b");
  says();
  writeFileSync(join(folder, "src/a.test.ts"), "another test");
  utimesSync(join(folder, "src/a.ts"), new Date(), new Date());
  says();
  expect(builds()).toBe(1);
  rmSync(join(folder, "src/b.ts"));
  says();
  expect(builds()).toBe(2);
  appendFileSync(join(folder, "src/a.ts"), ", as it was");
  utimesSync(join(folder, "src/a.ts"), new Date(0), new Date(0));
  expect([says(), builds()]).toEqual(["second, as it was", 3]);
});
