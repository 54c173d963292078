import { z } from "zod";
import { openJob } from "../actions";
import { declare, dryRun, field, fileSchema, job, nothing, unseen } from "../declare";
import { mending } from "../mend";
import { pairs } from "../pairs";
import { photographOf } from "../photograph";
import { record } from "../record";
import { unsaidOf } from "../work";

const words = z.string().max(500).default("");
export const mend = declare({
  name: "mend",
  says: "one part out, another in: the record follows, after a list of what must be measured again",
  example: 'fettle mend "Kitchen set" cathode-resistor --at stages.if1 --label R14 --out "330 ohm" --in "68 ohm ±5%" --dry-run',
  records: true,
  takes: z.object({
    job: job(),
    part: field(z.string(), "<part>", "kind of part (fettle part-kinds lists them)"),
    place: field(words, "--at <path>", "where it is, such as stages.if1 or supplies"),
    label: field(words, "--label <name>", "its name on the diagram, such as C14; for a tube its socket"),
    out: field(words, "--out <value>", "the old part as marked: its value or type"),
    outMeasured: field(words, "--out-measured <value>", "the old part as measured out of the set"),
    outRated: field(words, "--out-rated <volts>", "the old part's marked voltage"),
    came: field(words, "--in <value>", "the new part: its value, or its type; leave it out if nothing came in"),
    cameMeasured: field(words, "--in-measured <value>", "the new part as measured before it went in"),
    cameRated: field(words, "--in-rated <volts>", "voltage rating of the new part"),
    dress: field(words, "--dress <text>", "how its leads lie"),
    photo: field(fileSchema.optional(), "--photo <file>", "a photograph of it, JPEG or PNG", { file: true }),
    photoHash: unseen(z.string().optional(), undefined),
    fault: field(words, "--fault <id>", "the fault that it mends (fettle faults lists them)"),
    note: field(words, "--note <text>", "in your words"),
    now: field(
      z.record(z.string(), z.string()).default({}),
      "--now <path=value>",
      "what else it changed in the set's record; same if it stayed (repeat as needed)",
      { words: (typed) => pairs(typed, "--now") },
    ),
    record: dryRun("show what it would make due, record nothing"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const photo = said.photo && photographOf(said.photo, "--photo");
      const plan = mending(
        view,
        {
          part: said.part,
          place: said.place,
          label: said.label,
          out: { is: said.out, measured: said.outMeasured, rated: said.outRated },
          came: { is: said.came, measured: said.cameMeasured, rated: said.cameRated },
          dress: said.dress,
          photo: photo?.hash ?? said.photoHash,
          fault: said.fault,
          note: said.note,
          now: said.now,
        },
        d.stamp,
      );
      const refused = said.record ? unsaidOf(plan) : undefined;
      if (!said.record || refused) return { plan, refused, kept: {} };
      const act = plan.entries.find((e) => e.kind === "work")?.id;
      const { newId, at, who } = d.stamp;
      const kept = photo
        ? [
            {
              id: newId(),
              at,
              who,
              kind: "attachment",
              name: photo.name,
              hash: photo.hash,
              media: photo.media,
              note: plan.title,
              partOf: act,
            },
          ]
        : [];
      const { revision } = await record(d, view, [...plan.entries, ...kept], photo ? [photo] : []);
      return { plan, refused, kept: { revision } };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/mend",
      body: "json",
      gives: ({ plan, refused, kept }) => {
        if (refused) throw refused;
        return { json: { due: plan.due, asks: plan.asks, ...(plan.danger ? { danger: plan.danger } : {}), ...kept } };
      },
    },
  ],
});
