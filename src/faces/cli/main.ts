import { spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { userInfo } from "node:os";
import { basename, resolve } from "node:path";
import { Command, CommanderError, Option } from "commander";
import { jobJsonSchema, readingKinds, readingStates, thermalStates } from "../../job/document";
import { formById, forms } from "../../job/forms";
import { nextSteps, proofIssues } from "../../job/next";
import { edgesOf, workKindById, workKinds } from "../../job/ripple";
import { stepById, steps } from "../../job/steps";
import { fallWith } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { sheets } from "../../sheets/index";
import { cables } from "../../standards/cables";
import { readArchive, writeArchive } from "../../store/archive";
import { openSqlite, storePath } from "../../store/sqlite";
import { StoreError } from "../../store/store";
import { InputError, orThrow, sayIssue } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { origins } from "../../units/quantity";
import { startServer } from "../server/listen";
import {
  ask,
  assignment,
  checkName,
  type Desk,
  newJob,
  openJob,
  planned,
  type ReadingAsk,
  readFileIn,
  sheetNamed,
} from "../shared/actions";
import { cardsPdf, reportPdf } from "../shared/reporting";
import { runDemo } from "./demo";
import { answerJson } from "./json";
import { answerText, columnsOf, findingLines, fitText, inputsText, jobText, nextText } from "./render";
import { readBytes, type World, writeBytes } from "./world";

/** Opens a browser where there is one; the address stands printed in any case. */
function openBrowser(url: string): void {
  const [program, ...args] =
    process.platform === "darwin" ? ["open", url] : process.platform === "win32" ? ["cmd", "/c", "start", "", url] : ["xdg-open", url];
  spawn(program, args, { stdio: "ignore", detached: true })
    .on("error", () => undefined)
    .unref();
}

const who = (): string => {
  try {
    return userInfo().username;
  } catch {
    return "unknown";
  }
};
const collect = (value: string, before: readonly string[]): string[] => [...before, value];

/** `name=value` pairs as typed. */
function pairs(list: readonly string[], option: string): Record<string, string> {
  const out: Record<string, string> = {};
  for (const item of list) {
    const at = item.indexOf("=");
    if (at < 1)
      throw new InputError([{ path: option, code: "no-equals", read: item, expected: 'NAME=VALUE, such as cableLength="90 cm"' }]);
    out[item.slice(0, at).trim()] = item.slice(at + 1).trim();
  }
  return out;
}

const whole = (text: string): number => {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1 || n > 1_000_000)
    throw new InputError([{ path: "--seed or --draws", code: "not-whole", read: text, expected: "a whole number from 1 to 1,000,000" }]);
  return n;
};

