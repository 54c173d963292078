import { z } from "zod";
import type { Entry } from "../../job/document";
import { faultNamed, noticeOf } from "../../job/faults/faults";
import { ofKind } from "../../job/place-in";
import { isPlace, placesOf } from "../../job/places";
import { InputError, orThrow } from "../../units/issue";
import { oneOf } from "../../units/nearest";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";

/** Acts that a person says; mending is an act of its own, with its part. */
const acts = ["notice", "trace", "cause", "prove", "close", "leave", "open-again"] as const;
const words = z.string().max(2000).default("");

const takes = z.object({
  job: job(),
  does: field(z.enum(acts), "<act>", "what happened to it"),
  fault: field(words, "[fault]", "its id, or its first characters (fettle faults lists them)"),
  place: field(
    z.string().max(200).default("set"),
    "--at <path>",
    "where it was noticed, such as stages.if1 or supplies; set is the whole of it",
    {
      unsaid: "set",
    },
  ),
  words: field(words, "--words <text>", "in your words: the symptom, what you tried, the reason"),
  cause: field(words, "--cause <text>", "what it was"),
});
type Said = z.output<typeof takes>;
type View = Awaited<ReturnType<typeof openJob>>;
type Head = () => { readonly id: string; readonly at: string; readonly who: string };

function noticed(view: View, said: Said, head: Head): Entry[] {
  const shown = said.fault === "" ? undefined : orThrow(faultNamed(view, said.fault));
  if (shown && !shown.unrecorded)
    throw new InputError([
      {
        path: "act",
        code: "noticed-already",
        read: "notice",
        expected: "trace, to add what you see of a fault that is on record, or notice without its id for another one",
      },
    ]);
  // noticing what a reading shows already rests on that reading
  if (shown) return noticeOf(shown, head, said.words);
  if (said.words.trim() === "")
    throw new InputError([{ path: "--words", code: "nothing-said", read: "", expected: "what you see, hear or smell" }]);
  if (!isPlace(view.set, said.place))
    throw new InputError([{ path: "--at", code: "no-place", read: said.place, expected: oneOf(said.place, placesOf(view.set)) }]);
  const known = new Set(ofKind(view.document.entries, "fault").map((e) => e.fault));
  const own = head();
  // the number for people, the rest so that two hands never make the same
  const id = `f${known.size + 1}-${own.id.slice(0, 4)}`;
  return [{ ...own, kind: "fault", fault: id, does: "notice", place: said.place, words: said.words, rests: [] }];
}
function acted(view: View, said: Said, head: Head): Entry[] {
  const f = orThrow(faultNamed(view, said.fault));
  const { does, words: text, cause } = said;
  const rests = [...new Set(f.signs.map((s) => s.entry))].filter((e) => e !== "");
  return [
    ...noticeOf(f, head),
    { ...head(), kind: "fault", fault: f.id, does, place: f.place, words: text, ...(cause ? { cause } : {}), rests },
  ];
}

export const fault = declare({
  name: "fault",
  says: "record what happens to a fault: noticed, traced, cause found, proved mended, closed, or left with a reason",
  example: 'fettle fault "Kitchen set" notice --at stages.if1 --words "hum rises with the gain control"',
  records: true,
  takes,
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const head = () => ({ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who });
      const entries = said.does === "notice" ? noticed(view, said, head) : acted(view, said, head);
      const { revision } = await record(d, view, entries);
      return { revision, id: entries[0].kind === "fault" ? entries[0].fault : "", does: said.does };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/fault",
      body: "json",
      gives: ({ revision, id }) => ({ json: { revision, id } }),
    },
  ],
});
