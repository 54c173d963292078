import { z } from "zod";
import { InputError } from "../../units/issue";
import { noJob, noticeUnreadable } from "../actions";
import { atChassis, declare, flag, job } from "../declare";

export const show = declare({
  name: "show",
  says: "show a whole job: set, steps, readings, work",
  example: 'fettle show "Harbour club set"',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ entries: flag("--entries", "everything recorded, in order, with the ids to use in a correction") }),
  act: ({ job: name }, { desk }) =>
    desk(async (d) => {
      const found = await d.store.load(name);
      if (found) noticeUnreadable(d, name, found.unreadable);
      return found ?? (await noJob(d, name));
    }),
  routes: [
    {
      method: "GET",
      may: "bench",
      path: "/api/jobs/:name",
      joined: atChassis,
      gives: (found) => (found instanceof InputError ? { json: { issues: found.issues }, status: 404 } : { json: found, stands: true }),
    },
  ],
});
