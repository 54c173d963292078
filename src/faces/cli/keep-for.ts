import { clearOut } from "../../desk/commands/clear-out";
import { keepFor } from "../../desk/commands/keep-for";
import { line } from "./line";
import { columnsOf, wrap } from "./render";

export const keepForLine = line(keepFor, async ({ said, act, out, world: { page } }) => {
  const kept = await act(said);
  out(
    columnsOf(
      kept.map(([kind, is, time]) => [kind, time, is]),
      page.columns,
    ).join("\n"),
  );
  const rest =
    "Everything else is kept for ever, the trail of what was done too. Nothing goes by itself: fettle clear-out lists what is past its time, and removes it when you say so.";
  out(`\n${wrap(rest, page.columns, "").join("\n")}`);
});

export const clearOutLine = line(clearOut, async ({ said, act, out }) => {
  for (const text of await act(said)) out(text);
});
