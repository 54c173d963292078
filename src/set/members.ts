import type { SetDescription } from "./describe";

/** Lists of the description whose members may be added, changed or taken out, and what each member is known by. */
const keys = { stages: "id", tubes: "socket", bands: "id", cans: "", nodes: "id", taps: "id", fittings: "id" } as const;
export type MemberList = keyof typeof keys;
type Member = Readonly<Record<string, unknown>>;

function listOf(set: SetDescription, list: MemberList): Member[] {
  const of = { ...set, cans: set.strip.cans, nodes: set.supplies.nodes } satisfies Record<MemberList, readonly Member[]>;
  return of[list] as Member[];
}
/** Cans have no name of their own: `can2` is the second. */
const placeOf = (members: readonly Member[], list: MemberList, member: string): number =>
  list === "cans" ? Number(/^can(\d+)$/.exec(member)?.[1] ?? 0) - 1 : members.findIndex((m) => m[keys[list]] === member);

/** Fields of a member that a person may say, by its list. */
export const memberFields: Readonly<Record<MemberList, readonly string[]>> = {
  stages: ["kind", "label", "part"],
  tubes: ["type", "function", "stage"],
  bands: ["range", "label"],
  cans: ["label"],
  nodes: ["label", "volts"],
  taps: ["label", "stage", "node", "can"],
  fittings: ["kind", "label", "tap", "state"],
};
/**
 * What the members of a list of the description are known by, in order.
 *
 * @param set the set
 * @param list which of its lists
 * @returns names
 * @source house frame
 */
export const memberNames = (set: SetDescription, list: MemberList): readonly string[] =>
  listOf(set, list).map((m, i) => (list === "cans" ? `can${i + 1}` : String(m[keys[list]])));

/**
 * Puts a member into a list of a set that nobody else holds, changes it there, or takes it out.
 *
 * @param set the set; changed
 * @param list which of its lists
 * @param member what it is known by: id, socket, or `can2`
 * @param as the whole member as it is to be; null takes it out
 * @param after the member a new one goes after; at the end where none is named, and first where it is empty
 * @returns whether anything was changed
 * @source house frame
 */
export function putMember(set: SetDescription, list: MemberList, member: string, as: Member | null, after?: string): boolean {
  const members = listOf(set, list);
  const at = placeOf(members, list, member);
  const here = at >= 0 && at < members.length;
  if (as === null) {
    if (here) members.splice(at, 1);
    return here;
  }
  if (here) members[at] = as;
  else if (after === undefined) members.push(as);
  else members.splice(after === "" ? 0 : placeOf(members, list, after) + 1, 0, as);
  return true;
}
/**
 * A member of a list of the description.
 *
 * @param set the set
 * @param list which of its lists
 * @param member what it is known by
 * @returns a copy of the member; undefined where there is none
 * @source house frame
 */
export function memberAt(set: SetDescription, list: MemberList, member: string): Member | undefined {
  const members = listOf(set, list);
  const found = members[placeOf(members, list, member)];
  return found && structuredClone(found);
}
