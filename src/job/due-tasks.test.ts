import { describe, expect, it } from "vitest";
import { dueBySteps } from "./due-tasks";
import type { DueNow } from "./view";

const due = (target: string, task: string, why: string, amount?: string): DueNow => ({
  target,
  makes: "redo",
  task,
  why,
  because: task + why,
  at: "2026-01-01T00:00:00Z",
  ...(amount ? { amount } : {}),
});
describe("what is due", () => {
  it("stands once for each step, however many works made it so, and the whole step is not named beside its parts", () => {
    const all = dueBySteps([
      due("35", "Final safety test", "anything done inside"),
      due("20", "Re-peak the first can", "the cable hangs on it", "-85.5 kHz"),
      due("35", "Final safety test: the connector was opened", "the connector was opened"),
      due("35", "Final safety test: B+ is near a connector", "anything done inside"),
    ]);
    expect(all).toEqual([
      {
        target: "35",
        task: "Final safety test: the connector was opened, B+ is near a connector",
        why: "anything done inside; the connector was opened",
        amounts: [],
      },
      { target: "20", task: "Re-peak the first can", why: "the cable hangs on it", amounts: ["-85.5 kHz"] },
    ]);
  });
  it("keeps two tasks of one step that are not of one name", () => {
    const [one] = dueBySteps([due("20", "Re-peak the first can", "a"), due("20", "Check the first can's peak", "b")]);
    expect(one.task).toBe("Re-peak the first can; Check the first can's peak");
  });
});
