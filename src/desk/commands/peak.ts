import { z } from "zod";
import { PeakWatch } from "../../readings/sound/peak";
import { declare, field, flag } from "../declare";
import { channelField, hear, soundFile } from "../hear";
import { hertz } from "../heard";
import { around } from "../note-entries";

const takes = z.object({
  file: soundFile(),
  of: field(z.enum(["tone", "whole"]), "--of <what>", "tone: the strongest steady tone, where there is one; whole: the whole sound", {
    unsaid: "tone",
  }),
  near: field(z.string().optional(), "--near <frequency>", "look for the tone near this"),
  channel: channelField(),
});

export const peak = declare({
  name: "peak",
  says: "find the peaks a recording's level passes over: for a can or a trimmer that was turned while it ran",
  example: "fettle peak turning-the-slug.wav",
  records: false,
  takes,
  here: z.object({ json: flag("--json", "for programs: the level ten times a second, SI numbers and dB") }),
  act: async (said, at) => {
    const range = said.near === undefined ? undefined : around(hertz(said.near, "--near"));
    const { listener, heard } = await hear(said, (head) => new PeakWatch(head.sampleRateHz, { of: said.of, range }), at);
    return { told: listener.told, heard };
  },
});