/** Builds the command line over a world. Exit codes: 0 done, 1 judged and found wanting, 2 bad usage or input. */
export function commandLine(world: World): { readonly run: (argv: readonly string[]) => Promise<number> } {
  let exit = 0;
  const { out, page } = world;
  const desk = async <T>(work: (d: Desk) => Promise<T>): Promise<T> => {
    const store = await openSqlite(storePath(world.env), world.now);
    try {
      return await work({ store, stamp: { at: world.now(), who: who(), newId: randomUUID } });
    } finally {
      await store.close();
    }
  };
  const program = new Command("fettle")
    .description("The bench companion of a person who restores vintage communications receivers and fits accessories to them.")
    .showHelpAfterError("(fettle --help, or fettle COMMAND --help)")
    .configureOutput({ writeOut: (s) => out(s.trimEnd()), writeErr: (s) => world.err(s.trimEnd()) })
    .exitOverride();
  const command = (name: string, description: string, example: string): Command =>
    program.command(name).description(description).addHelpText("after", `\nExample:\n  ${example}`);

  command("sheets", "list the questions that can be answered", "fettle sheets").action(() =>
    out(
      columnsOf(
        sheets.map((s) => [s.id, s.question]),
        page.columns,
      ).join("\n"),
    ),
  );

  command(
    "sheet <id> [job]",
    "answer one question, about a job or on defaults",
    'fettle sheet cable-load "Harbour club set" --set cableLength="3 ft"',
  )
    .option("--inputs", "list the inputs with unit, value, origin and how each is measured")
    .option("--at <path>", "which subject, such as fittings.qm")
    .option("--set <name=value>", "what if: another value for an input (repeat as needed)", collect, [])
    .option("--json", "for programs: SI numbers")
    .option("--judge", "exit with 1 when a finding says danger or act")
    .option("--theory", "how this is worked out: formulas, limits, sources, an example")
    .option("--seed <n>", "seed of the draws", "1")
    .option("--draws <n>", "number of draws", "2000")
    .action(
      async (
        id: string,
        job: string | undefined,
        o: { inputs?: boolean; at?: string; set: string[]; json?: boolean; judge?: boolean; theory?: boolean; seed: string; draws: string },
      ) => {
        const sheet = sheetNamed(id);
        if (o.theory) return out(sheet.theory.trimEnd());
        const view = job === undefined ? undefined : await desk((d) => openJob(d, job));
        world.progress(`working out ${sheet.title.toLowerCase()}...`);
        const a = ask(sheet, view, o.at, { overrides: pairs(o.set, "--set"), seed: whole(o.seed), draws: o.inputs ? 10 : whole(o.draws) });
        world.progress("");
        if (o.inputs) out(o.json ? JSON.stringify((answerJson(a) as { inputs: unknown }).inputs, null, 1) : inputsText(a, sheet, page));
        else out(o.json ? JSON.stringify(answerJson(a), null, 1) : answerText(a, sheet, page));
        if (a.missing.length > 0) exit = 2;
        else if (o.judge && a.findings.some((f) => f.severity === "danger" || f.severity === "act")) exit = 1;
      },
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

  command("jobs", "list the jobs in the store", "fettle jobs").action(async () => {
    const list = await desk((d) => d.store.list());
    out(
      list.length === 0
        ? "No jobs yet. Make one with: fettle new NAME --pattern ID (fettle patterns lists them), or look at one with: fettle demo"
        : columnsOf(
            list.map((j) => [j.name, j.updated.slice(0, 16).replace("T", " "), `${j.entriesCount} entries`, j.title]),
            page.columns,
          ).join("\n"),
    );
  });

  command("new <name>", "make a job from a pattern", 'fettle new "Kitchen set" --pattern five-tube-live')
    .requiredOption("--pattern <id>", "pattern to start from")
    .action(async (name: string, o: { pattern: string }) => {
      await desk((d) => newJob(d, name, o.pattern));
      out(
        `Made the job "${name}" from the pattern ${o.pattern}. Every value in it is assumed until you measure or state it.\nNext: fettle next "${name}"`,
      );
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

  command(
    "read <job> <file>",
    "read a file into a job: a sweep, a recording, a table",
    'fettle read "Harbour club set" sweep.csv --as if-sweep --state as-found',
  )
    .addOption(new Option("--as <kind>", "what it is; an if-sweep is also fitted").choices([...readingKinds]).makeOptionMandatory())
    .addOption(new Option("--state <state>", "when it was taken").choices([...readingStates]).makeOptionMandatory())
    .option("--step <id>", "step of the job that it belongs to")
    .option("--stage <id>", "stage of the set that it belongs to")
    .option("--instrument <id>", "instrument of this job that took it")
    .addOption(new Option("--thermal <state>", "thermal state of the set").choices([...thermalStates]).default("warm"))
    .option("--line <volts>", "line voltage when it was taken")
    .option("--unit <unit>", "unit of the frequencies, where the file has no heading")
    .addOption(new Option("--s-meter <law>", "state the law of S units").choices(["iaru"]))
    .option("--no-fit", "keep the strip's model as it is")
    .option("--dry-run", "show what would be recorded, record nothing")
    .action(async (job: string, file: string, o: Record<string, string | boolean>) => {
      const bytes = readBytes(file);
      await desk(async (d) => {
        const view = await openJob(d, job);
        const text = (k: string) => (typeof o[k] === "string" ? (o[k] as string) : undefined);
        const how = { as: o.as, state: o.state, thermal: o.thermal, withoutFit: o.fit === false } as ReadingAsk;
        const line = text("line") === undefined ? undefined : orThrow(parseQuantity(text("line") ?? "", "voltage", "--line"));
        const full: ReadingAsk = {
          ...how,
          ...(text("step") ? { step: text("step") } : {}),
          ...(text("stage") ? { stage: text("stage") } : {}),
          ...(text("instrument") ? { instrument: text("instrument") } : {}),
          ...(text("unit") ? { frequencyUnit: text("unit") } : {}),
          ...(o.sMeter === "iaru" ? { sMeterLaw: "iaru" as const } : {}),
          ...(line
            ? { lineVoltage: { value: line.value, spread: line.spread, origin: "measured" as const, source: "at the reading" } }
            : {}),
        };
        const r = orThrow(readFileIn(view, { name: basename(file), bytes }, full, d.stamp));
        const rows = r.reading.figures.map((f) => [f.name, f.text]);
        out(
          [
            `${r.reading.id}: ${r.reading.file.name}, ${r.reading.as}, ${r.reading.state}`,
            ...columnsOf(rows, page.columns),
            ...r.reading.warnings.map((w) => `  ! ${w}`),
          ].join("\n"),
        );
        if (r.fit) out(fitText(r.fit, page));
        if (o.dryRun) return out("Nothing was recorded (--dry-run).");
        await d.store.append(job, r.entries, [r.file]);
        out(`Recorded in "${job}".`);
      });
    });

  command(
    "set <job> <path=value...>",
    "state or measure a value of the set, or a fact",
    'fettle set "Kitchen set" line.voltage="121 V ±1 V" --origin measured --why "meter at the outlet"',
  )
    .addOption(
      new Option("--origin <origin>", "where it comes from")
        .choices(origins.filter((x) => x !== "computed" && x !== "tried" && x !== "fitted"))
        .default("stated"),
    )
    .option("--why <text>", "source, in your words", "typed in")
    .action(async (job: string, values: string[], o: { origin: "stated"; why: string }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const entries = Object.entries(pairs(values, "value")).map(([path, text]) =>
          orThrow(assignment(view, path, text, o.origin, o.why, d.stamp)),
        );
        await d.store.append(job, entries);
        out(`Recorded ${entries.length} ${entries.length === 1 ? "value" : "values"} in "${job}". The earlier ones stay in its history.`);
      });
    });

  command(
    "instrument <job> <id>",
    "register an instrument that readings may name",
    'fettle instrument "Kitchen set" dmm --kind "DC volts" --label "bench multimeter" --uncertainty "0.5 % + 2 digits"',
  )
    .requiredOption("--kind <text>", "what it measures")
    .option("--label <text>", "what it is", "")
    .option("--ohms-per-volt <n>", "load of a pointer meter")
    .option("--range <text>", "a range (repeat as needed)", collect, [])
    .option("--uncertainty <text>", "what it is good for", "not stated")
    .option("--last-check <date>", "when it was last checked", "not stated")
    .option("--offset <text>", "known offset", "none known")
    .action(
      async (
        job: string,
        id: string,
        o: { kind: string; label: string; ohmsPerVolt?: string; range: string[]; uncertainty: string; lastCheck: string; offset: string },
      ) => {
        await desk(async (d) => {
          await openJob(d, job);
          const ohms =
            o.ohmsPerVolt === undefined ? undefined : orThrow(parseQuantity(o.ohmsPerVolt, "resistance", "--ohms-per-volt")).value;
          const instrument = {
            id,
            kind: o.kind,
            label: o.label || id,
            ...(ohms === undefined ? {} : { ohmsPerVolt: ohms }),
            ranges: o.range,
            uncertainty: o.uncertainty,
            lastCheck: o.lastCheck,
            offset: o.offset,
          };
          await d.store.append(job, [{ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "instrument", instrument }]);
          out(`Registered ${id} in "${job}".`);
        });
      },
    );

  command(
    "work <job> <kind>",
    "record work done, and see what it makes due again",
    'fettle work "Harbour club set" cable-fitted --at fittings.qm --note "1.5 m, through the back apron"',
  )
    .option("--at <path>", "what was worked on, such as fittings.qm or stages.can1", "")
    .option("--note <text>", "in your words", "")
    .option("--dry-run", "show what it would make due, record nothing")
    .action(async (job: string, kind: string, o: { at: string; note: string; dryRun?: boolean }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const plan = planned(
          view,
          kind,
          o.at || (kind.startsWith("cable") || kind.startsWith("accessory") ? `fittings.${view.set.fittings[0]?.id ?? ""}` : ""),
          o.note,
          d.stamp,
        );
        out(
          [
            ...(plan.danger ? [...findingLines(plan.danger, page, new Set()), ""] : []),
            page.bold("This makes due again:"),
            ...columnsOf(
              plan.due.map((m) => [m.target, m.task, `${m.why}${m.amount ? `. By how much: ${m.amount}` : ""}`]),
              page.columns,
            ),
          ].join("\n"),
        );
        if (o.dryRun) return out("Nothing was recorded (--dry-run).");
        await d.store.append(job, plan.entries);
        out(`\nRecorded in "${job}".\n\n${page.bold("Next:")}\n${nextText(nextSteps(await openJob(d, job)), page, 4)}`);
      });
    });

  command("done <job> <step>", "record that a step is proved", 'fettle done "Kitchen set" 03 --note "line to chassis open both ways"')
    .option("--note <text>", "what proves it", "")
    .action(async (job: string, step: string, o: { note: string }) => {
      const s = stepById(step);
      if (!s)
        throw new InputError([
          {
            path: "step",
            code: "no-step",
            read: step,
            expected: stepById(`0${step}`)
              ? `the number of a step as it is written: 0${step}, ${stepById(`0${step}`)?.title}`
              : "the number of a step (fettle steps lists them)",
          },
        ]);
      await desk(async (d) => {
        const stops = proofIssues(await openJob(d, job), step);
        if (stops.length > 0) throw new InputError(stops);
        await d.store.append(job, [{ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "done", step, note: o.note }]);
        out(`Recorded: step ${step}, ${s.title}, proven. It counts as done when ${s.doneWhen}.`);
      });
    });

  command(
    "correct <job> <entry>",
    "take back an entry: it stays in the history, superseded",
    'fettle correct "Kitchen set" 3f2a… --why "read the wrong scale"',
  )
    .requiredOption("--why <text>", "why")
    .action(async (job: string, entry: string, o: { why: string }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const hits = view.document.entries.filter((e) => e.id.startsWith(entry));
        if (hits.length !== 1)
          throw new InputError([
            {
              path: "entry",
              code: "no-entry",
              read: entry,
              expected:
                hits.length > 1 ? "more of the entry's id: several begin so" : "the id of an entry (fettle show JOB --entries lists them)",
            },
          ]);
        const fallen = fallWith(view, hits[0]);
        await d.store.append(
          job,
          fallen.map((e) => ({ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "correction", supersedes: e.id, why: o.why })),
        );
        for (const e of fallen) out(`Superseded ${e.id} (${e.kind}). It stays in the history.`);
      });
    });

  command("next <job>", "what to do next, safety first, with why", 'fettle next "Harbour club set"')
    .option("--all", "every open step")
    .option("--json", "for programs")
    .action(async (job: string, o: { all?: boolean; json?: boolean }) => {
      const items = nextSteps(await desk((d) => openJob(d, job)));
      out(o.json ? JSON.stringify(items, null, 1) : nextText(items, page, o.all ? items.length : 8));
    });

  command("report <job>", "write the report as PDF", 'fettle report "Harbour club set" -o report.pdf')
    .requiredOption("-o, --output <file>", "file to write")
    .action(async (job: string, o: { output: string }) => {
      const view = await desk((d) => openJob(d, job));
      const bytes = await reportPdf(view, (said) => world.err(`working out: ${said}`));
      writeBytes(o.output, bytes);
      out(`Wrote ${resolve(o.output)} (${Math.round(bytes.length / 1024)} KB).`);
    });

  command(
    "cards <job>",
    "write the record cards as PDF, as written or blank for pencil",
    'fettle cards "Harbour club set" --blank -o cards.pdf',
  )
    .requiredOption("-o, --output <file>", "file to write")
    .option("--card <id>", "one card only")
    .option("--blank", "leave them empty")
    .action(async (job: string, o: { output: string; card?: string; blank?: boolean }) => {
      if (o.card !== undefined && !formById(o.card))
        throw new InputError([{ path: "--card", code: "no-card", read: o.card, expected: `one of ${forms.map((f) => f.id).join(", ")}` }]);
      const view = await desk((d) => openJob(d, job));
      writeBytes(o.output, await cardsPdf(view, o.card, o.blank ?? false));
      out(`Wrote ${resolve(o.output)}.`);
    });

  command("export <job> <file>", "write a job as one zip of open files", 'fettle export "Harbour club set" harbour.zip').action(
    async (job: string, file: string) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        writeBytes(file, writeArchive(view.document, await d.store.files(job)));
        out(`Wrote ${resolve(file)}.`);
      });
    },
  );

  command("import <file>", "take a job in from its zip", "fettle import harbour.zip")
    .option("--name <name>", "another name for it")
    .action(async (file: string, o: { name?: string }) => {
      const { document, files } = orThrow(readArchive(readBytes(file), basename(file)));
      const name = o.name ?? document.name;
      checkName(name);
      const { format: _f, version: _v, id, name: _n, created, set, entries, ...extra } = document;
      await desk(async (d) => {
        await d.store.create({ id: o.name ? d.stamp.newId() : id, name, created, set, entries, extra }, files);
        out(`Imported "${name}": ${entries.length} entries, ${files.length} files.`);
      });
    });

  command("open [job]", "serve the page on this machine and open it in a browser", 'fettle open "Harbour club set"')
    .option("--port <n>", "port to serve on; any free one where not said")
    .option("--no-browser", "serve only")
    .action(async (job: string | undefined, o: { port?: string; browser: boolean }) => {
      const port = o.port === undefined ? 0 : Number(o.port);
      if (!Number.isInteger(port) || port < 0 || port > 65535)
        throw new InputError([{ path: "--port", code: "not-a-port", read: o.port ?? "", expected: "a whole number from 0 to 65535" }]);
      if (job !== undefined) await desk((d) => openJob(d, job));
      const running = await startServer(storePath(world.env), port);
      const url = job === undefined ? running.url : `${running.url}#/job/${encodeURIComponent(job)}`;
      out(`Fettle's page: ${url}\nIt answers this machine only. Stop it with Ctrl-C.`);
      if (o.browser) openBrowser(url);
      await new Promise<void>((done) => {
        for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void running.close().then(done));
      });
    });

  command("demo", "do the main job on the demo set, and say where everything is", "fettle demo")
    .option("--folder <folder>", "where to put sweep and report", "fettle-demo")
    .action(async (o: { folder: string }) => {
      await desk((d) => runDemo(d, o.folder, world));
    });

  return {
    run: async (argv) => {
      try {
        await program.parseAsync([...argv], { from: "user" });
        return exit;
      } catch (e) {
        if (e instanceof CommanderError) return e.exitCode === 0 ? 0 : 2;
        if (e instanceof InputError) world.err(e.issues.map(sayIssue).join("\n"));
        else if (e instanceof StoreError) world.err(e.message);
        else if ((e as { code?: string }).code === "EPIPE") return 0;
        else throw e;
        return 2;
      }
    },
  };
}

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
