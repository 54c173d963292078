import { z } from "zod";
import { heeded, setFigures } from "../../ask/care";
import { humSays } from "../../infer/hum/says";
import { readingStates } from "../../job/format";
import { benchOf } from "../../job/view";
import { Hum } from "../../readings/sound/hum";
import { Sidebands, type SidebandsTold } from "../../readings/sound/sidebands";
import { openJob } from "../actions";
import { declare, field, flag, type LongFile, longFileSchema } from "../declare";
import type { Accompanied } from "../errand";
import { channelField, clockField, deviceField, hear, soundFile } from "../hear";
import { hertz } from "../heard";
import { type HumOf, humReading } from "../hum-entries";
import { record } from "../record";
import { inputIn } from "../response";

const another = (usage: string, says: string) => field(longFileSchema.optional(), usage, says, { file: "in pieces" });
const takes = z.object({
  file: soundFile("recording with the volume as usual and no station; WAV or FLAC, a dash for what is piped in"),
  atZero: another("--at-zero <recording>", "the same with the volume at zero"),
  carrier: another(
    "--carrier <recording>",
    "the same tuned to a steady carrier; with the BFO on, the sidebands on its beat are reported as well",
  ),
  full: another("--full <recording>", "the same at full output: what the hum is compared with"),
  mains: field(z.string().optional(), "--mains <frequency>", "mains frequency, if it is near neither 50 nor 60 Hz"),
  supply: field(z.enum(["full-wave", "half-wave"]).optional(), "--supply <kind>", "how the set rectifies; from the job if one is named"),
  channel: channelField(),
  clock: clockField(),
  device: deviceField(),
  job: field(z.string().optional(), "--job <job>", "keep it in this job, as a reading"),
  state: field(z.enum(readingStates), "--state <state>", "when it was taken", { unsaid: "as-left" }),
});
type Said = z.output<typeof takes>;
async function listened(file: LongFile, said: Said, beside: Accompanied): Promise<HumOf> {
  const nominalHz = said.mains === undefined ? undefined : hertz(said.mains, "--mains");
  const { listener, heard } = await hear(
    { file, channel: said.channel, clock: said.clock },
    (head) =>
      new Hum(head.sampleRateHz, {
        secondsCount: head.samplesCount === undefined ? undefined : head.samplesCount / head.sampleRateHz,
        nominalHz,
        device: inputIn(said.device),
      }),
    beside,
  );
  return { heard, told: listener.told };
}

/** On a carrier: the lines, and the sidebands of the mains on its beat with the BFO. */
async function onCarrier(file: LongFile, said: Said, beside: Accompanied): Promise<HumOf> {
  const lines = await listened(file, said, beside);
  const mainsHz = said.mains === undefined ? [50, 60] : [lines.told.nominalHz];
  const { listener } = await hear(
    { file, channel: said.channel, clock: said.clock },
    ({ sampleRateHz }) => {
      const each = mainsHz.map((hz) => new Sidebands(sampleRateHz, hz));
      return { each, push: (x: Float64Array) => each.forEach((s) => void s.push(x)) };
    },
    beside,
  );
  // of two mains the one whose sidebands stand deeper
  const deep = (s: SidebandsTold): number => s.pairs.reduce((most, p) => Math.max(most, p.stands ? p.depth : 0), 0);
  const told = listener.each.map((s) => s.told).filter((s) => s !== undefined);
  return { ...lines, sidebands: told.length > 0 ? told.reduce((a, b) => (deep(b) > deep(a) ? b : a)) : undefined };
}

export const hum = declare({
  name: "hum",
  says: "find the mains in a recording, the level of each of its multiples, and what that pattern says",
  example: "fettle hum normal.wav --at-zero zero.wav",
  records: true,
  takes,
  here: z.object({ json: flag("--json", "for programs: SI numbers") }),
  act: async (said, at) => {
    const normal = await listened(said.file, said, at);
    const more = async (file: LongFile | undefined) => (file === undefined ? undefined : listened(file, said, at));
    const [atZero, full] = [await more(said.atZero), await more(said.full)];
    const carrier = said.carrier && (await onCarrier(said.carrier, said, at));
    const says = (halfWave: boolean | undefined) =>
      humSays({ normal: normal.told, atZero: atZero?.told, carrier: carrier?.told, halfWave });
    const typed = said.supply === undefined ? undefined : said.supply === "half-wave";
    const { job } = said;
    const all = { normal, atZero, carrier, full };
    if (job === undefined) return { ...all, findings: heeded(says(typed), "panel", {}), kept: undefined };
    return at.desk(async (d) => {
      const view = await openJob(d, job);
      const rectifier = view.set.supplies.rectifier;
      const figures = setFigures(benchOf(view, ""));
      const findings = heeded(says(typed ?? (rectifier === undefined ? undefined : /half/.test(rectifier))), "panel", figures);
      const reading = humReading(view, all, said.state, d.stamp);
      const entry = { id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "reading" as const, reading };
      await record(d, view, [entry]);
      return { ...all, findings, kept: reading.id };
    });
  },
});
