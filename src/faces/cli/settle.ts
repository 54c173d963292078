import { settle } from "../../desk/commands/settle";
import { sayCrossed } from "../../job/crossed";
import { quoted } from "./inputs";
import { line } from "./line";
import { wrap } from "./render";

/** Where two people crossed, and which of them is right. */
export const settleLine = line(settle, async ({ said, act, out, world: { page } }) => {
  const { crossed, says } = await act(said);
  if (says !== undefined) return out(wrap(says, page.columns, "").join("\n"));
  if (crossed.length === 0) return out("No place has two values.");
  for (const c of crossed) {
    out(wrap(sayCrossed(c), page.columns, "").join("\n"));
    for (const claim of c.claims) out(`  -> ${claim.says}: fettle settle ${quoted(said.job)} ${quoted(c.key)} --take ${claim.entry}`);
  }
});
