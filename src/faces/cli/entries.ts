import { basename } from "node:path";
import { Option } from "commander";
import { openJob } from "../../desk/actions";
import { assignment } from "../../desk/assignment";
import { type ReadingAsk, zeroBeat } from "../../desk/read-in";
import { record } from "../../desk/record";
import { takeBackRow } from "../../desk/take-back-beat";
import { refuseUnsaid } from "../../desk/work";
import { readingKinds, readingStates, thermalStates } from "../../job/document";
import { nextSteps } from "../../job/next";
import { orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { type Commands, collect, pairs, whence } from "./commands";
import { fillCommand } from "./fill";
import { columnsOf, findingLines, fitText, nextText } from "./render";
import { readBytes } from "./world";

/** What is recorded in a job: readings, values, cards, instruments, work. */
export function entryCommands(commands: Commands): void {
  const { command, desk, world, errands } = commands;
  const { out, page } = world;
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
    .option("--band <id>", "band of the set that zero beats are of, such as 80")
    .option("--set-point <text>", "what the main dial stood at for the bandspread scale")
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
          ...(text("band") ? { band: text("band") ?? "" } : {}),
          ...(text("setPoint") ? { setPoint: text("setPoint") ?? "" } : {}),
          ...(text("unit") ? { frequencyUnit: text("unit") } : {}),
          ...(o.sMeter === "iaru" ? { sMeterLaw: "iaru" as const } : {}),
          ...(line
            ? { lineVoltage: { value: line.value, spread: line.spread, origin: "measured" as const, source: "at the reading" } }
            : {}),
        };
        const r = await errands.run("read", {
          document: view.document,
          file: { name: basename(file), bytes },
          how: full,
          signed: { at: d.stamp.at, who: d.stamp.who },
        });
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
        await record(d, view, r.entries, [r.file]);
        out(`Recorded in "${job}".`);
      });
    });

  command(
    "zero-beat <job> <reading> <frequency>",
    "record one zero beat: what the scale said and what frequency it was",
    'fettle zero-beat "Harbour club set" 12.4 "3.5 MHz" --band 80 --set-point "3.5 MHz dot" --approach up',
  )
    .requiredOption("--band <id>", "band of the set")
    .option("--set-point <text>", "what the main dial stood at for the bandspread scale", "")
    .addOption(
      new Option("--approach <side>", "side that the dial was turned from").choices(["up", "down", "not-said"]).default("not-said"),
    )
    .addOption(new Option("--thermal <state>", "thermal state of the set").choices([...thermalStates]).default("warm"))
    .action(
      async (
        job: string,
        reading: string,
        frequency: string,
        o: { band: string; setPoint: string; approach: "up" | "down" | "not-said"; thermal: "cold" | "warming" | "warm" },
      ) => {
        await desk(async (d) => {
          const view = await openJob(d, job);
          const entry = orThrow(zeroBeat(view, { ...o, reading, frequency }, d.stamp));
          await record(d, view, [entry]);
          out(`Recorded in "${job}": ${reading} on band ${o.band} is ${frequency}.`);
          if (entry.kind === "reading")
            for (const odd of entry.reading.warnings) out(`But look again: ${odd} fettle undo "${job}" takes it back.`);
        });
      },
    );

  command(
    "take-back <job> <row>",
    "take back one zero beat, by its row on the sheet of the dial; it stays in the history",
    'fettle take-back "Harbour club set" 5 --band 80',
  )
    .requiredOption("--band <id>", "band of the set")
    .option("--set-point <text>", "what the main dial stood at; the latest where it is not said")
    .action(async (job: string, row: string, o: { band: string; setPoint?: string }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const { entries, said } = orThrow(takeBackRow(view, o.band, o.setPoint, Number(row), d.stamp));
        await record(d, view, entries);
        out(`Taken back in "${job}": ${said}. It stays in the history; the rows after it move up.`);
      });
    });

  command(
    "set <job> <path=value...>",
    "state or measure a value of the set, or a fact",
    'fettle set "Kitchen set" line.today="121 V ±1 V" --origin measured --why "meter at the outlet"',
  )
    .addOption(whence())
    .option("--why <text>", "source, in your words", "typed in")
    .action(async (job: string, values: string[], o: { origin: "stated"; why: string }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const entries = Object.entries(pairs(values, "value")).map(([path, text]) =>
          orThrow(assignment(view, path, text, { origin: o.origin, why: o.why }, d.stamp)),
        );
        await record(d, view, entries);
        out(`Recorded ${entries.length} ${entries.length === 1 ? "value" : "values"} in "${job}". The earlier ones stay in its history.`);
      });
    });

  fillCommand(commands);

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
          const view = await openJob(d, job);
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
          await record(d, view, [{ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "instrument", instrument }]);
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
    .option("--now <path=value>", "what the work changed in the set's record; same where it stayed (repeat as needed)", collect, [])
    .option("--dry-run", "show what it would make due, record nothing")
    .action(async (job: string, kind: string, o: { at: string; note: string; now: string[]; dryRun?: boolean }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const fitted = kind.startsWith("cable") || kind.startsWith("accessory") ? `fittings.${view.set.fittings[0]?.id ?? ""}` : "";
        const plan = await errands.run("plan", {
          document: view.document,
          said: { work: kind, subject: o.at || fitted, note: o.note, now: pairs(o.now, "--now") },
          signed: { at: d.stamp.at, who: d.stamp.who },
        });
        out(
          [
            ...(plan.danger ? [...findingLines(plan.danger, page), ""] : []),
            page.bold("This makes due again:"),
            ...columnsOf(
              plan.due.map((m) => [m.target, m.task, `${m.why}${m.amount ? `. By how much: ${m.amount}` : ""}`]),
              page.columns,
            ),
          ].join("\n"),
        );
        if (o.dryRun) {
          if (plan.asks.length > 0)
            out(
              [
                "",
                "It will ask, by --now:",
                ...columnsOf(
                  plan.asks.map((a) => [a.path, `${a.asks}. On record: ${a.stands}`]),
                  page.columns,
                ),
              ].join("\n"),
            );
          return out("Nothing was recorded (--dry-run).");
        }
        refuseUnsaid(plan);
        await record(d, view, plan.entries);
        out(`\nRecorded in "${job}".\n\n${page.bold("Next:")}\n${nextText(nextSteps(await openJob(d, job)), page, 4)}`);
      });
    });
}
