import { z } from "zod";
import { openJob } from "../actions";
import { declare, field, job } from "../declare";
import { ownerLinkDays } from "../shop-said";

export const ownerLink = declare({
  name: "owner-link",
  says: "make a link by which an owner reads the report of one job, with no account; it ends by itself, and can be withdrawn",
  example: 'fettle owner-link "Harbour club set" --days 30',
  records: true,
  takes: z.object({
    job: job(),
    days: field(ownerLinkDays, "--days <count>", "how long it is good", { unsaid: "30" }),
    shop: field(z.string().default(""), "--shop <address>", "the address of the shop's page, to print the link whole", { unsaid: "" }),
  }),
  here: z.object({}),
  act: ({ job: name, days, shop }, { desk }) =>
    desk(async (d) => {
      await openJob(d, name);
      const made = await d.store.keeping().links.make(name, days, d.stamp.who);
      return { ...made, link: `${shop.replace(/\/+$/, "")}/view/${made.secret}` };
    }),
});
