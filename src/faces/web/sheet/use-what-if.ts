import { useCallback, useMemo, useRef, useState } from "preact/compat";
import { defaultSampling } from "../../../ask/answer";
import type { Answer } from "../../../ask/answered";
import { keptPath } from "../../../ask/resolve";
import type { JobView } from "../../../job/view";
import type { Question } from "../../../sheets/question";
import type { Issue } from "../../../units/issue";
import { api, heldSays } from "../api";
import { useKept } from "../kept";
import { issuesOf } from "../task";
import { followers } from "./following";
import { type Answered, type Follow, type ToAsk, useAnswer } from "./use-answer";

const nothing = {};
export type Tried = Readonly<Record<string, string>>;
/** Where a value that is kept comes from; a guess until its writer says otherwise. */
export const whences = [
  ["assumed", "a guess"],
  ["measured", "measured"],
  ["stated", "stated by a sheet or plate"],
] as const;
export type Whence = (typeof whences)[number][0];
/** Of what is read at the set or not at all nobody keeps a guess: whoever keeps it says where it comes from. */
const onlyRead = (sheet: Question, tried: Tried): boolean =>
  Object.keys(tried).length > 0 &&
  Object.keys(tried).every((n) => {
    const input = sheet.inputs[n];
    return input?.kind === "quantity" && input.reading === true;
  });

type About = Pick<ToAsk, "document" | "sheet" | "at" | "sampling">;
/** The answer to what is tried, and the one on record; `about` is the same object for as long as nothing in it changes. */
function useBoth(about: About, put: Tried, dragging: boolean, follow: Follow) {
  const own = useAnswer({ ...about, overrides: put, dragging, wanted: true }, follow);
  // while a hand turns, what is tried is what the answer in sight was asked with
  const tried: Tried = dragging ? (own.tried ?? put) : put;
  const trying = Object.keys(tried).length > 0;
  // while nothing was tried the answer is the record's own: it is asked for by itself only where a what-if was kept from before
  const untried = useRef<{ readonly about: typeof about; readonly answer: Answer } | undefined>(undefined);
  const { settled } = own;
  const ofRecord = settled && settled.document === about.document && settled.at === about.at && settled.sampling === about.sampling;
  if (ofRecord && own.answer && Object.keys(settled.overrides).length === 0) untried.current = { about, answer: own.answer };
  const known = untried.current?.about === about ? untried.current.answer : undefined;
  const job = useAnswer({ ...about, overrides: nothing, dragging: false, wanted: trying && known === undefined });
  return { own, tried, trying, record: known ?? (trying ? job.answer : own.answer) };
}

/** A hand that turns an input: what it turns to is asked at once, and put when the hand rests. The same object for as long as the page stands. */
export interface Hand {
  readonly takes: () => void;
  readonly turns: (path: string, v: string | undefined) => void;
  readonly rests: () => void;
}
const having = (tried: Tried, path: string, v: string | undefined): Tried => {
  const { [path]: _, ...next } = tried;
  return v === undefined ? next : { ...next, [path]: v };
};
/** Puts a value to try, or lets a hand turn to it: functions that stay the same, so that a knob that didn't change is not drawn again for them. */
function useHand(tried: Tried, setTried: (t: Tried) => void, turn: Answered["turn"], drag: (on: boolean) => void) {
  const now = useRef(tried);
  const held = useRef(false);
  // what a hand has turned to is ahead of what is put
  if (!held.current) now.current = tried;
  const put = useCallback(
    (path: string, v: string | undefined) => {
      now.current = having(now.current, path, v);
      setTried(now.current);
    },
    [setTried],
  );
  const hand = useMemo(
    (): Hand => ({
      takes: () => {
        held.current = true;
        drag(true);
      },
      turns: (path, v) => {
        now.current = having(now.current, path, v);
        turn(now.current);
      },
      rests: () => {
        held.current = false;
        setTried(now.current);
        drag(false);
      },
    }),
    [setTried, turn, drag],
  );
  return { put, hand };
}

/** Keeps in the job what is tried there, with where it comes from as its writer says. */
function useKeeping(name: string, sheet: Question, at: string, tried: Tried, kept: () => void) {
  const [refused, setRefused] = useState<readonly Issue[]>([]);
  const [said, setSaid] = useState("");
  const [chosen, setWhence] = useState<Whence>("assumed");
  const readings = onlyRead(sheet, tried);
  const whence: Whence | "" = readings && chosen === "assumed" ? "" : chosen;
  const keep = async () => {
    if (whence === "") return;
    try {
      // what no job stores is only tried: rows of cards and readings among it
      const values = Object.entries(tried).flatMap(([input, text]) => {
        const path = keptPath(sheet, at, input);
        return path === undefined ? [] : [{ path, text }];
      });
      const r = await api.values(name, values, whence, `${whence === "assumed" ? "tried" : "typed in"} at “${sheet.title}”`);
      const rows = Object.keys(tried).some((n) => sheet.inputs[n]?.kind === "table" && keptPath(sheet, at, n) !== undefined);
      setRefused([]);
      setSaid(
        heldSays(r) ??
          `Kept in the job as ${whence}${rows ? ", rows as read" : ""}.${whence === "assumed" ? " A guess proves nothing: measured, it does." : ""}`,
      );
      setWhence("assumed");
      kept();
    } catch (e) {
      setRefused(issuesOf(e));
    }
  };
  return { refused, said, setSaid, whence, setWhence, readings, keep };
}

/** A question asked with what is tried, and as the job has it; what is tried outlives a reload, and can be kept in the job. */
export function useWhatIf(view: JobView, name: string, sheet: Question, at: string, reload: () => void) {
  const [kept, setKept] = useKept<Tried>(`try:${name}:${sheet.id}`, {});
  const [dragging, setDragging] = useState(false);
  const [sampling, setSampling] = useState(defaultSampling);
  const about = useMemo(() => ({ document: view.document, sheet: sheet.id, at, sampling }), [view.document, sheet.id, at, sampling]);
  const [moving] = useState(followers);
  const { own, tried, trying, record } = useBoth(about, kept, dragging, moving.show);
  const { setSaid, ...keeping } = useKeeping(name, sheet, at, tried, () => {
    setKept({});
    reload();
  });
  const setTried = useCallback(
    (t: Tried) => {
      setKept(t);
      setSaid("");
    },
    [setKept, setSaid],
  );
  const { put, hand } = useHand(kept, setTried, own.turn, setDragging);
  return {
    tried,
    trying,
    put,
    hand,
    drop: () => setTried({}),
    ...keeping,
    /** whether anything that is tried has a place in the job */
    keepable: Object.keys(tried).some((n) => keptPath(sheet, at, n) !== undefined),
    sampling,
    setSampling,
    issues: own.issues,
    working: own.working,
    stop: own.stop,
    // a value that can't be read leaves the job's own answer, and its inputs to mend it in
    answer: own.answer ?? (own.issues.length > 0 ? record : undefined),
    record,
    dragging,
    /** what follows the hand without being rendered */
    followers: moving,
  };
}
export type WhatIf = ReturnType<typeof useWhatIf>;
