import { z } from "zod";
import { declaredAt } from "../../job/slots";
import { counter, voltmeter } from "../../readings/scpi/commands";
import { leastReadings, meanOf } from "../../readings/stepped/plan";
import { InputError, orThrow } from "../../units/issue";
import { printValue } from "../../units/print";
import { openJob } from "../actions";
import { assignment } from "../assignment";
import { addressField, commandsField, onNetwork } from "../bench-leads";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";
import { whyNotEarthed } from "../stepped-plan";

const readingsCount = 10;
/** What each kind of quantity is read by. */
const kinds = {
  dc: { dimension: "voltage", unit: "V", by: "voltmeter" },
  ac: { dimension: "voltage", unit: "V", by: "voltmeter" },
  frequency: { dimension: "frequency", unit: "Hz", by: "counter" },
} as const;

const takes = z.object({
  job: job(),
  path: field(z.string(), "<path>", "where the value belongs in the set (fettle show lists the paths)"),
  at: addressField("<address>", "where the voltmeter or counter is"),
  what: field(z.enum(["dc", "ac", "frequency"]), "--what <quantity>", "what it reads"),
  accuracy: field(z.string(), "--accuracy <percent>", "accuracy of the instrument, by its data sheet or its last check, in per cent", {
    unsaid: "1",
  }),
  commands: commandsField("--commands <file>", "instrument"),
  record: field(z.enum(["yes", "no"]), "--dry-run", "show what would be recorded, record nothing", { given: "no", unsaid: "yes" }),
});

/** Several readings of one value as one quantity, as a person would type it. */
async function readOff(
  said: z.output<typeof takes>,
): Promise<{ readonly text: string; readonly mean: number; readonly u: number; readonly by: string }> {
  const kind = kinds[said.what];
  const percent = Number(said.accuracy);
  if (!(percent >= 0 && percent <= 50))
    throw new InputError([{ path: "--accuracy", code: "out-of-range", read: said.accuracy, expected: "0 to 50 per cent" }]);
  const where = { address: said.at, path: "<address>", commands: said.commands };
  const meter = kind.by === "counter" ? onNetwork(counter, "counter", where) : onNetwork(voltmeter, "voltmeter", where);
  const question =
    said.what === "frequency" && "frequency" in meter.commands
      ? meter.commands.frequency
      : "acVolts" in meter.commands
        ? meter.commands[said.what === "dc" ? "dcVolts" : "acVolts"]
        : "";
  try {
    await meter.connect();
    const all: number[] = [];
    while (all.length < Math.max(leastReadings, readingsCount)) {
      const r = await meter.number(question);
      if (r.kind !== "number")
        throw new InputError([
          {
            path: meter.name,
            code: r.kind,
            read: r.kind === "overload" ? "overload" : "no reading",
            expected: "a reading: check its range and its leads",
          },
        ]);
      all.push(r.value);
    }
    const { mean, u } = meanOf(all);
    // an accuracy is a bound: rectangular
    const whole = Math.hypot(u, (Math.abs(mean) * percent) / 100 / Math.sqrt(3));
    return { text: `${mean} ${kind.unit} u ${whole} ${kind.unit}`, mean, u: whole, by: meter.identity };
  } finally {
    await meter.close();
  }
}

export const fromInstrument = declare({
  name: "from-instrument",
  says: "take a value off a voltmeter or counter on the network and record it",
  example: 'fettle from-instrument "Kitchen set" line.today 192.168.1.31 --what ac --accuracy 0.5',
  records: true,
  takes,
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const { dimension } = kinds[said.what];
      // the line is read at the outlet; all else at the chassis
      const whyNot = said.path.startsWith("line.") ? undefined : whyNotEarthed(view.chassis);
      if (whyNot) throw new InputError([{ path: "chassis", code: "may-be-live", read: view.chassis, expected: whyNot }]);
      const declared = declaredAt(said.path);
      if (declared?.kind === "quantity" && declared.dimension !== dimension)
        throw new InputError([
          {
            path: said.path,
            code: "wrong-kind",
            read: said.what,
            expected: `an instrument that reads its kind of quantity: ${declared.dimension}`,
          },
        ]);
      const read = await readOff(said);
      const how = { origin: "measured", why: `${readingsCount} readings off ${read.by} by its socket` } as const;
      const entry = orThrow(assignment(view, said.path, read.text, how, d.stamp));
      if (said.record === "yes") await record(d, view, [entry]);
      return { says: printValue(read.mean, dimension, read.u), by: read.by };
    }),
});
