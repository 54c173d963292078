import { jobJsonSchema } from "../../job/document";
import { edgesOf, workKindById, workKinds } from "../../job/ripple";
import { stepById, steps } from "../../job/steps";
import { patterns } from "../../set/patterns/kinds";
import { sheets } from "../../sheets/index";
import { cables } from "../../standards/cables";
import { InputError } from "../../units/issue";
import type { Commands } from "./commands";
import { columnsOf } from "./render";

/** What Fettle knows without any job: questions, patterns, cables, kinds of work, steps. */
export function catalogueCommands({ command, world }: Commands): void {
  const { out, page } = world;
  command("sheets", "list the questions that can be answered", "fettle sheets").action(() =>
    out(
      columnsOf(
        sheets.map((s) => [s.id, s.question]),
        page.columns,
      ).join("\n"),
    ),
  );

  command("patterns", "list the invented sets that a job may start from", "fettle patterns").action(() =>
    out(
      columnsOf(
        patterns.map((p) => [p.pattern, `${p.title}. ${p.note}`]),
        page.columns,
      ).join("\n"),
    ),
  );
  command("cables", "list the cable types of the table", "fettle cables").action(() =>
    out(
      columnsOf(
        [
          ["type", "ohm", "velocity", "pF/ft", "source"],
          ...cables.map((c) => [
            c.type,
            String(c.impedanceOhm),
            String(c.velocityRatio),
            String(c.printedPfPerFt),
            `${c.source} (${c.flag})`,
          ]),
        ],
        page.columns,
      ).join("\n"),
    ),
  );
  command("works [kind]", "list the kinds of work, or what one of them makes due again and why", "fettle works cable-fitted").action(
    (kind: string | undefined) => {
      if (kind !== undefined) {
        if (!workKindById(kind))
          throw new InputError([
            { path: "kind", code: "unknown-work", read: kind, expected: `one of ${workKinds.map((w) => w.id).join(", ")}` },
          ]);
        return out(
          columnsOf(
            edgesOf(kind).map((e) => [e.target, e.makes, e.task ?? stepById(e.target)?.title ?? "", e.why]),
            page.columns,
          ).join("\n"),
        );
      }
      return out(
        columnsOf(
          workKinds.map((w) => [w.id, w.title]),
          page.columns,
        ).join("\n"),
      );
    },
  );
  command("steps", "list the steps of the job, in the order that causes least rework", "fettle steps").action(() =>
    out(
      columnsOf(
        steps.map((s) => [s.id, s.safety ? "safety" : "", `${s.title}. Done when: ${s.doneWhen}`]),
        page.columns,
      ).join("\n"),
    ),
  );
  command("schema", "print the JSON Schema of a job", "fettle schema > job.schema.json").action(() =>
    out(JSON.stringify(jobJsonSchema(), null, 1)),
  );
}
