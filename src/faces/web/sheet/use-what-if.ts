import { useCallback, useMemo, useRef, useState } from "preact/compat";
import { defaultSampling } from "../../../ask/answer";
import type { Answer } from "../../../ask/answered";
import { keptPath } from "../../../ask/resolve";
import type { JobView } from "../../../job/view";
import type { Question } from "../../../sheets/question";
import type { Issue } from "../../../units/issue";
import { api } from "../api";
import { useKept } from "../kept";
import { issuesOf } from "../task";
import { type Answered, type ToAsk, useAnswer } from "./use-answer";

const nothing = {};
export type Tried = Readonly<Record<string, string>>;

type About = Pick<ToAsk, "document" | "sheet" | "at" | "sampling">;
/** The answer to what is tried, and the one on record; `about` is the same object for as long as nothing in it changes. */
function useBoth(about: About, tried: Tried, dragging: boolean): { readonly own: Answered; readonly record: Answer | undefined } {
  const trying = Object.keys(tried).length > 0;
  const own = useAnswer({ ...about, overrides: tried, dragging, wanted: true });
  // while nothing was tried the answer is the record's own: it is asked for by itself only where a what-if was kept from before
  const untried = useRef<{ readonly about: typeof about; readonly answer: Answer } | undefined>(undefined);
  const { settled } = own;
  const ofRecord = settled && settled.document === about.document && settled.at === about.at && settled.sampling === about.sampling;
  if (ofRecord && own.answer && Object.keys(settled.overrides).length === 0) untried.current = { about, answer: own.answer };
  const known = untried.current?.about === about ? untried.current.answer : undefined;
  const job = useAnswer({ ...about, overrides: nothing, dragging: false, wanted: trying && known === undefined });
  return { own, record: known ?? (trying ? job.answer : own.answer) };
}

/** Puts a value to try: one function for as long as the page stands, so that a knob that didn't change is not drawn again for it. */
function usePut(tried: Tried, setTried: (t: Tried) => void, setSaid: (said: string) => void) {
  const now = useRef(tried);
  now.current = tried;
  return useCallback(
    (path: string, v: string | undefined) => {
      const next: Record<string, string> = { ...now.current };
      if (v === undefined) delete next[path];
      else next[path] = v;
      now.current = next;
      setTried(next);
      setSaid("");
    },
    [setTried, setSaid],
  );
}

/** A question asked with what is tried, and as the job has it; what is tried outlives a reload, and can be kept in the job. */
export function useWhatIf(view: JobView, name: string, sheet: Question, at: string, reload: () => void) {
  const [tried, setTried] = useKept<Tried>(`try:${name}:${sheet.id}`, {});
  const [dragging, setDragging] = useState(false);
  const [sampling, setSampling] = useState(defaultSampling);
  const [refused, setRefused] = useState<readonly Issue[]>([]);
  const [said, setSaid] = useState("");
  const trying = Object.keys(tried).length > 0;
  const about = useMemo(() => ({ document: view.document, sheet: sheet.id, at, sampling }), [view.document, sheet.id, at, sampling]);
  const { own, record } = useBoth(about, tried, dragging);
  const put = usePut(tried, setTried, setSaid);
  const keep = async () => {
    try {
      // what no job stores is only tried: rows of cards and readings among it
      const values = Object.entries(tried).flatMap(([input, text]) => {
        const path = keptPath(sheet, at, input);
        return path === undefined ? [] : [{ path, text }];
      });
      await api.values(name, values, "assumed", `kept from a what-if of ${sheet.id}@${sheet.version}`);
      const rows = Object.keys(tried).some((n) => sheet.inputs[n]?.kind === "table" && keptPath(sheet, at, n) !== undefined);
      setTried({});
      setRefused([]);
      setSaid(
        `Kept in the job as assumed${rows ? ", rows as read" : ""}. State or measure it under Describe the set to give it more weight.`,
      );
      reload();
    } catch (e) {
      setRefused(issuesOf(e));
    }
  };
  return {
    tried,
    trying,
    put,
    drop: () => setTried({}),
    keep,
    /** whether anything that is tried has a place in the job */
    keepable: Object.keys(tried).some((n) => keptPath(sheet, at, n) !== undefined),
    refused,
    said,
    sampling,
    setSampling,
    setDragging,
    issues: own.issues,
    working: own.working,
    stop: own.stop,
    // a value that can't be read leaves the job's own answer, and its inputs to mend it in
    answer: own.answer ?? (own.issues.length > 0 ? record : undefined),
    record,
    dragging,
  };
}
export type WhatIf = ReturnType<typeof useWhatIf>;
