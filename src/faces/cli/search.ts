import { search } from "../../desk/commands/search";
import { shortDay } from "../../units/day";
import { line } from "./line";
import { columnsOf } from "./render";

export const searchLine = line(search, async ({ said, act, out, world: { page } }) => {
  const { found, more } = await act(said);
  if (found.length === 0) return out(`No entry of any job holds "${said.text}". fettle jobs lists the jobs themselves.`);
  const rows = found.map((f) => [f.job, shortDay(f.at), f.who, f.kind, f.excerpt]);
  out(columnsOf(rows, page.columns).join("\n"));
  if (more) out(`These are the latest ${found.length}; there are more. Say more of what you look for.`);
});
