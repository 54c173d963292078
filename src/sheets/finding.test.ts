import { describe, expect, it } from "vitest";
import { situations } from "../ask/contract";
import { questions } from "./asked";
import { findable, findQuestions } from "./finding";
import { sheets } from "./index";

describe("finding a question", () => {
  it("every sheet is declared for whoever asks, in the same order, and found in at least one situation", () => {
    expect(questions.map((q) => q.id)).toEqual(sheets.map((s) => s.id));
    for (const f of findable) expect(f.when.length, f.question.id).toBeGreaterThan(0);
    for (const s of situations) expect(findable.filter((f) => f.when.includes(s)).length, s).toBeGreaterThanOrEqual(3);
  });
  it.each([
    ["hum", ["b-plus", "reform"]],
    ["low B+", ["b-plus"]],
    ["it drifts", ["drift"]],
    ["can't hear marker", ["markers"]],
    ["drifting", ["drift"]],
    ["dim bulb", ["bring-up"]],
    ["duck", ["bfo"]],
    ["same station twice", ["image"]],
  ])("in the bench's words: %s", (said, wanted) => {
    expect(
      findQuestions(said)
        .slice(0, wanted.length + 1)
        .map((f) => f.question.id),
    ).toEqual(expect.arrayContaining(wanted));
  });
  it("says nothing where no word is known, and everything where none is said", () => {
    expect(findQuestions("xyzzy")).toEqual([]);
    expect(findQuestions(" the ").length).toBe(findable.length);
  });
});
