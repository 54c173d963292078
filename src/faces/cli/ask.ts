import { next } from "../../desk/commands/next";
import { sheet } from "../../desk/commands/sheet";
import { sheetById } from "../../sheets/index";
import { sayGuess } from "./describe";
import { inputsText, quoted } from "./inputs";
import { answerJson, inputsJson } from "./json";
import { line } from "./line";
import { foremostText } from "./next-text";
import { answerText, wrap } from "./render";

/** Questions: a sheet, and what to do next. */
export const sheetLine = line(sheet, async ({ said, here, act, out, world, judge }) => {
  const { page } = world;
  const known = sheetById(said.sheet);
  if (known && here.theory) return out(known.theory.trimEnd());
  if (known) world.progress(`working out ${known.title.toLowerCase()}...`);
  const { sheet: asked, answer, keep, leaning } = await act(here.json ? { ...said, bands: "all" } : said, { progress: world.progress });
  world.progress("");
  if (said.inputs) out(here.json ? JSON.stringify(inputsJson(answer), null, 1) : inputsText(answer, asked, said.job, page));
  else out(here.json ? JSON.stringify(answerJson(answer), null, 1) : answerText(answer, asked, page));
  if (leaning.length > 0 && !here.json)
    out(
      [
        "",
        page.bold("Guesses that this answer leans on:"),
        ...leaning.flatMap((g) => [
          ...wrap(`${g.path} = ${g.is} (from ${g.from}); ${g.matters}.`, page.columns, "  - ", "    "),
          `    To settle it: ${sayGuess(g, said.job ?? "")}`,
        ]),
      ].join("\n"),
    );
  if (said.record) {
    const count = await keep();
    out(`Recorded ${count} ${count === 1 ? "value" : "values"} in "${said.job}".`);
  }
  if (answer.missing.length > 0) judge(2);
  else if (here.judge && answer.findings.some((f) => f.severity === "danger" || f.severity === "act")) judge(1);
});

export const nextLine = line(next, async ({ said, here, act, out, world: { page } }) => {
  const next = await act(said);
  const { act: first, items } = next;
  out(
    here.json
      ? JSON.stringify({ ...(first ? { first: { ...first, fault: first.fault.id } } : {}), steps: items }, null, 1)
      : foremostText(next, page, here.all ? items.length : undefined, quoted(said.job)),
  );
});
