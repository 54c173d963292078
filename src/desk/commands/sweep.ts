import { z } from "zod";
import { Generator } from "../../instruments/generator";
import { stepSweep } from "../../instruments/step-sweep";
import { readingStates } from "../../job/format";
import { sittingAt } from "../../job/sitting";
import { generator, voltmeter } from "../../readings/scpi/commands";
import { avcStates, held } from "../../readings/stepped/plan";
import { readStepped, tableHead, tableRow } from "../../readings/stepped/table";
import { InputError, orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { addressField, commandsField, onNetwork } from "../bench-leads";
import { declare, field, flag, output, replace, unseen } from "../declare";
import { record } from "../record";
import { planOf, whyNotEarthed } from "../stepped-plan";

const takes = z.object({
  generator: addressField("<generator>", "where the generator is"),
  meter: addressField("--meter <address>", "where the voltmeter is"),
  from: field(z.string(), "--from <frequency>", "lowest frequency"),
  to: field(z.string(), "--to <frequency>", "highest frequency"),
  points: field(z.coerce.number(), "--points <count>", "how many frequencies", { unsaid: "41" }),
  level: field(z.string(), "--level <dBm>", "level of the generator, at its own socket"),
  most: field(z.string(), "--most <dBm>", "level that the generator never goes above", { unsaid: "-20 dBm" }),
  holds: field(z.enum(held), "--hold <what>", "level: read the output; output: hold it, raise the generator and read that", {
    unsaid: "level",
  }),
  avc: field(z.enum(avcStates), "--avc <state>", "what the set's AVC does meanwhile"),
  settle: field(z.string(), "--settle <time>", "time to settle after each step", { unsaid: "0.5 s" }),
  readings: field(z.coerce.number(), "--readings <count>", "readings at each step", { unsaid: "5" }),
  narrowest: field(z.string(), "--narrowest <width>", "narrowest width that the set may show, such as that of its crystal filter", {
    unsaid: "2 kHz",
  }),
  reads: field(z.enum(["ac", "dc"]), "--reads <kind>", "what the meter reads: AC of the sound, or DC of the detector", { unsaid: "ac" }),
  modulation: field(z.string(), "--modulation <percent>", "depth of the generator's amplitude modulation; 0 for none", { unsaid: "30" }),
  tone: field(z.string(), "--tone <frequency>", "frequency of the modulation", { unsaid: "400 Hz" }),
  within: field(z.string(), "--within <dB>", "how far generator and meter may be off from one point to the next", { unsaid: "0.2 dB" }),
  generatorCommands: commandsField("--generator-commands <file>", "generator"),
  meterCommands: commandsField("--meter-commands <file>", "voltmeter"),
  outputOn: flag("--output-on", "do it: switch the generator's output on; without this only the plan is shown"),
  job: field(z.string().optional(), "--job <job>", "record it in this job as a sweep of the IF strip"),
  state: field(z.enum(readingStates), "--state <state>", "when it was taken", { unsaid: "as-left" }),
  soFar: unseen(z.string(), ""),
  fileName: unseen(z.string(), "sweep.csv"),
});

export const sweep = declare({
  name: "sweep",
  says: "step a generator through frequencies and read a voltmeter at each: a sweep with nothing typed",
  example: 'fettle sweep 192.168.1.30 --meter 192.168.1.31 --from 445kHz --to 465kHz --level "-60 dBm" --avc clamped -o strip.csv',
  records: true,
  takes,
  here: z.object({
    output: output("file that each point is written to as it comes"),
    goOn: flag("--go-on", "go on with a sweep that was interrupted: the file's points are kept"),
    replace: replace(),
  }),
  act: async (said, at) => {
    const plan = planOf(said);
    const where = { generator: { address: said.generator, path: "<generator>" }, meter: { address: said.meter, path: "--meter" } };
    const done = said.soFar === "" ? [] : orThrow(readStepped(said.soFar, said.fileName, plan));
    const by = {
      generator: onNetwork(generator, "generator", { ...where.generator, commands: said.generatorCommands }),
      voltmeter: onNetwork(voltmeter, "voltmeter", { ...where.meter, commands: said.meterCommands }),
    };
    if (!said.outputOn) return { plan, done };
    // a job that isn't there is told before anything is switched on
    const view = said.job === undefined ? undefined : await at.desk((d) => openJob(d, said.job ?? ""));
    const whyNot = view && whyNotEarthed(view.chassis);
    if (whyNot) throw new InputError([{ path: "chassis", code: "may-be-live", read: view.chassis, expected: whyNot }]);
    const beside = at.bench;
    const head = tableHead(plan, at.bench?.at ?? "", `${said.generator}, ${said.meter}`);
    let headed = said.soFar !== "";
    const guarded = new Generator(by.generator, plan.mostDbm, { mayBeOn: (t) => beside?.mayBeOn(t), isOff: () => beside?.isOff() });
    const stepped = await stepSweep(
      plan,
      { generator: guarded, voltmeter: by.voltmeter, reads: said.reads === "ac" ? "acVolts" : "dcVolts" },
      done,
      {
        point: (p, count) => {
          beside?.write(`${headed ? "" : head}${tableRow(p)}`);
          headed = true;
          at.progress?.(`${count} of ${plan.frequencyHz.length}: ${p.frequencyHz} Hz, ${p.levelDb.toFixed(1)} dB`);
        },
        ...(at.signal ? { signal: at.signal } : {}),
        ...(beside?.paused ? { paused: beside.paused } : {}),
      },
    );
    at.progress?.("");
    const csv = `${head}${stepped.points.map(tableRow).join("")}`;
    if (!view || stepped.broken) return { plan, done, stepped, csv };
    const { read, revision } = await at.desk(async (d) => {
      const { at: when, who } = d.stamp;
      const sitting = sittingAt(view, when);
      const how = {
        as: "if-sweep",
        state: said.state,
        ...(sitting?.line ? { lineVoltage: sitting.line } : {}),
      } as const;
      const file = { name: said.fileName, bytes: new TextEncoder().encode(csv) };
      const made = await at.errands.run("read", { document: view.document, file, how, signed: { at: when, who } }, at);
      return { read: made, revision: (await record(d, await openJob(d, said.job ?? ""), made.entries, [made.file])).revision };
    });
    return { plan, done, stepped, csv, read, revision };
  },
});
