import { z } from "zod";
import { heeded } from "../../ask/care";
import { crackleSays } from "../../infer/crackle/says";
import { Crackle, type CrackleTold } from "../../readings/sound/crackle";
import { declare, field, flag, type LongFile, longFileSchema } from "../declare";
import { channelField, hear, soundFile } from "../hear";
import type { Heard } from "../heard";

const another = (usage: string, says: string) => field(longFileSchema.optional(), usage, says, { file: "in pieces" });
const takes = z.object({
  file: soundFile(),
  without: another("--without <recording>", "the same with the antenna off and its terminals shorted"),
  atZero: another("--at-zero <recording>", "the same with the volume at zero"),
  channel: channelField(),
});
/** One recording's events. */
export interface CrackleOf {
  readonly heard: Heard;
  readonly told: CrackleTold;
}

export const crackle = declare({
  name: "crackle",
  says: "count and time bursts and level jumps in a recording, by band, and say what that pattern suggests and what it can't",
  example: "fettle crackle normal.wav --without antenna-off.wav",
  records: false,
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
    return { normal, without, atZero, findings };
  },
});
