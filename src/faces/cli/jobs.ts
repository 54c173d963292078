import { resolve } from "node:path";
import { copy } from "../../desk/commands/copy";
import { exportJob } from "../../desk/commands/export";
import { importJob } from "../../desk/commands/import";
import { jobs } from "../../desk/commands/jobs";
import { newJob } from "../../desk/commands/new";
import { show } from "../../desk/commands/show";
import { isFromElsewhere } from "../../job/format";
import { sayWhen } from "../../job/held-back";
import { viewOf } from "../../job/view";
import { outlineFields } from "../../set/outline-fields";
import { shortMoment } from "../../units/day";
import { InputError } from "../../units/issue";
import { describeEntry, standing } from "./entry-words";
import { line } from "./line";
import { writeBytes } from "./output";
import { columnsOf, jobText } from "./render";

/** Jobs as a whole: made, listed, shown, exported, imported. */
export const jobsLine = line(jobs, async ({ said, act, out, world: { page } }) => {
  const { jobs: list } = await act(said);
  out(
    list.length === 0
      ? "No jobs yet. Start one: fettle new NAME --pattern ID (fettle patterns lists them). Or look at one: fettle demo"
      : columnsOf(
          list.map((j) => [j.name, shortMoment(j.updated), `${j.entriesCount} entries`, j.title]),
          page.columns,
        ).join("\n"),
  );
});

/** Fields of a description, each with its words to choose from and what is assumed where it is left out. */
const outlineLines = (columns: number): string[] =>
  columnsOf(
    outlineFields.map((f) => [
      f.id,
      `${f.label}. ${f.options ? `${f.options.map((x) => x.id).join(" | ")}. ` : ""}${f.help}. Else: ${f.assumed.replace(/\n/g, "; ") || "none"}`,
    ]),
    columns,
  );

export const newLine = line(newJob, async ({ said, here, act, out, world: { page } }) => {
  if (here.fields) return out(outlineLines(page.columns).join("\n"));
  const { name } = await act(said);
  out(
    `Made the job "${name}" from ${said.pattern === undefined ? "your description" : `the pattern ${said.pattern}`}. Every value in it is assumed until you measure or state it.\nNext: fettle next "${name}"`,
  );
});

export const copyLine = line(copy, async ({ said, act, out }) => {
  await act(said);
  out(`Copied "${said.job}"${said.setAlone ? " (the set alone)" : ""} to "${said.name}".`);
  if (!said.setAlone)
    out(
      "Each entry of the copy says where it came from. It is about another set, so it proves nothing about safety here: prove the chassis and the safety record again.",
    );
});

export const showLine = line(show, async ({ said, here, act, out, world: { page } }) => {
  const found = await act(said);
  if (found instanceof InputError) throw found;
  const view = viewOf(found.document);
  if (!here.entries) return out(jobText(view, page));
  out(
    columnsOf(
      view.document.entries.map((e) => [
        e.id,
        sayWhen(e),
        e.kind,
        standing(view, e),
        isFromElsewhere(e) ? "brought in" : "",
        describeEntry(view.set, e),
      ]),
      page.columns,
    ).join("\n"),
  );
  for (const u of found.unreadable) out(`  ${u.id || `entry ${u.seq}`}  can't be read: ${u.why}`);
});

export const exportLine = line(exportJob, async ({ said, here, act, out, world }) => {
  const { zip, unreadable } = await act(said);
  await writeBytes(world, { path: here.file, replace: here.replace, mine: true }, zip);
  out(`Wrote ${resolve(here.file)}.`);
  if (unreadable.length > 0) out(`${unreadable.length} of its entries can't be read; they are in unreadable.json, as stored.`);
});

export const importLine = line(importJob, async ({ said, act, out }) => {
  const taken = await act(said);
  out(`Imported "${taken.name}": ${taken.entriesCount} entries, ${taken.filesCount} files.`);
  if (taken.entriesCount > 0) out("Each entry is marked as brought in from elsewhere: it proves nothing about safety here.");
  if (taken.unreadable.length > 0)
    out(
      `Kept aside and not applied: ${taken.unreadable.length}. fettle show "${taken.name}" --entries names ${taken.unreadable.length === 1 ? "it" : "them"}.`,
    );
});
