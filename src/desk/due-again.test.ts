/** One rule says what is due again, wherever it is counted: on the page, on the papers, in the list of jobs. */
import { expect, it } from "vitest";
import { isDueAgain, stepCounts } from "../job/open-steps";
import { leftOf } from "../job/rollups/owner/state";
import { whereOf } from "../job/rollups/where";
import { viewOf } from "../job/view";
import { mended, read, stamp } from "./thread.testdata";

it("what nobody has done yet is to be done, not due again, and every place says the same", () => {
  const title = "Look it over, switched off and unplugged";
  const fresh = mended(read, { fault: "" });
  const due = fresh.steps.filter((s) => s.due.length > 0);
  expect(due.length).toBeGreaterThan(0);
  expect(due.filter(isDueAgain)).toEqual([]);
  expect(stepCounts(fresh)).toMatchObject({ proved: 0, due: 0 });
  expect(whereOf(fresh, "2026-01-02T00:00:00Z").find((l) => l.head === "Next")?.says).toMatch(/ 0 of \d+ steps proved, 0 due again\.$/);
  const lists = leftOf(fresh, []);
  expect(lists.some((l) => /done again/.test(l.says))).toBe(false);
  expect(lists.find((l) => /^Not done/.test(l.says))?.all).toContain(title);
  // what was proved and then disturbed is
  const { at, who } = stamp();
  const before = viewOf({
    ...read.document,
    entries: [...read.document.entries, { id: "d10", at, who, kind: "done" as const, step: "10", note: "read" }],
  });
  const after = mended(before, { fault: "" });
  expect(after.steps.filter(isDueAgain).map((s) => s.id)).toEqual(["10"]);
  expect(stepCounts(after).due).toBe(1);
  expect(leftOf(after, []).find((l) => /done again/.test(l.says))?.all).toHaveLength(1);
});
