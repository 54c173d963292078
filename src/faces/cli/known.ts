import { known } from "../../desk/commands/known";
import { line } from "./line";
import { wrap } from "./render";

const mostKinds = 20;

export const knownLine = line(known, async ({ said, act, out, world: { page } }) => {
  const { headline, parts, kinds, note } = await act(said);
  out(page.bold(headline));
  for (const p of parts) {
    out(`\n${p.heading}`);
    for (const text of p.lines) out(wrap(text, page.columns, "  ").join("\n"));
  }
  if (kinds.length > 1) {
    out("\nKinds of set in it; --set takes words from a name:");
    for (const k of kinds.slice(0, mostKinds)) out(`  ${k}`);
    if (kinds.length > mostKinds) out(`  and ${kinds.length - mostKinds} more`);
  }
  if (parts.length > 0) out(`\n${wrap(note, page.columns, "").join("\n")}`);
});
