import { z } from "zod";
import { formById, forms } from "../../job/forms";
import { InputError } from "../../units/issue";
import { idsOf, oneOf } from "../../units/nearest";
import { openJob } from "../actions";
import { declare, field, job, output, replace } from "../declare";

export const cards = declare({
  name: "cards",
  says: "print the record cards as PDF, filled in or blank for pencil",
  example: 'fettle cards "Harbour club set" --blank -o cards.pdf',
  records: false,
  takes: z.object({
    job: job(),
    card: field(z.string().optional(), "--card <id>", "one card only"),
    blank: field(z.string().optional(), "--blank", "leave them empty", { given: "yes" }),
  }),
  here: z.object({ output: output(), replace: replace() }),
  act: async ({ job: name, card, blank }, at) => {
    if (card !== undefined && !formById(card))
      throw new InputError([
        {
          path: "--card",
          code: "no-card",
          read: card,
          expected: oneOf(card, idsOf(forms)),
        },
      ]);
    const { document } = await at.desk((d) => openJob(d, name));
    return at.errands.run("cards", { document, card, blank: blank === "yes" }, at);
  },
  routes: [{ method: "GET", may: "bench", path: "/api/jobs/:name/cards.pdf", gives: (paper) => ({ paper, type: "application/pdf" }) }],
});
