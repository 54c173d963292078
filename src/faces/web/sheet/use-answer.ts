import { useCallback, useLayoutEffect, useRef, useState } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { Overrides } from "../../../ask/resolved";
import type { JobDocument } from "../../../job/document";
import type { Sampling } from "../../../units/draws";
import { bad, type Issue, type Read } from "../../../units/issue";
import type { Asked } from "../worker";
import { rests, workerForAnswers } from "./spare-worker";
import { type Spared, whole } from "./spared";

/** One worker that answers the newest question only: while it is busy a newer one replaces the one that waits. */
class Line {
  private worker: Worker | undefined;
  private busy = false;
  private waiting: Asked | undefined;
  private asking: Asked | undefined;
  private sent: JobDocument | undefined;
  /** what came last from this worker: what is the same in the next is not sent again */
  private last: { readonly id: number; readonly result: Read<Answer> } | undefined;
  constructor(
    private readonly phase: "quick" | "full",
    private readonly done: (asked: Asked, result: Read<Answer>) => void,
  ) {}
  /** A worker is started with its first question: one that nobody asks takes no time from one that works. */
  private started(): Worker {
    if (this.worker) return this.worker;
    const { worker: made, has } = workerForAnswers();
    this.worker = made;
    this.sent = has;
    this.last = undefined;
    made.onmessage = (e: MessageEvent<{ id: number; sent: Spared }>) => {
      const { asking } = this;
      if (this.worker !== made || asking?.id !== e.data.id) return;
      const result = whole(e.data.sent, this.last?.result) as Read<Answer>;
      this.last = { id: asking.id, result };
      this.came(asking, result);
    };
    // one that can't even be started, or whose answer can't be sent, is told as an answer is
    const failed = (e: Event): void => {
      const { asking } = this;
      this.worker?.terminate();
      this.worker = undefined;
      const said = e instanceof ErrorEvent ? e.message : "";
      if (asking) this.came(asking, bad(`sheet ${asking.sheet}`, "not-worked-out", said, "a page that is whole: load it again"));
    };
    made.onerror = failed;
    made.onmessageerror = failed;
    return made;
  }
  private came(asked: Asked, result: Read<Answer>): void {
    this.busy = false;
    this.asking = undefined;
    this.done(asked, result);
    const next = this.waiting;
    this.waiting = undefined;
    if (next) this.post(next);
  }
  private post(q: Asked): void {
    const { document, ...rest } = q;
    this.busy = true;
    this.asking = q;
    const worker = this.started();
    worker.postMessage({ ...(document === this.sent ? rest : q), ...(this.last ? { holds: this.last.id } : {}) });
    this.sent = document;
  }
  ask(q: Omit<Asked, "phase">): void {
    const full: Asked = { ...q, phase: this.phase };
    if (this.busy && this.phase === "quick") {
      this.waiting = full;
      return;
    }
    this.drop();
    this.post(full);
  }
  /** An answer that nobody waits for any more is dropped with its worker; one that rests is kept for the next question. */
  drop(): void {
    if (this.busy) this.stop();
  }
  /** Gives up what is being worked out; the next question starts afresh. */
  stop(): void {
    this.worker?.terminate();
    this.left();
  }
  /** Nobody asks here any more: a worker that rests is kept for the next page. */
  end(): void {
    if (this.worker && !this.busy) rests({ worker: this.worker, has: this.sent });
    else this.worker?.terminate();
    this.left();
  }
  private left(): void {
    this.worker = undefined;
    this.waiting = undefined;
    this.busy = false;
  }
}

/** A frame of a screen and a half. */
const afterDrawnMs = 25;
export interface Answered {
  readonly answer?: Answer;
  readonly issues: readonly Issue[];
  /** true while the full answer is still being worked out */
  readonly working: boolean;
  /** what was tried in the answer that stands */
  readonly tried?: Overrides;
  /** what the answer was asked with, once it is the full one */
  readonly settled?: Asked;
  /** asks at once, and quickly, for what a hand has just turned to */
  readonly turn: (overrides: Overrides) => void;
  /** gives up the full answer; the quick one stays */
  readonly stop: () => void;
}
type State = Omit<Answered, "stop" | "turn">;
type ToPost = Omit<Asked, "phase">;

