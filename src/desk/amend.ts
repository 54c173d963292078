import type { Due, Entry } from "../job/document";
import { describedLists } from "../job/format";
import { hangingOn } from "../job/hanging";
import type { JobView } from "../job/view";
import { planWork, type Stamp } from "../job/works";
import type { SetDescription } from "../set/describe";
import { dutiesIn, expectedDuty } from "../set/line-up/duties";
import { stageOf } from "../set/line-up/place";
import { type MemberList, memberAt, memberFields } from "../set/members";
import { readBands } from "../set/outline-bands";
import { stepsOfKind } from "../set/outline-stages";
import { bad, good, type Issue, orThrow, type Read } from "../units/issue";
import { oneOf } from "../units/nearest";
import { parseQuantity } from "../units/parse";

type Member = Readonly<Record<string, unknown>>;
/** What a person says of one member of the description. */
export interface AmendSaid {
  readonly list: string;
  readonly member: string;
  readonly fields: Readonly<Record<string, string>>;
  readonly out: boolean;
  readonly after?: string | undefined;
  readonly why: string;
}
export interface Amended {
  readonly entries: readonly Entry[];
  /** steps that were begun or proved and rest on it */
  readonly due: readonly Due[];
  /** what hangs on the member: values, rows of cards, taps, faults */
  readonly hangs: readonly string[];
  readonly was: Member | undefined;
  readonly is: Member | null;
}
const stated = { origin: "stated", source: "said when the description was corrected" } as const;
const isList = (s: string): s is MemberList => describedLists.some((l) => l === s);

/** What a new member is before anything is said of it. */
function blank(set: SetDescription, list: MemberList, member: string): Member {
  switch (list) {
    case "stages":
      return { id: member, kind: "", label: member, part: "not stated", steps: [] };
    case "tubes":
      return { socket: member, type: "type not stated", function: "", stage: "" };
    case "bands":
      return { id: member };
    case "cans": {
      const like = set.strip.cans[set.strip.cans.length - 1];
      return { ...structuredClone(like), label: `T${set.strip.cans.length + 1}` };
    }
    case "nodes":
      return { id: member, label: member };
    case "taps":
      return { id: member, label: member, stage: "", node: "", can: 1 };
    case "fittings":
      return { id: member, kind: "", label: member, tap: set.taps[0]?.id ?? "", state: "planned", values: {}, choices: {} };
  }
}
/** A member with one field said anew. */
function withField(set: SetDescription, list: MemberList, m: Member, [name, text]: readonly [string, string]): Read<Member> {
  if (!memberFields[list].includes(name)) return bad(name, "no-field", name, oneOf(name, memberFields[list]));
  if (name === "volts") {
    const q = parseQuantity(text, "voltage", name);
    return q.ok ? good({ ...m, volts: { value: q.value.value, spread: q.value.spread, ...stated } }) : q;
  }
  if (name === "can")
    return /^\d$/.test(text) ? good({ ...m, can: Number(text) }) : bad(name, "not-a-number", text, "the number of an IF can, from 1");
  if (name === "range") {
    const read = readBands(text, stated);
    return read.ok ? good({ ...m, ...read.value[0], id: m.id }) : { ok: false, issues: read.issues.map((i) => ({ ...i, path: "range" })) };
  }
  if (list === "stages" && name === "kind") return good({ ...m, kind: text, steps: stepsOfKind(text) });
  if (list === "tubes" && name === "function") {
    const duties = dutiesIn(text);
    if (duties.length === 0) return bad(name, "no-such-duty", text, expectedDuty(text));
    return good({ ...m, function: text, stage: stageOf(set, String(m.socket), duties) ?? String(m.stage) });
  }
  return good({ ...m, [name]: text });
}
/** The member as it is to be, every field of it that was said read. */
function asSaid(set: SetDescription, list: MemberList, said: AmendSaid, was: Member | undefined): Read<Member> {
  let m = was ?? blank(set, list, said.member);
  const issues: Issue[] = [];
  for (const field of Object.entries(said.fields)) {
    const read = withField(set, list, m, field);
    if (read.ok) m = read.value;
    else issues.push(...read.issues);
  }
  return issues.length > 0 ? { ok: false, issues } : good(m);
}
/** What comes and goes with a member: the stage of a can on the route. */
function alongWith(
  view: JobView,
  list: MemberList,
  said: AmendSaid,
  isNew: boolean,
): readonly Pick<Amending, "list" | "member" | "as" | "after">[] {
  if (list !== "cans" || (!said.out && !isNew)) return [];
  const stage = view.set.stages.find((s) => s.id === said.member);
  if (said.out) return stage ? [{ list: "stages", member: said.member, as: null, after: undefined }] : [];
  const last = view.set.stages.filter((s) => s.kind === "can").at(-1)?.id;
  const as = {
    id: said.member,
    kind: "can",
    label: `IF can ${said.member.slice(3)}`,
    part: `T${said.member.slice(3)}`,
    steps: stepsOfKind("can"),
  };
  return stage ? [] : [{ list: "stages", member: said.member, as, after: last }];
}
interface Amending {
  readonly list: MemberList;
  readonly member: string;
  readonly as: Member | null;
  readonly after: string | undefined;
}

/**
 * What correcting one member of the description would do: entries that the gate judges like all others, once they are recorded.
 *
 * @param view the job
 * @param said list, member, and what is said of it
 * @param stamp who, when, ids
 * @returns entries, the steps that they make due again, and what hangs on the member
 * @throws {InputError} that names the list, the member or the field
 */
export function amending(view: JobView, said: AmendSaid, stamp: Stamp): Amended {
  const { set } = view;
  if (!isList(said.list)) return orThrow(bad("list", "no-list", said.list, oneOf(said.list, describedLists)));
  const { list } = said;
  const was = memberAt(set, list, said.member);
  if (list === "cans" && !was && said.member !== `can${set.strip.cans.length + 1}`)
    return orThrow(
      bad("cans", "no-member", said.member, `can1 to can${set.strip.cans.length}, or can${set.strip.cans.length + 1} for one more`),
    );
  const is = said.out ? null : orThrow(asSaid(set, list, said, was));
  const members: readonly Amending[] = [
    { list, member: said.member, as: is, after: said.after },
    ...alongWith(view, list, said, was === undefined),
  ];
  const touched = new Set(view.steps.filter((s) => s.state !== "untouched").map((s) => s.id));
  const plan = orThrow(planWork(view, { work: `described-${list}`, subject: placeOf(list, said.member), note: said.why }, stamp));
  const due = plan.due.filter((d) => touched.has(d.target));
  const works = due.length === 0 ? [] : plan.entries.map((e) => (e.kind === "work" ? { ...e, makes: due } : e));
  const act = works[0]?.id;
  const entries = members.map(
    (m): Entry => ({
      id: stamp.newId(),
      at: stamp.at,
      who: stamp.who,
      kind: "described",
      list: m.list,
      member: m.member,
      as: m.as,
      ...(m.after === undefined ? {} : { after: m.after }),
      why: said.why,
      ...(act === undefined ? {} : { partOf: act }),
    }),
  );
  return { entries: [...works, ...entries], due, hangs: hangingOn(view, list, said.member), was, is };
}
const placeOf = (list: MemberList, member: string): string =>
  list === "nodes" || list === "cans" ? (list === "cans" ? "strip" : "supplies") : `${list}.${member}`;
