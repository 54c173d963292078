import { z } from "zod";
import { readingStates } from "../../job/format";
import { highestHz, Note } from "../../readings/sound/note";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, flag } from "../declare";
import { channelField, clockField, hear, soundFile } from "../hear";
import { hertz } from "../heard";
import { noteEntries, noteQuestions, noteTellings } from "../note-entries";
import { record } from "../record";

const takes = z.object({
  file: soundFile(),
  near: field(z.string().optional(), "--near <frequency>", "look for the tone near this; else the strongest is followed"),
  from: field(z.string(), "--from <frequency>", "lowest frequency that is looked at", { unsaid: "20 Hz" }),
  to: field(z.string(), "--to <frequency>", "highest frequency that is looked at", { unsaid: `${highestHz} Hz` }),
  against: field(z.string().optional(), "--against <frequency>", "a second tone near this: how far the two are apart"),
  every: field(
    z.string().optional(),
    "--every <time>",
    "time from one reading to the next; 1 s, or less for a short recording, if not given",
  ),
  channel: channelField(),
  clock: clockField(),
  standard: field(
    z.string().optional(),
    "--standard <frequency>",
    "the tone is a standard of exactly this frequency: measures the sound device's clock",
  ),
  carrier: field(z.string().optional(), "--carrier <frequency>", "carrier that the tone is a beat with: shows it as parts of the carrier"),
  job: field(z.string().optional(), "--job <job>", "keep the track in this job, as a reading"),
  for: field(z.enum(noteQuestions).optional(), "--for <question>", "what it is measured for: its input is kept as well"),
  state: field(z.enum(readingStates), "--state <state>", "when it was taken", { unsaid: "as-left" }),
  sideband: field(z.enum(["upper", "lower"]).optional(), "--sideband <side>", "for drift: the side that the set listens on"),
  after: field(z.string(), "--after <time>", "for drift: time since switching on at which the recording begins", { unsaid: "0 s" }),
});

export const note = declare({
  name: "note",
  says: "follow the strongest tone of a recording: its frequency against time, its drift, a slow beat",
  example: "fettle note beat.wav --carrier 10MHz",
  records: true,
  takes,
  here: z.object({ json: flag("--json", "for programs: every reading, SI numbers") }),
  act: async (said, at) => {
    const how = noteTellings(said);
    if (said.for && said.job === undefined)
      throw new InputError([{ path: "--job", code: "not-said", read: "", expected: `the job whose ${said.for} it is for` }]);
    const { listener, heard } = await hear(
      said,
      (head) => {
        const seconds = head.samplesCount === undefined ? Number.POSITIVE_INFINITY : head.samplesCount / head.sampleRateHz;
        return new Note(head.sampleRateHz, {
          everyS: how.everyS ?? Math.max(0.05, Math.min(1, seconds / 20)),
          range: how.range,
          against: how.against,
        });
      },
      at,
    );
    const { told } = listener;
    const carrierHz = said.carrier === undefined ? undefined : hertz(said.carrier, "--carrier");
    const standardHz = said.standard === undefined ? undefined : hertz(said.standard, "--standard");
    const { job } = said;
    const kept =
      job === undefined
        ? undefined
        : await at.desk(async (d) => {
            const view = await openJob(d, job);
            const { entries, says } = noteEntries(view, { told, heard, said, carrierHz }, d.stamp);
            return { says, revision: (await record(d, view, entries)).revision };
          });
    // the note of a drift log is no beat: its carrier says where the set was tuned
    const beatsWithHz = said.for === "drift" ? undefined : carrierHz;
    return { told, heard, beatsWithHz, standardHz, kept };
  },
});