export interface ToAsk {
  readonly document: JobDocument;
  readonly sheet: string;
  readonly at: string;
  readonly overrides: Overrides;
  readonly sampling: Sampling;
  /** while a hand turns an input nothing is asked but what it turns to */
  readonly dragging: boolean;
  /** nothing is asked, and no worker started, while it isn't wanted */
  readonly wanted: boolean;
}
/** The two lines of a sheet, and what each answer makes of the page. */
interface Asking {
  readonly ask: (q: Omit<ToPost, "id">, thenFull: boolean) => void;
  /** gives up the full answer */
  readonly stopFull: () => void;
  /** what has followed the hand since the page was rendered last */
  readonly moved: () => Moved | undefined;
  readonly end: () => void;
}
interface Moved {
  readonly answer: Answer;
  readonly tried: Overrides;
}
/** Shows an answer in what stands already; false where the page has to be rendered for it. */
export type Follow = (answer: Answer, tried: Overrides) => boolean;
const followsNot: Follow = () => false;
function asking(setState: (next: (s: State) => State) => void, follow: Follow): Asking {
  let [newest, settled] = [0, 0];
  let moved: Moved | undefined;
  // the full answer waits for the quick one: two cores are not shared before anything is seen
  let afterQuick: ToPost | undefined;
  const take =
    (phase: "quick" | "full") =>
    (q: Asked, r: Read<Answer>): void => {
      const next = afterQuick;
      if (phase === "quick" && next?.id === q.id) {
        afterQuick = undefined;
        // once what is seen first has been drawn
        setTimeout(() => next.id === newest && full.ask(next), afterDrawnMs);
      }
      if (phase === "full" ? q.id < newest : q.id <= settled) return;
      // what a hand turns to is shown in what stands, where the page looks the same but for it
      if (phase === "quick" && next?.id !== q.id && r.ok && follow(r.value, q.overrides)) {
        moved = { answer: r.value, tried: q.overrides };
        return;
      }
      const before = moved;
      moved = undefined;
      if (phase === "full") settled = q.id;
      const done = { issues: [], working: phase === "quick", tried: q.overrides, ...(phase === "full" ? { settled: q } : {}) };
      setState((s) => (r.ok ? { answer: r.value, ...done } : { ...s, ...before, issues: r.issues, working: false }));
    };
  const quick = new Line("quick", take("quick"));
  const full = new Line("full", take("full"));
  return {
    ask: (asked, thenFull) => {
      const q = { ...asked, id: ++newest };
      full.drop();
      afterQuick = thenFull ? q : undefined;
      quick.ask(q);
    },
    stopFull: () => {
      afterQuick = undefined;
      full.stop();
    },
    moved: () => moved,
    end: () => {
      newest++;
      quick.end();
      full.end();
    },
  };
}

/** Asks a sheet: a quick answer at once, the full one when nothing is turned any more. Late answers are dropped. */
export function useAnswer({ document, sheet, at, overrides, sampling, dragging, wanted }: ToAsk, follow = followsNot): Answered {
  const [state, setState] = useState<State>({ issues: [], working: true });
  const [lines] = useState(() => asking(setState, follow));
  const about = useRef({ sheet, at, document, sampling });
  about.current = { sheet, at, document, sampling };
  useLayoutEffect(() => lines.end, [lines]);
  const key = JSON.stringify(overrides);
  // before anything is drawn: what is asked after a frame comes a frame later
  // biome-ignore lint/correctness/useExhaustiveDependencies: the overrides are compared by what they say
  useLayoutEffect(() => {
    if (!wanted || dragging) return;
    setState((s) => (s.working ? s : { ...s, working: true }));
    lines.ask({ ...about.current, overrides }, true);
  }, [document, sheet, at, key, dragging, sampling.seed, sampling.draws, wanted]);
  const turn = useCallback((turned: Overrides) => lines.ask({ ...about.current, overrides: turned }, false), [lines]);
  const stop = useCallback(() => {
    lines.stopFull();
    setState((s) => ({ ...s, working: false }));
  }, [lines]);
  return { ...state, ...lines.moved(), stop, turn };
}
