import { onceFor } from "../../numerics/once";
import { bad, good, type Read } from "../../units/issue";
import type { Entry, EntryOf } from "../document";
import { entryIn, ofKind, placeIn } from "../place-in";
import { placeLabel } from "../places";
import type { JobView } from "../view";
import type { Sign } from "./sign";
import { signsOf } from "./signs";

/** Where a fault stands in its life. */
export const faultStates = ["noticed", "being traced", "cause found", "mended", "proved", "closed", "left", "open again"] as const;
export type FaultState = (typeof faultStates)[number];
type Act = EntryOf<"fault">;

export interface Fault {
  readonly id: string;
  /** path of the set */
  readonly place: string;
  readonly label: string;
  /** as it was noticed */
  readonly words: string;
  readonly state: FaultState;
  readonly acts: readonly Act[];
  readonly cause?: string;
  /** why it was left */
  readonly reason?: string;
  readonly parts: readonly EntryOf<"part">[];
  /** readings at its place that are out of their chart now */
  readonly signs: readonly Sign[];
  /** whether a reading shows it and nobody has recorded it yet: its id is its place */
  readonly unrecorded: boolean;
  /** when it was noticed, ISO 8601; of an unrecorded one when it was read */
  readonly since: string;
}
const after: Readonly<Record<Act["does"], FaultState>> = {
  notice: "noticed",
  trace: "being traced",
  cause: "cause found",
  mend: "mended",
  prove: "proved",
  close: "closed",
  leave: "left",
  "open-again": "open again",
};
/** Whether somebody still has to do with it. */
export const isOpenFault = (f: Pick<Fault, "state">): boolean => f.state !== "closed" && f.state !== "left";

/** Whether its cause is still to be found: after that nothing is to be told apart any more. */
export const isSought = (f: Pick<Fault, "state">): boolean =>
  f.state === "noticed" || f.state === "being traced" || f.state === "open again";

/** Signs that contradict what was proved or closed: read after it. */
function contradicting(view: JobView, signs: readonly Sign[], act: Act): readonly Sign[] {
  const at = placeIn(view.inForce, act.id);
  return signs.filter((s) => placeIn(view.inForce, s.entry) > at);
}

/** Id of the fault that a sign shows by itself: its place, and what of the place it is of. */
const idOf = (s: Sign): string => (s.of === undefined ? s.place : `${s.place}.${s.of}`);
/** Whether a sign is of a fault: of its place, and where the fault is one of several that the place shows by itself, of that one. */
const isSignOf = (s: Sign, f: { readonly id: string; readonly place: string }): boolean =>
  s.place === f.place && (!f.id.startsWith(`${f.place}.`) || f.id === idOf(s));

function recorded(view: JobView, acts: readonly Act[], signs: readonly Sign[], parts: Fault["parts"]): Fault {
  const [first] = acts;
  const last = acts[acts.length - 1];
  const own = signs.filter((s) => isSignOf(s, { id: first.fault, place: first.place }));
  const settled = last.does === "prove" || last.does === "close";
  const state = settled && contradicting(view, own, last).length > 0 ? "open again" : after[last.does];
  const cause = acts.filter((a) => a.cause).at(-1)?.cause;
  return {
    id: first.fault,
    place: first.place,
    label: placeLabel(view.set, first.place),
    words: first.words,
    state,
    acts,
    ...(cause ? { cause } : {}),
    ...(last.does === "leave" ? { reason: last.words } : {}),
    parts,
    signs: own,
    unrecorded: false,
    since: first.at,
  };
}

/**
 * The faults of a job: those that were recorded, each with its life, and those that a reading out of its chart shows by itself. One that was proved or
 * closed is open again as soon as a later reading at its place is out of its chart.
 *
 * @param view the job as it stands
 * @returns in the order in which they were noticed, unrecorded ones last
 * @source house frame
 */
export const faultsOf = onceFor((view: JobView): readonly Fault[] => {
  const signs = signsOf(view);
  const lives = new Map<string, Act[]>();
  const parts = new Map<string, EntryOf<"part">[]>();
  const put = <T>(into: Map<string, T[]>, key: string, x: T): void => {
    const there = into.get(key);
    if (there) there.push(x);
    else into.set(key, [x]);
  };
  for (const e of ofKind(view.inForce, "fault")) put(lives, e.fault, e);
  for (const e of ofKind(view.inForce, "part")) if (e.fault !== undefined) put(parts, e.fault, e);
  const known = [...lives].map(([fault, acts]) => recorded(view, acts, signs, parts.get(fault) ?? []));
  // what somebody has left with a reason, or has under his hands, explains the readings of its place
  const explaining = known.filter((f) => f.state !== "closed" && f.state !== "proved");
  const bare = signs.filter((s) => !explaining.some((f) => isSignOf(s, f)));
  const byReading = [...new Set(bare.map(idOf))].map((id): Fault => {
    const own = bare.filter((s) => idOf(s) === id);
    const [{ place }] = own;
    return {
      id,
      place,
      label: placeLabel(view.set, place),
      words: own.map((s) => s.says).join("; "),
      state: "noticed",
      acts: [],
      parts: [],
      signs: own,
      unrecorded: true,
      since: entryIn(view.inForce, own[0].entry)?.at ?? "",
    };
  });
  return [...known, ...byReading];
});

/**
 * The fault that a person means by its id, the beginning of it, or its place.
 *
 * @param view the job
 * @param said such as `f1-3ac0`, `f1`, `stages.if1`
 * @returns the fault, or what was expected
 * @source house frame
 */
export function faultNamed(view: JobView, said: string): Read<Fault> {
  const all = faultsOf(view);
  const exactly = all.filter((f) => f.id === said);
  const hits = exactly.length > 0 ? exactly : all.filter((f) => f.id.startsWith(said) || (f.place === said && isOpenFault(f)));
  if (hits.length === 1 && said !== "") return good(hits[0]);
  const known = all.filter(isOpenFault).map((f) => f.id);
  return bad(
    "fault",
    "no-fault",
    said,
    known.length > 0 ? `one fault of ${known.join(", ")}` : "a fault that was noticed (fettle fault JOB notice)",
  );
}

type Head = () => { readonly id: string; readonly at: string; readonly who: string };
/**
 * An unrecorded fault as its first entry: whoever acts on it has noticed it.
 *
 * @param f the fault
 * @param head id, time and person of a new entry
 * @param words his own; what its readings say where he says nothing
 * @returns the entry; none for a fault that is recorded
 * @source house frame
 */
export const noticeOf = (f: Fault, head: Head, words = ""): Entry[] =>
  f.unrecorded
    ? [
        {
          ...head(),
          kind: "fault",
          fault: f.id,
          does: "notice",
          place: f.place,
          words: words.trim() === "" ? f.words : words,
          rests: [...new Set(f.signs.map((s) => s.entry))],
        },
      ]
    : [];
