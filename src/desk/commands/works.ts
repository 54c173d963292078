import { z } from "zod";
import { edgesOf, workKindById, workKinds } from "../../job/ripple";
import { stepById } from "../../job/steps";
import { InputError } from "../../units/issue";
import { idsOf, oneOf } from "../../units/nearest";
import { declare, field, nothing } from "../declare";

/** What a kind of work makes due again, what for, and why. */
function made(kind: string): readonly (readonly string[])[] {
  if (!workKindById(kind))
    throw new InputError([
      {
        path: "kind",
        code: "unknown-work",
        read: kind,
        expected: oneOf(kind, idsOf(workKinds)),
      },
    ]);
  return edgesOf(kind).map((e) => [e.target, e.makes, e.task ?? stepById(e.target)?.title ?? "", e.why]);
}

export const works = declare({
  name: "works",
  says: "list the kinds of work, or what one of them makes due again, and why",
  example: "fettle works cable-fitted",
  records: false,
  takes: z.object({ kind: field(z.string().optional(), "[kind]", "kind of work") }),
  here: nothing,
  act: async ({ kind }) => (kind === undefined ? workKinds.map((w) => [w.id, w.title]) : made(kind)),
});
