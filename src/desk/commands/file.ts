import { z } from "zod";
import { atChassis, declare, job, nothing } from "../declare";
import { photographs } from "../photograph";

/** The page's way to show a photograph; any other file of a job is only handed over. */
export const file = declare({
  name: "file",
  says: "a file of a job",
  records: false,
  takes: z.object({ job: job(), hash: z.string() }),
  here: nothing,
  act: (said, { desk }) => desk((d) => d.store.file(said.job, said.hash)),
  routes: [
    {
      method: "GET",
      may: "bench",
      path: "/api/jobs/:name/files/:hash",
      joined: atChassis,
      gives: (found, { hash }) => {
        if (!found)
          return { json: { issues: [{ path: "file", code: "no-file", read: hash, expected: "a file of this job" }] }, status: 404 };
        const shown = photographs.includes(found.media);
        return { paper: found.bytes, type: shown ? found.media : "application/octet-stream", ...(shown ? {} : { file: "" }) };
      },
    },
  ],
});
