import { z } from "zod";
import { declare, field } from "../declare";

export const ownerLinks = declare({
  name: "owner-links",
  says: "list the links by which owners read reports; withdraw one",
  example: "fettle owner-links --withdraw 5f0c22ab",
  records: true,
  takes: z.object({ withdraw: field(z.string().optional(), "--withdraw <id>", "id of the link that is to end now") }),
  here: z.object({}),
  act: ({ withdraw }, { desk }) =>
    desk(async (d) => {
      const { links } = d.store.keeping();
      if (withdraw !== undefined) await links.withdraw(withdraw, d.stamp.who);
      return links.list();
    }),
});
