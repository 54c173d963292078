import { basename, resolve } from "node:path";
import { copyJob, exported, newJob, openJob, patternNamed, takeIn } from "../../desk/actions";
import { writingOn } from "../../job/cards";
import { type Entry, isFromElsewhere } from "../../job/document";
import type { JobView } from "../../job/view";
import { setFromOutline } from "../../set/outline";
import { outlineFields } from "../../set/outline-fields";
import { InputError, orThrow } from "../../units/issue";
import { type Commands, collect, pairs } from "./commands";
import { replaceOption, writeBytes } from "./output";
import { columnsOf, jobText } from "./render";
import { readBytes } from "./world";

/** An entry in a few words: why it was made, its note, or what it is of; of a card all that it wrote, so that what fell can be read. */
export function describeEntry(e: { readonly kind: string; readonly [k: string]: unknown }): string {
  const r = e as Record<string, unknown> & {
    reading?: { id: string; file: { name: string } };
    estimate?: { id: string };
    instrument?: { id: string };
  };
  if (e.kind === "form")
    return `${String(r.form)}: ${Object.entries(r.fields as Readonly<Record<string, string>>)
      .map(([field, text]) => `${field} ${text === "" ? "emptied" : `"${text}"`}`)
      .join("; ")}`;
  return (
    String(r.why ?? r.note ?? r.reading?.file.name ?? r.estimate?.id ?? r.instrument?.id ?? r.form ?? "") || String(r.work ?? r.step ?? "")
  );
}
/** Whether an entry stands: superseded where it was taken back or each field that it wrote on a card was written over since, in part where some were. */
function standing(view: JobView, e: Entry): string {
  if (view.superseded.has(e.id)) return "superseded";
  if (e.kind !== "form") return "";
  const own = Object.entries(e.fields).filter(([, text]) => text !== "");
  const stands = writingOn(view, e.form);
  const fell = own.filter(([field]) => stands.get(field)?.entry !== e.id);
  return fell.length === 0 ? "" : fell.length === own.length ? "superseded" : "superseded in part";
}
/** Jobs as a whole: made, listed, shown, exported, imported. */
export function jobCommands({ command, desk, world }: Commands): void {
  const { out, page } = world;
  command("jobs", "list the jobs in the store", "fettle jobs").action(async () => {
    const { jobs: list } = await desk((d) => d.store.list());
    out(
      list.length === 0
        ? "No jobs yet. Make one with: fettle new NAME --pattern ID (fettle patterns lists them), or look at one with: fettle demo"
        : columnsOf(
            list.map((j) => [j.name, j.updated.slice(0, 16).replace("T", " "), `${j.entriesCount} entries`, j.title]),
            page.columns,
          ).join("\n"),
    );
  });

  command("new [name]", "make a job, from a pattern or from what you say of the set", 'fettle new "Kitchen set" --pattern five-tube-live')
    .option("--pattern <id>", "pattern to start from (fettle patterns lists them)")
    .option("--field <name=value>", "describe the set from nothing, field by field (repeat as needed)", collect, [])
    .option("--fields", "list the fields of a description, and what is assumed where one is left out")
    .action(async (name: string | undefined, o: { pattern?: string; field: string[]; fields?: boolean }) => {
      if (o.fields)
        return out(
          columnsOf(
            outlineFields.map((f) => [
              f.id,
              `${f.label}. ${f.options ? `${f.options.map((x) => x.id).join(" | ")}. ` : ""}${f.help}. Else: ${f.assumed.replace(/\n/g, "; ") || "none"}`,
            ]),
            page.columns,
          ).join("\n"),
        );
      if (name === undefined)
        throw new InputError([
          { path: "name", code: "no-name", read: "", expected: "a name for the job (fettle new --fields lists what may be said of it)" },
        ]);
      if ((o.pattern === undefined) === (o.field.length === 0))
        throw new InputError([
          {
            path: "--pattern",
            code: "no-start",
            read: o.pattern ?? "",
            expected: "either a pattern, or fields of a description (fettle new --fields lists them)",
          },
        ]);
      const set = o.pattern === undefined ? orThrow(setFromOutline(pairs(o.field, "--field"))) : patternNamed(o.pattern);
      await desk((d) => newJob(d, name, set));
      out(
        `Made the job "${name}" from ${o.pattern === undefined ? "your description" : `the pattern ${o.pattern}`}. Every value in it is assumed until you measure or state it.\nNext: fettle next "${name}"`,
      );
    });

  command(
    "copy <job> <name>",
    "copy a job, or its set alone for another one of its kind",
    'fettle copy "Kitchen set" "Kitchen set, second" --set-alone',
  )
    .option("--set-alone", "leave readings, work and cards behind; what was measured is only assumed of the copy")
    .action(async (job: string, name: string, o: { setAlone?: boolean }) => {
      await desk((d) => copyJob(d, job, name, o.setAlone ?? false));
      out(`Copied "${job}"${o.setAlone ? " (the set alone)" : ""} to "${name}".`);
      if (!o.setAlone)
        out(
          "Each entry of the copy says where it is from: another set or another claim, so it proves nothing there of what is safe. Prove the chassis and the safety record anew.",
        );
    });

  command("show <job>", "what a job amounts to: set, steps, readings, work", 'fettle show "Harbour club set"')
    .option("--entries", "everything recorded, in order, with the ids that a correction names")
    .action(async (job: string, o: { entries?: boolean }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        if (!o.entries) return out(jobText(view, page));
        const lost = (await d.store.load(job))?.unreadable ?? [];
        out(
          columnsOf(
            view.document.entries.map((e) => [
              e.id,
              e.at.slice(0, 16).replace("T", " "),
              e.kind,
              standing(view, e),
              isFromElsewhere(e) ? "brought in" : "",
              describeEntry(e),
            ]),
            page.columns,
          ).join("\n"),
        );
        for (const u of lost) out(`  ${u.id || `entry ${u.seq}`}  can't be read: ${u.why}`);
      });
    });

  command("export <job> <file>", "write a job as one zip of open files", 'fettle export "Harbour club set" harbour.zip')
    .option(...replaceOption)
    .action(async (job: string, file: string, o: { replace?: boolean }) => {
      await desk(async (d) => {
        const { zip, unreadable } = await exported(d, job);
        await writeBytes(world, { path: file, replace: o.replace ?? false, mine: true }, zip);
        out(`Wrote ${resolve(file)}.`);
        if (unreadable.length > 0)
          out(`${unreadable.length} of its entries can't be read; they stand in unreadable.json as they were stored.`);
      });
    });

  command("import <file>", "take a job in from its zip", "fettle import harbour.zip")
    .option("--name <name>", "another name for it")
    .action(async (file: string, o: { name?: string }) => {
      const taken = await desk((d) => takeIn(d, readBytes(file), basename(file), { name: o.name }));
      out(`Imported "${taken.name}": ${taken.entriesCount} entries, ${taken.filesCount} files.`);
      if (taken.entriesCount > 0) out("Each entry says that it was brought in from elsewhere: it proves nothing here of what is safe.");
      if (taken.unreadable.length > 0)
        out(
          `Kept aside and not applied: ${taken.unreadable.length}. fettle show "${taken.name}" --entries names ${taken.unreadable.length === 1 ? "it" : "them"}.`,
        );
    });
}
