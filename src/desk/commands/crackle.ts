import { z } from "zod";
import { heeded } from "../../ask/care";
import { crackleSays } from "../../infer/crackle/says";
import { readingStates } from "../../job/format";
import { Crackle } from "../../readings/sound/crackle";
import { openJob } from "../actions";
import { type CrackleOf, crackleReading } from "../crackle-entries";
import { declare, field, flag, type LongFile, longFileSchema } from "../declare";
import { channelField, hear, soundFile } from "../hear";
import { record } from "../record";

const another = (usage: string, says: string) => field(longFileSchema.optional(), usage, says, { file: "in pieces" });
const takes = z.object({
  file: soundFile(),
  without: another("--without <recording>", "the same with the antenna off and its terminals shorted"),
  atZero: another("--at-zero <recording>", "the same with the volume at zero"),
  channel: channelField(),
  job: field(z.string().optional(), "--job <job>", "keep it in this job, as a reading"),
  state: field(z.enum(readingStates), "--state <state>", "when it was taken", { unsaid: "as-left" }),
});

export const crackle = declare({
  name: "crackle",
  says: "count and time bursts and level jumps in a recording, by band, and say what that pattern suggests and what it can't",
  example: "fettle crackle normal.wav --without antenna-off.wav",
  records: true,
  takes,
  here: z.object({ json: flag("--json", "for programs: SI numbers and dB") }),
  act: async (said, at) => {
    const listened = async (file: LongFile): Promise<CrackleOf> => {
      const { listener, heard } = await hear({ file, channel: said.channel }, (head) => new Crackle(head.sampleRateHz), at);
      return { heard, told: listener.told };
    };
    const normal = await listened(said.file);
    const without = said.without && (await listened(said.without));
    const atZero = said.atZero && (await listened(said.atZero));
    const findings = heeded(crackleSays({ normal: normal.told, without: without?.told, atZero: atZero?.told }), "panel", {});
    const { job } = said;
    if (job === undefined) return { normal, without, atZero, findings, kept: undefined };
    return at.desk(async (d) => {
      const view = await openJob(d, job);
      const reading = crackleReading(view, { normal, without, atZero }, said.state, d.stamp);
      await record(d, view, [{ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "reading", reading }]);
      return { normal, without, atZero, findings, kept: reading.id };
    });
  },
});
