import { z } from "zod";
import { readingStates } from "../../job/format";
import { inARow, inputOf, type ResponsePoint } from "../../readings/sound/response";
import { ToneSteps } from "../../readings/sound/tone-steps";
import { Welch } from "../../readings/sound/welch";
import { avcStates, held } from "../../readings/stepped/plan";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, fileSchema, flag, type LongFile, longFileSchema } from "../declare";
import type { Accompanied } from "../errand";
import { channelField, clockField, deviceField, hear, soundFile } from "../hear";
import { record } from "../record";
import {
  audioResolutionHz,
  audioTold,
  bfoTold,
  generatorTold,
  levelsIn,
  ofStrip,
  type ResponseTold,
  responseCsv,
  responseIn,
  responseWays,
} from "../response";
import { audioKept, audioReading } from "../response-entries";
import { bfoSaid, generatorSaid, needed } from "../strip-said";

const takes = z.object({
  file: soundFile(),
  by: field(
    z.enum(responseWays),
    "--by <way>",
    "loop-back: the sound device alone; audio: test noise led into the audio stages; envelope: the set's noise, AM; bfo: its noise, BFO on; generator: stepped, fixed modulation",
  ),
  device: deviceField(),
  audio: field(longFileSchema.optional(), "--audio <recording>", "for bfo: the audio response, test noise led into the audio stages", {
    file: "in pieces",
  }),
  carrier: flag("--carrier", "for envelope: there was a strong steady carrier while it was recorded"),
  bfo: field(z.string().optional(), "--bfo <frequency>", "for bfo: frequency of the BFO, at the IF"),
  sideband: field(z.enum(["upper", "lower"]).optional(), "--sideband <side>", "for bfo: the side of the BFO that is heard"),
  far: field(z.string().optional(), "--far <dB>", "for bfo: how far down the other side is known to be at least: 40 dB"),
  from: field(z.string().optional(), "--from <frequency>", "for generator: its first frequency, at the IF"),
  to: field(z.string().optional(), "--to <frequency>", "for generator: its last frequency"),
  points: field(z.coerce.number().optional(), "--points <count>", "for generator: how many steps; one slow sweep if not given"),
  takes: field(z.string().optional(), "--takes <time>", "for generator: from the first frequency to the end of the last"),
  begins: field(z.string(), "--begins <time>", "for generator: when it began in the recording", { unsaid: "0 s" }),
  tone: field(z.string(), "--tone <frequency>", "for generator: frequency of its modulation", { unsaid: "400 Hz" }),
  avc: field(z.enum(avcStates).optional(), "--avc <state>", "for generator: what the set's AVC did"),
  levels: field(fileSchema.optional(), "--levels <file>", "for generator, output held: frequency in Hz and its level in dBm at each step", {
    file: true,
  }),
  hold: field(z.enum(held), "--hold <what>", "for generator: level, or output (raised at each step to the same output)", {
    unsaid: "level",
  }),
  narrowest: field(z.string(), "--narrowest <width>", "narrowest width that the set may show", { unsaid: "2 kHz" }),
  within: field(z.string(), "--within <dB>", "how far the generator may be off from one point to the next", { unsaid: "0.2 dB" }),
  channel: channelField(),
  clock: clockField(),
  job: field(z.string().optional(), "--job <job>", "keep it in this job, as a reading"),
  state: field(z.enum(readingStates), "--state <state>", "when it was taken", { unsaid: "as-left" }),
});
type Said = z.output<typeof takes>;

async function noiseOf(file: LongFile, said: Said, resolutionHz: number, at: Accompanied) {
  const { listener, heard } = await hear(
    { file, channel: said.channel, clock: said.clock },
    (head) => new Welch(head.sampleRateHz, resolutionHz),
    at,
  );
  return { heard, spectrum: listener.told };
}
const deviceOf = (said: Said): readonly ResponsePoint[] | undefined => said.device && responseIn(said.device, "--device");

/** Selectivity beside the BFO: refused unless audio response and far sideband are known. */
async function byBfo(said: Said, kept: readonly ResponsePoint[] | undefined, at: Accompanied): Promise<ResponseTold> {
  const { stood, resolutionHz, everyHz } = bfoSaid(said);
  const device = deviceOf(said);
  const measured = said.audio && (await noiseOf(said.audio, said, audioResolutionHz, at));
  const audio = measured && audioTold("audio", measured, { device, onCarrier: false }).points;
  const noise = await noiseOf(said.file, said, resolutionHz, at);
  const through = needed(audio ?? kept, "--audio", "the audio response, measured first: it is divided out");
  // the set's noise came in by the sound device's input alone
  return bfoTold(noise, device ? inARow(through, inputOf(device)) : through, stood, everyHz);
}
async function byGenerator(said: Said, at: Accompanied): Promise<ResponseTold> {
  const by = generatorSaid(said, said.levels && levelsIn(said.levels, "--levels"));
  const { listener, heard } = await hear(said, (head) => new ToneSteps(head.sampleRateHz, by.slots, by.toneHz), at);
  return generatorTold(heard, listener.told, by);
}
async function told(said: Said, kept: readonly ResponsePoint[] | undefined, at: Accompanied): Promise<ResponseTold> {
  if (said.by === "bfo") return byBfo(said, kept, at);
  if (said.by === "generator") return byGenerator(said, at);
  const noise = await noiseOf(said.file, said, audioResolutionHz, at);
  return audioTold(said.by, noise, { device: deviceOf(said), onCarrier: said.carrier });
}

export const response = declare({
  name: "response",
  says: "measure what a set passes by its sound: audio response, selectivity, and the sound device's own response",
  example: "fettle response hiss.wav --by audio --device loop.csv",
  records: true,
  takes,
  here: z.object({
    json: flag("--json", "for programs: every point, Hz and dB"),
    output: field(z.string().optional(), "-o, --output <file>", "write its points to this file, as a sweep"),
    replace: flag("--replace", "replace the file if it exists"),
  }),
  act: async (said, at) => {
    const { job } = said;
    const view = job === undefined ? undefined : await at.desk((d) => openJob(d, job));
    const response = await told(said, view && audioKept(view), at);
    const csv = responseCsv(response);
    if (response.points.length < 5)
      throw new InputError([
        { path: said.file.name, code: "too-little", read: `${response.points.length} points`, expected: "at least 5 above the noise" },
      ]);
    if (!view || job === undefined || said.by === "loop-back") return { response, csv, kept: undefined };
    return at.desk(async (d) => {
      if (!ofStrip(said.by)) {
        const reading = audioReading(view, response, said.state, d.stamp);
        await record(d, view, [{ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "reading", reading }]);
        return { response, csv, kept: { reading, fit: undefined } };
      }
      const { at: when, who } = d.stamp;
      const file = { name: `${said.file.name.replace(/\.\w+$/, "")} response.csv`, bytes: new TextEncoder().encode(csv) };
      const how = { as: "if-sweep", state: said.state } as const;
      const made = await at.errands.run("read", { document: view.document, file, how, signed: { at: when, who } }, at);
      await record(d, view, made.entries, [made.file]);
      return { response, csv, kept: { reading: made.reading, fit: made.fit } };
    });
  },
});
