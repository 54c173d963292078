import { z } from "zod";
import { InputError } from "../../units/issue";
import { declare, field } from "../declare";

/** A row as it was written down: `1204:5f0c22ab`. */
function notedRow(said: string): { readonly seq: number; readonly hash: string } {
  const m = /^(\d{1,9}):([0-9a-f]{8,64})$/.exec(said);
  if (m) return { seq: Number(m[1]), hash: m[2] };
  const expected = "number and digits of a row as this command prints them, such as 1204:5f0c22ab";
  throw new InputError([{ path: "--noted", code: "not-a-row", read: said, expected }]);
}

export const audit = declare({
  name: "audit",
  says: "print who came in to the shop and what was done there, and check that nothing of it was changed or taken out",
  example: "fettle audit --last 100",
  records: false,
  takes: z.object({
    last: field(z.coerce.number().int().min(0).max(100_000), "--last <count>", "how many rows to print, the latest", { unsaid: "40" }),
    noted: field(z.string().optional(), "--noted <row>", "a row that was written down elsewhere: check that it is still there"),
  }),
  here: z.object({}),
  act: ({ last, noted }, { desk }) =>
    desk(async (d) => {
      const { rows, verify } = d.store.keeping().audit;
      return { found: await verify(noted === undefined ? undefined : notedRow(noted)), rows: await rows(last) };
    }),
});
