/** docs/adding-a-question.md, done to the letter in a copy of the project: the question is then on every face, and the frame's own tests hold for it. */
import { execFile, execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sourcelessIn } from "./sourceless";

const root = join(import.meta.dirname, "..");
const copy = mkdtempSync(join(tmpdir(), "adding-"));
const folder = join(copy, "src/sheets/dropping");
const inCopy = { cwd: copy, encoding: "utf8", env: { ...process.env, FETTLE_STORE: join(copy, "jobs.db"), NO_COLOR: "1" } } as const;
const run = (program: string, ...args: string[]): string => execFileSync(program, args, inCopy);
/** The same beside others: it fails with all that the program said. */
const started = (program: string, ...args: string[]) => promisify(execFile)(program, args, { ...inCopy, maxBuffer: 2 ** 26 });
const fettle = (...args: string[]): string => run("node", "dist/fettle.mjs", ...args);

beforeAll(() => {
  for (const f of [
    "src",
    "docs",
    "checks",
    "samples",
    "README.md",
    "CONTRIBUTING.md",
    "package.json",
    "build.mjs",
    "assemble.mjs",
    "sources.mjs",
    "source-hooks.mjs",
    "tsconfig.json",
    "vitest.config.ts",
    "biome.json",
  ])
    cpSync(join(root, f), join(copy, f), { recursive: true });
  symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
  const page = readFileSync(join(root, "docs/adding-a-question.md"), "utf8");
  mkdirSync(folder);
  const files = [...page.matchAll(/### `([\w.-]+)`\n\n```\w+\n([\s\S]*?)```/g)];
  expect(files.length).toBe(8);
  for (const [, name, text] of files) if (name !== "order.ts") writeFileSync(join(folder, name), text);
  const order = join(copy, "src/sheets/order.ts");
  const [, , line] = files.find(([, name]) => name === "order.ts") ?? [];
  writeFileSync(order, readFileSync(order, "utf8").replace('  "coil",\n', `  "coil",\n${line}`));
  run("npm", "run", "-s", "tables");
  run("node", "build.mjs");
});
afterAll(() => rmSync(copy, { recursive: true, force: true }));

describe("a question added by its page", () => {
  it("has its types, its own tests, and what the frame asks of every question", async () => {
    // the rest of the project sees a question by its line in the index alone, which is held here: the types of all of it take ten times as long
    const line =
      'import type { AnySheet } from "../../ask/contract";\nimport { dropping } from "./sheet";\nexport const listed: AnySheet = dropping;\n';
    writeFileSync(join(folder, "listed.testdata.ts"), line);
    const tests = ["src/sheets/dropping", "src/sheets/frame.test.ts", "src/sheets/bare.test.ts"];
    const own = { extends: "./tsconfig.json", include: ["src/sheets/dropping", "src/*.d.ts"] };
    writeFileSync(join(copy, "tsconfig.own.json"), JSON.stringify(own));
    const [, { stdout }] = await Promise.all([
      started("npm", "run", "-s", "types", "--", "-p", "tsconfig.own.json"),
      // one worker loads the sources once for them all; of the frame's tests its own alone
      started("npx", "--no-install", "vitest", "run", "--maxWorkers=1", ...tests, "-t", "drop|^a bare value|^the last digit"),
    ]);
    expect(stdout).toMatch(/Test Files +3 passed/);
  });
  it("is as the house writes it: lines, imports, and the source of each public function", async () => {
    await started("npx", "--no-install", "biome", "check", "src/sheets/dropping");
    const files = readdirSync(folder).filter((f) => f.endsWith(".ts"));
    expect(files.flatMap((f) => sourcelessIn(readFileSync(join(folder, f), "utf8")))).toEqual([]);
  });
  it("is listed, answers in words and in numbers, and lists its inputs with the command that records each", () => {
    expect(fettle("sheets")).toContain("Which resistor drops the volts");
    fettle("new", "Mill", "--pattern", "nine-tube-bandspread");
    expect(fettle("sheet", "dropping", "Mill", "--try", "drawn=5 mA")).toContain("30.0 kΩ");
    expect(JSON.parse(fettle("sheet", "dropping", "--json")).results.resistance.value).toBeCloseTo(50e3, 6);
    const inputs = fettle("sheet", "dropping", "Mill", "--inputs");
    expect(inputs).toContain("fettle set Mill line.highRatio=");
    expect(inputs).toContain("for trying only: no job stores it");
  });
  it("is printed in the record of a set that says something of it", async () => {
    const { stderr } = await started("node", "dist/fettle.mjs", "technical-record", "Mill", "-o", join(copy, "mill.pdf"));
    expect(stderr).toContain("A dropping resistor");
  });
  it("is on the page and in the documents", () => {
    const page = join(copy, "dist/page");
    const scripts = readdirSync(page).filter((f) => f.endsWith(".js"));
    expect(scripts.map((f) => readFileSync(join(page, f), "utf8")).join("")).toContain("Which resistor drops the volts");
    expect(readFileSync(join(copy, "README.md"), "utf8")).toContain("| `dropping`");
  });
});
