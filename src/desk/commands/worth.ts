import { z } from "zod";
import { worthOf } from "../../job/rollups/worth/worth";
import { bad, orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { openJob } from "../actions";
import { atChassis, declare, field, flag, job } from "../declare";

/** A request says it in words. */
const yes = z.union([z.boolean(), z.stringbool()]).default(false);
/** Minutes as typed: bare, or a time with its unit. */
function minutesOf(said: string): number | undefined {
  if (said === "") return undefined;
  const time = parseQuantity(/^[\d.]+$/.test(said) ? `${said} min` : said, "time", "--minutes");
  return time.ok && time.value.value > 0
    ? time.value.value / 60
    : orThrow(bad("--minutes", "bad-time", said, "how long you have, such as 30 or 2 h"));
}

export const worth = declare({
  name: "worth",
  says: "what is worth doing now: safety first, then each free choice, its cost and how much doubt it removes",
  example: 'fettle worth "Kitchen set" --minutes 30 --closed',
  records: false,
  takes: z.object({
    job: job(),
    minutes: field(z.string().max(100).default(""), "--minutes <time>", "how long you have, such as 30 or 2 h"),
    closed: field(yes, "--closed", "the case is closed and stays closed", { given: true, unsaid: false }),
    warm: field(yes, "--warm", "the set is on and warm", { given: true, unsaid: false }),
  }),
  here: z.object({ all: flag("--all", "every free choice"), json: flag("--json", "for programs") }),
  act: ({ job: name, minutes, closed, warm }, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, name);
      return worthOf(view, d.stamp.at, { minutes: minutesOf(minutes), closed: closed || undefined, warm: warm || undefined });
    }),
  routes: [{ method: "GET", may: "bench", path: "/api/jobs/:name/worth", joined: atChassis, gives: (worth) => ({ json: { worth } }) }],
});
