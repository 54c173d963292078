import { z } from "zod";
import { readingStates } from "../../job/format";
import type { Range } from "../../readings/sound/follow";
import { BandLevel, During } from "../../readings/sound/noise-level";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, flag, type LongFile, longFileSchema } from "../declare";
import type { Accompanied } from "../errand";
import { channelField, deviceField, hear, soundFile } from "../hear";
import { hertz } from "../heard";
import { mayRise, type NoiseOf, noiseEntries, noiseSays, spansOf } from "../noise-entries";
import { record } from "../record";
import { inputIn } from "../response";

const takes = z.object({
  file: soundFile("recording: modulation on, or the antenna connected; WAV or FLAC, a dash for what is piped in"),
  off: field(longFileSchema.optional(), "--off <recording>", "the same with the modulation off and the carrier on: gives (S+N)/N", {
    file: "in pieces",
  }),
  spans: field(z.string().optional(), "--spans <seconds>", "both in one recording: seconds with the modulation on, then off: 0-10 12-22"),
  dummy: field(
    longFileSchema.optional(),
    "--dummy <recording>",
    "the same with a dummy load for the antenna: gives the rise of the noise",
    {
      file: "in pieces",
    },
  ),
  gain: field(z.enum(["manual", "automatic"]).optional(), "--gain <how>", "how the gain was set; a rise wants manual"),
  avc: field(z.enum(["off", "on", "held"]).optional(), "--avc <how>", "how AVC was; a rise wants it off"),
  from: field(z.string(), "--from <frequency>", "lowest frequency that counts", { unsaid: "50 Hz" }),
  to: field(z.string(), "--to <frequency>", "highest frequency that counts", { unsaid: "5 kHz" }),
  channel: channelField(),
  device: deviceField(),
  job: field(z.string().optional(), "--job <job>", "keep it in this job, as a reading"),
  state: field(z.enum(readingStates), "--state <state>", "when it was taken", { unsaid: "as-left" }),
  level: field(z.string().optional(), "--level <volts>", "the generator's level: gives the sheet on sensitivity its level"),
  mode: field(z.enum(["AM", "CW or SSB"]).optional(), "--mode <mode>", "what the generator sends; AM if not given"),
  depth: field(z.string().optional(), "--depth <percent>", "depth of its modulation: 30 %"),
});
type Said = z.output<typeof takes>;

async function listened(file: LongFile, said: Said, beside: Accompanied): Promise<NoiseOf> {
  const device = inputIn(said.device);
  const how = { file, channel: said.channel };
  const { listener, heard } = await hear(how, (head) => new BandLevel(head.sampleRateHz, bandOf(said), device), beside);
  return { heard, told: listener.told };
}
/** Both stretches of one recording, heard in one go. */
async function bothSpans(said: Said, text: string, beside: Accompanied): Promise<{ readonly first: NoiseOf; readonly off: NoiseOf }> {
  const [on, off] = spansOf(text);
  const device = inputIn(said.device);
  const { listener, heard } = await hear(
    said,
    ({ sampleRateHz: rate }) => {
      const [a, b] = [new BandLevel(rate, bandOf(said), device), new BandLevel(rate, bandOf(said), device)];
      const each = [new During(a, rate, on), new During(b, rate, off)];
      return { a, b, push: (x: Float64Array) => each.forEach((l) => void l.push(x)) };
    },
    beside,
  );
  const [first, second] = [listener.a.told, listener.b.told];
  if (!(Math.min(first.secondsCount, second.secondsCount) > 0.5))
    throw new InputError([
      { path: "--spans", code: "too-short", read: text, expected: "two stretches of half a second at least, within the recording" },
    ]);
  return { first: { heard, told: first }, off: { heard, told: second } };
}
function bandOf(said: Said): Range {
  const band = { fromHz: hertz(said.from, "--from"), toHz: hertz(said.to, "--to") };
  if (!(band.fromHz < band.toHz))
    throw new InputError([{ path: "--to", code: "crossed", read: said.to, expected: `a frequency above ${said.from}` }]);
  return band;
}

export const noise = declare({
  name: "noise",
  says: "measure signal and noise in recordings: (S+N)/N, SINAD, the noise floor, and whether the set hears the band",
  example: "fettle noise modulated.wav --off carrier-alone.wav",
  records: true,
  takes,
  here: z.object({ json: flag("--json", "for programs: SI numbers and dB") }),
  act: async (said, at) => {
    if (said.dummy) mayRise(said);
    const { off, dummy, spans, job } = said;
    if (off && spans !== undefined)
      throw new InputError([{ path: "--spans", code: "twice", read: spans, expected: "one of --off and --spans" }]);
    const both = spans === undefined ? undefined : await bothSpans(said, spans, at);
    const says = noiseSays({
      first: both?.first ?? (await listened(said.file, said, at)),
      off: both?.off ?? (off && (await listened(off, said, at))),
      dummy: dummy && (await listened(dummy, said, at)),
    });
    if (job === undefined) return { says, kept: undefined };
    return at.desk(async (d) => {
      const view = await openJob(d, job);
      const entries = noiseEntries(view, { says, said }, d.stamp);
      await record(d, view, entries);
      return { says, kept: entries.length };
    });
  },
});
