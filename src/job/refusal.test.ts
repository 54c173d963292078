import { expect, it } from "vitest";
import { patterns } from "../set/patterns/kinds";
import { proofIssues } from "./next";
import { refusalLines } from "./refusal";
import { steps } from "./steps";
import { viewOf } from "./view";

const issue = (path: string, code: string, read: string, expected: string) => ({ path, code, read, expected });

it("says of every step of an untouched job what is missing, in few lines, nothing twice, each with its act", () => {
  for (const set of patterns) {
    const view = viewOf({ format: "fettle-job", version: 5, id: "j", name: "j", created: "2026-01-01", set, entries: [] });
    for (const s of steps) {
      const lines = refusalLines(proofIssues(view, s.id));
      const said = lines.map((l) => l.says).join("\n");
      expect(said, s.id).not.toMatch(/nothing given|an entry|expected/);
      const fields = lines.flatMap((l) => (/: (.*)\.$/.exec(l.says)?.[1] ?? "").split("; "));
      for (const card of new Set(lines.filter((l) => l.says.startsWith("Still blank")).map((l) => l.says))) {
        const own = (/: (.*)\.$/.exec(card)?.[1] ?? "").split("; ");
        expect(new Set(own).size, card).toBe(own.length);
      }
      expect(new Set(lines.map((l) => l.says)).size).toBe(lines.length);
      // what must come first, the chassis, and one line for each card
      expect(lines.length, said).toBeLessThanOrEqual(6);
      expect(fields.length).toBeGreaterThanOrEqual(0);
      for (const l of lines.filter((l) => !l.says.startsWith("First prove"))) expect(l.command).toMatch(/^fettle /);
    }
  }
});

it("keeps what was read beside what is wanted, once", () => {
  const low = issue("safety-in card, Insulation line to chassis, MΩ", "fails", "0.09", "at least 2 MΩ");
  expect(refusalLines([low, low]).map((l) => l.says)).toEqual([
    'safety-in card, Insulation line to chassis, MΩ: read "0.09", expected at least 2 MΩ',
  ]);
});

it("groups what work has made too old, card by card", () => {
  const old = (field: string) => issue(`safety-in card, ${field}`, "older-than-work", "x", "a value taken after the work that touched it");
  expect(refusalLines([old("Tester used"), old("Date and sign")]).map((l) => l.says)).toEqual([
    "Older than the work that touched them, on the safety-in card: Tester used; Date and sign. Measure and write them again.",
  ]);
});
