import { correct } from "../../desk/commands/correct";
import { done } from "../../desk/commands/done";
import { undo } from "../../desk/commands/undo";
import { shortMoment } from "../../units/day";
import { describeEntry } from "./entry-words";
import { line } from "./line";

/** What is said of what was recorded: a step proved, an entry taken back. */
export const doneLine = line(done, async ({ said, act, out }) => {
  const { step } = await act(said);
  out(`Recorded: step ${step.id} (${step.title}) is proved. Done when: ${step.doneWhen}.`);
});

export const correctLine = line(correct, async ({ said, act, out }) => {
  for (const e of await act(said)) out(`Superseded ${e.id} (${e.kind}). It stays in the history.`);
});

export const undoLine = line(undo, async ({ said, act, out }) => {
  const { fallen, set } = await act(said);
  out(
    [
      said.record ? "Taken back; it stays in the history:" : "This would go:",
      ...fallen.map((e) => `  ${e.id}  ${shortMoment(e.at)}  ${e.kind}  ${describeEntry(set, e)}`.trimEnd()),
      ...(said.record ? [] : ["Nothing was recorded (--dry-run)."]),
    ].join("\n"),
  );
});
