import { z } from "zod";
import { declare, field, nothing, replace } from "../declare";
import { fitDemoCable, makeDemo } from "../demo-job";

export const demo = declare({
  name: "demo",
  says: "do the whole job on the demo set, and say where everything is",
  example: "fettle demo",
  records: true,
  takes: nothing,
  here: z.object({
    folder: field(z.string(), "--folder <folder>", "where to put sweep and report", { unsaid: "fettle-demo" }),
    replace: replace("replace the files of an earlier demo there"),
  }),
  act: (_, { desk }) =>
    desk(async (d) => {
      const { name } = await makeDemo(d);
      await fitDemoCable(d, name);
      return { name };
    }),
  routes: [{ method: "POST", may: "bench", path: "/api/demo", gives: ({ name }) => ({ json: { name } }) }],
});
