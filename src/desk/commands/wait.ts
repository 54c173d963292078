import { z } from "zod";
import type { Entry } from "../../job/document";
import { overdueWaits, waitingFor } from "../../job/sitting";
import { bad, InputError, orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";

const words = z.string().max(500).default("");
/** A day as written, or a time from now such as 4 h. */
function until(said: string, now: string): string | undefined {
  if (said === "") return undefined;
  if (/^\d{4}-\d{2}-\d{2}/.test(said) && !Number.isNaN(Date.parse(said))) return new Date(said).toISOString();
  const [, many, unit] = /^(\d+(?:\.\d+)?)\s*(day|week)s?$/i.exec(said.trim()) ?? [];
  const time = parseQuantity(many === undefined ? said : `${Number(many) * (/^w/i.test(unit) ? 168 : 24)} h`, "time", "--until");
  if (!time.ok || !(time.value.value > 0))
    throw orThrow(bad("--until", "bad-time", said, "a day such as 2026-12-03, or a time from now such as 4 h or 3 days"));
  return new Date(Date.parse(now) + 1000 * time.value.value).toISOString();
}

export const wait = declare({
  name: "wait",
  says: "record what you are waiting for: a part on order, a warm-up, a soak; --over ends it",
  example: 'fettle wait "Kitchen set" "20 µF, 450 V from the post" --until 2027-01-12 --about 05',
  records: true,
  takes: z.object({
    job: job(),
    for: field(z.string().min(1, "what is waited for").max(500), "<what>", "what is waited for"),
    until: field(words, "--until <when>", "a day, or a time from now such as 4 h or 3 days"),
    about: field(words, "--about <step>", "the step or fault that waits for it"),
    over: field(z.boolean().default(false), "--over", "it has come: stop waiting for it", { given: true, unsaid: false }),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const { at, who, newId } = d.stamp;
      // what has had its time is ended as well: it came, or is not wanted any more
      const waits = [...overdueWaits(view, at), ...waitingFor(view, at)];
      const ended = said.over ? waits.filter((w) => w.for.toLowerCase().includes(said.for.toLowerCase())) : [];
      if (said.over && ended.length !== 1)
        throw new InputError([
          {
            path: "what",
            code: "not-waited-for",
            read: said.for,
            expected: waits.length > 0 ? `one of: ${waits.map((w) => w.for).join("; ")}` : "something being waited for: nothing is",
          },
        ]);
      const when = until(said.until, at);
      const entry: Entry = {
        id: newId(),
        at,
        who,
        kind: "waiting",
        for: ended[0]?.for ?? said.for,
        about: said.about,
        ...(when ? { until: when } : {}),
        ...(ended[0] ? { ends: ended[0].id } : {}),
      };
      return { ...(await record(d, view, [entry])), for: entry.for, until: when };
    }),
  routes: [{ method: "POST", may: "bench", path: "/api/jobs/:name/wait", body: "json", gives: ({ revision }) => ({ json: { revision } }) }],
});
