import { jobJsonSchema } from "../../job/document";
import { edgesOf, workKindById, workKinds } from "../../job/ripple";
import { stepById, steps } from "../../job/steps";
import { patterns } from "../../set/patterns/kinds";
import { sheets } from "../../sheets/index";
import { cables } from "../../standards/cables";
import { leadColours, markKinds, tellMark } from "../../standards/marks";
import { converterPoints, diodePairs, tubePoints } from "../../standards/receiving-tubes";
import { rectifiers } from "../../standards/rectifiers";
import { InputError, orThrow } from "../../units/issue";
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
  command("tubes", "list the tubes and rectifiers of the tables, each with where its data come from", "fettle tubes").action(() =>
    out(
      columnsOf(
        [
          ["tube", "same data", "plate", "screen", "grid", "plate mA", "screen mA", "µmho", "seen"],
          ...tubePoints.map((t) => [
            t.type,
            t.also.join(" "),
            `${t.plateV} V`,
            t.screenV === undefined ? "" : `${t.screenV} V`,
            `${t.gridV.toFixed(2)} V`,
            (t.plateA * 1000).toFixed(1),
            t.screenA === undefined ? "" : (t.screenA * 1000).toFixed(1),
            (t.transconductance * 1e6).toFixed(0),
            t.seen,
          ]),
          ["converter", "same data", "plate", "screen", "grid leak", "plate mA", "screen mA", "converts, µmho", "seen"],
          ...converterPoints.map((t) => [
            t.type,
            t.also.join(" "),
            `${t.plateV} V`,
            `${t.screenV} V`,
            `${t.gridOhm / 1e3} kΩ`,
            (t.plateA * 1000).toFixed(1),
            (t.screenA * 1000).toFixed(1),
            (t.conversionTransconductance * 1e6).toFixed(0),
            t.seen,
          ]),
          ["double diode", "same data", "inverse", "mA each", "", "", "", "", "seen"],
          ...diodePairs.map((t) => [t.type, t.also.join(" "), `${t.inverseV} V`, (t.mostA * 1000).toFixed(0), "", "", "", "", t.seen]),
          ["rectifier", "drop", "at", "inverse", "peak", "DC", "first capacitor", "heater", "seen"],
          ...rectifiers.map((r) => [
            r.type,
            `${r.dropV} V`,
            `${r.atA * 1000} mA`,
            r.inverseV === undefined ? "" : `${r.inverseV} V`,
            r.peakA === undefined ? "" : `${r.peakA * 1000} mA`,
            r.dcA === undefined ? "" : `${r.dcA * 1000} mA`,
            r.firstF === undefined ? "" : `${r.firstF * 1e6} µF`,
            r.heater,
            r.seen,
          ]),
        ],
        page.columns,
      ).join("\n"),
    ),
  );
  command("mark <kind> <marks...>", "tell what the marks of an old part say", "fettle mark mica-dots red green black")
    .addHelpText(
      "after",
      `\nKinds:\n${columnsOf(
        markKinds.map((k) => [k.id, k.says]),
        page.columns,
      ).join("\n")}\nLeads of transformers:\n${columnsOf(
        leadColours.map((l) => [...l]),
        page.columns,
      ).join("\n")}\nNot every maker kept to them, nor every repair: prove each lead by ohms, set unplugged, discharged and measured.`,
    )
    .action((kind: string, marks: string[]) => {
      const told = orThrow(tellMark(kind, marks.join(" ")));
      out([`${told.value}, ${told.tolerance}`, ...(told.also ? [told.also] : []), "Old parts drift: measure it all the same."].join("\n"));
    });
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
