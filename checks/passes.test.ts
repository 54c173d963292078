/** All entries of a job are gone through by its index, src/job/place-in.ts, and its fold: whoever else does it, on every question, makes a long job slow. */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";

const root = join(import.meta.dirname, "..");
const all = String.raw`(?:inForce|document\.entries|job\.entries|view\.readings)`;
const walks = "filter|find|findIndex|findLast|findLastIndex|some|every|map|flatMap|forEach|reduce|entries|indexOf|values|toReversed";
const pass = new RegExp(String.raw`\b${all}\s*\.(?:${walks})\(|\bof (?:\w+\.)*${all}\)|\[\.\.\.(?:\w+\.)*${all}\b`, "g");
const passesIn = (text: string): number => text.match(pass)?.length ?? 0;

/** Who goes through all of them, each at an act, a print or a list of all, and not each time the page asks. This list only shrinks. */
const known: Readonly<Record<string, number>> = {
  "src/desk/commands/history.ts": 1,
  "src/desk/read-in/fitted-strip.ts": 1,
  "src/desk/read-in/read-in.ts": 1,
  "src/desk/record.ts": 1,
  "src/desk/response-entries.ts": 1,
  "src/desk/take-back.ts": 2,
  "src/desk/work.ts": 1,
  "src/faces/cli/jobs.ts": 1,
  "src/faces/report/record-inputs.ts": 1,
  "src/faces/report/technical-record.ts": 1,
  "src/faces/web/set/changed.tsx": 1,
  "src/job/admit.ts": 1,
  "src/job/dial-beats.ts": 1,
  "src/job/fold.ts": 2,
  "src/job/from-elsewhere.ts": 1,
  "src/job/rollups/card-judged.ts": 1,
  "src/job/rollups/known/seen.ts": 1,
  "src/job/rollups/owner/owner.ts": 1,
  "src/job/rollups/proof/pairs.ts": 1,
  "src/job/rollups/route.ts": 1,
  "src/job/rollups/where.ts": 1,
  "src/store/archive.ts": 1,
};

it("nobody else goes through all entries, or all readings, of a job: ask ofKind, onCard, ofAct, placeIn or lastRead", () => {
  const files = execFileSync("git", ["ls-files", "src"], { cwd: root, encoding: "utf8" })
    .split("\n")
    .filter((f) => /\.tsx?$/.test(f) && !/\.(?:test|testdata|testscript)\.ts$/.test(f) && existsSync(join(root, f)));
  const found = files.flatMap((f): [string, number][] => {
    const count = passesIn(readFileSync(join(root, f), "utf8"));
    return count > 0 ? [[f, count]] : [];
  });
  expect(Object.fromEntries(found)).toEqual(known);
});
it("a pass is told however it is written", () => {
  for (const text of [
    "view.inForce.filter((e) => e)",
    "view.inForce\n    .some((e) => e)",
    "for (const e of view.inForce) f(e);",
    "[...view.document.entries].reverse()",
    "view.readings.find((r) => r)",
  ])
    expect(passesIn(text), text).toBe(1);
  expect(passesIn('ofKind(view.inForce, "form").filter((e) => e)')).toBe(0);
});
