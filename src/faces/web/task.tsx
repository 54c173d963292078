import { useRef, useState } from "preact/compat";
import { InputError, type Issue } from "../../units/issue";
import { Refused } from "./api";
import { Issues } from "./parts";

/** What was wrong, as issues, whatever was thrown. */
export const issuesOf = (e: unknown): readonly Issue[] =>
  e instanceof Refused || e instanceof InputError ? e.issues : [{ path: "page", code: "defect", read: String(e), expected: "no defect" }];

export interface Task {
  /** does something that may take long; the word says what, the result what came of it */
  readonly run: (word: string, work: (signal: AbortSignal) => Promise<string | undefined>) => Promise<void>;
  /** says how far it is */
  readonly at: (word: string) => void;
  readonly stop: () => void;
  readonly word: string;
  readonly said: string;
  readonly issues: readonly Issue[];
}

/** One piece of work at a time that a person sees running and can stop. A later one takes the place of an earlier one. */
export function useTask(): Task {
  const [state, setState] = useState<Pick<Task, "word" | "said" | "issues">>({ word: "", said: "", issues: [] });
  const control = useRef<AbortController>(undefined);
  return {
    ...state,
    run: async (word, work) => {
      control.current?.abort();
      const mine = new AbortController();
      control.current = mine;
      setState({ word, said: "", issues: [] });
      try {
        const said = (await work(mine.signal)) ?? "";
        if (control.current === mine) setState({ word: "", said, issues: [] });
      } catch (e) {
        if (control.current === mine)
          setState({ word: "", said: mine.signal.aborted ? "Stopped." : "", issues: mine.signal.aborted ? [] : issuesOf(e) });
      }
    },
    at: (word) => setState((s) => (s.word === "" ? s : { ...s, word })),
    stop: () => control.current?.abort(),
  };
}

/** What a piece of work is at, the way to stop it, and what was wrong with it. */
export const TaskLine = ({ of, stop = "Stop" }: { readonly of: Task; readonly stop?: string }) => (
  <div className="task">
    <p role="status">{of.word === "" ? of.said : `${of.word}…`}</p>
    {of.word !== "" && (
      <button type="button" className="plain" onClick={of.stop}>
        {stop}
      </button>
    )}
    <Issues of={of.issues} />
  </div>
);
