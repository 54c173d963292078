import { z } from "zod";
import { thermalStates } from "../../job/format";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { atChassis, declare, dryRun, field, job, nothing } from "../declare";
import { beatRow } from "../read-in/beat-row";
import { record } from "../record";

export const zeroBeats = declare({
  name: "zero-beats",
  says: "record a row of zero beats: only what the pointer says is typed, the marks follow from the markers",
  example: 'fettle zero-beats "Harbour club set" "4.049 5.088 - 7.262" --band c --every "1 MHz"',
  records: true,
  takes: z.object({
    job: job(),
    readings: field(z.string().max(2000), "<readings>", "what the pointer says, in order; a dash leaves a mark out"),
    band: field(z.string(), "--band <id>", "band of the set"),
    every: field(z.string().default(""), "--every <frequency>", "how far the marks are apart; a scale marked in frequency tells it"),
    from: field(z.string().default(""), "--from <frequency>", "the first mark; a scale marked in frequency tells it"),
    setPoint: field(z.string().default(""), "--set-point <text>", "main dial setting for the bandspread scale"),
    approach: field(
      z.enum(["up", "down", "not-said"]).default("not-said"),
      "--approach <side>",
      "which way the dial was turned to reach them",
    ),
    thermal: field(z.enum(thermalStates).optional(), "--thermal <state>", "thermal state of the set; as the sitting has it, else warm"),
    record: dryRun("show which mark each reading is taken for, record nothing"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const { entry, beats, everyHz } = orThrow(beatRow(view, said, d.stamp));
      return { beats, everyHz, ...(said.record ? { revision: (await record(d, view, [entry])).revision } : {}) };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/zero-beats",
      joined: atChassis,
      body: "json",
      gives: ({ beats, everyHz, revision }) => ({ json: { beats, everyHz, revision } }),
    },
  ],
});
