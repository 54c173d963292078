import { z } from "zod";
import type { Entry } from "../../job/document";
import { hashOfBytes } from "../../store/archive";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, fileSchema, job, nothing } from "../declare";
import { hertz } from "../heard";
import { liveOf, liveSaid, peakReading } from "../live-heard";
import { noteEntries } from "../note-entries";
import { record } from "../record";
import { inFields } from "../taken";

/** The page's way to keep what it heard of a live input: the track, and the sound with it where wanted. */
export const heard = declare({
  name: "heard",
  says: "keep what was heard of a live input as a reading",
  records: true,
  takes: z.object({ job: job(), heard: z.string(), file: fileSchema.optional(), ...liveSaid }),
  here: nothing,
  act: (said, { desk }) => {
    const live = liveOf(said.heard);
    const { name } = live.heard;
    if (!live.note && !live.peak)
      throw new InputError([{ path: "heard", code: "bad-request", read: "neither", expected: "a note's track or a level's" }]);
    const file = said.file && { hash: hashOfBytes(said.file.bytes), name, media: "audio/wav", bytes: said.file.bytes };
    return desk(async (d) => {
      const view = await openJob(d, said.job);
      const carrierHz = said.carrier === undefined ? undefined : hertz(said.carrier, "carrier");
      const keep = live.note && { told: live.note, heard: live.heard, said, carrierHz, sound: file?.hash };
      const kept = keep && inFields(() => noteEntries(view, keep, d.stamp));
      const reading = peakReading(view, live, { state: said.state, sound: file?.hash ?? "" }, d.stamp);
      const level: Entry = { id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "reading", reading };
      const { revision } = await record(d, view, kept?.entries ?? [level], file ? [file] : []);
      return { revision, says: kept?.says ?? [`the level, as reading ${reading.id}`] };
    });
  },
  routes: [{ method: "POST", may: "bench", path: "/api/jobs/:name/heard", body: "upload", gives: (kept) => ({ json: kept }) }],
});
