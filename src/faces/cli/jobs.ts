import { basename, resolve } from "node:path";
import { setFromOutline } from "../../set/outline";
import { outlineFields } from "../../set/outline-fields";
import { InputError, orThrow } from "../../units/issue";
import { copyJob, newJob, openJob, patternNamed, takeIn } from "../shared/actions";
import { type Commands, collect, pairs } from "./commands";
import { columnsOf, jobText } from "./render";
import { readBytes, writeBytes } from "./world";

function describeEntry(e: { readonly kind: string; readonly [k: string]: unknown }): string {
  const r = e as Record<string, unknown> & {
    reading?: { id: string; file: { name: string } };
    estimate?: { id: string };
    instrument?: { id: string };
  };
  return (
    String(r.why ?? r.note ?? r.reading?.file.name ?? r.estimate?.id ?? r.instrument?.id ?? r.form ?? "") || String(r.work ?? r.step ?? "")
  );
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

  command("new <name>", "make a job, from a pattern or from what you say of the set", 'fettle new "Kitchen set" --pattern five-tube-live')
    .option("--pattern <id>", "pattern to start from (fettle patterns lists them)")
    .option("--field <name=value>", "describe the set from nothing, field by field (repeat as needed)", collect, [])
    .option("--fields", "list the fields of a description, and what is assumed where one is left out")
    .action(async (name: string, o: { pattern?: string; field: string[]; fields?: boolean }) => {
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
      if ((o.pattern === undefined) === (o.field.length === 0))
        throw new InputError([
          {
            path: "--pattern",
            code: "no-start",
            read: o.pattern ?? "",
            expected: "either a pattern, or fields of a description (fettle new NAME --fields lists them)",
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
    });

  command("show <job>", "what a job amounts to: set, steps, readings, work", 'fettle show "Harbour club set"')
    .option("--entries", "everything recorded, in order, with the ids that a correction names")
    .action(async (job: string, o: { entries?: boolean }) => {
      const view = await desk((d) => openJob(d, job));
      if (!o.entries) return out(jobText(view, page));
      out(
        columnsOf(
          view.document.entries.map((e) => [
            e.id,
            e.at.slice(0, 16).replace("T", " "),
            e.kind,
            view.superseded.has(e.id) ? "superseded" : "",
            describeEntry(e),
          ]),
          page.columns,
        ).join("\n"),
      );
    });

  command("export <job> <file>", "write a job as one zip of open files", 'fettle export "Harbour club set" harbour.zip').action(
    async (job: string, file: string) => {
      await desk(async (d) => {
        const { document } = await openJob(d, job);
        writeBytes(file, await d.errands.run("pack", { document, files: await d.store.files(job) }));
        out(`Wrote ${resolve(file)}.`);
      });
    },
  );

  command("import <file>", "take a job in from its zip", "fettle import harbour.zip")
    .option("--name <name>", "another name for it")
    .action(async (file: string, o: { name?: string }) => {
      const taken = await desk((d) => takeIn(d, readBytes(file), basename(file), { name: o.name }));
      out(`Imported "${taken.name}": ${taken.entriesCount} entries, ${taken.filesCount} files.`);
    });
}
