import { useCallback, useEffect, useRef, useState } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { Overrides } from "../../../ask/resolved";
import type { JobDocument } from "../../../job/document";
import type { Sampling } from "../../../units/draws";
import type { Issue, Read } from "../../../units/issue";
import type { Asked } from "../worker";

const start = (): Worker => new Worker(new URL("worker.js", document.baseURI), { type: "module" });

/** One worker that answers the newest question only: while it is busy a newer one replaces the one that waits. */
class Line {
  private worker = start();
  private busy = false;
  private waiting: Asked | undefined;
  private sent: JobDocument | undefined;
  private gone = false;
  constructor(
    private readonly phase: "quick" | "full",
    private readonly done: (id: number, result: Read<Answer>) => void,
  ) {
    this.listen();
  }
  private listen(): void {
    this.worker.onmessage = (e: MessageEvent<{ id: number; result: Read<Answer> }>) => {
      this.busy = false;
      this.done(e.data.id, e.data.result);
      const next = this.waiting;
      this.waiting = undefined;
      if (next) this.post(next);
    };
  }
  private post(q: Asked): void {
    const { document, ...rest } = q;
    this.busy = true;
    this.worker.postMessage(document === this.sent ? rest : q);
    this.sent = document;
  }
  ask(q: Omit<Asked, "phase">): void {
    const full: Asked = { ...q, phase: this.phase };
    if (this.busy && this.phase === "quick") {
      this.waiting = full;
      return;
    }
    // a full answer that nobody waits for any more is dropped with its worker
    if (this.busy) this.stop();
    if (this.gone) {
      this.worker = start();
      this.sent = undefined;
      this.gone = false;
      this.listen();
    }
    this.post(full);
  }
  /** Gives up what is being worked out; the next question starts afresh. */
  stop(): void {
    this.worker.terminate();
    this.busy = false;
    this.gone = true;
  }
}

export interface Answered {
  readonly answer?: Answer;
  readonly issues: readonly Issue[];
  /** true while the full answer is still being worked out */
  readonly working: boolean;
  /** gives up the full answer; the quick one stays */
  readonly stop: () => void;
}

/** Asks a sheet: a quick answer at once while a value is dragged, the full one when it rests. Late answers are dropped. */
export function useAnswer(
  document: JobDocument,
  sheet: string,
  at: string,
  overrides: Overrides,
  dragging: boolean,
  sampling: Sampling,
): Answered {
  const [state, setState] = useState<Omit<Answered, "stop">>({ issues: [], working: true });
  const newest = useRef(0);
  const settled = useRef(0);
  const lines = useRef<{ quick: Line; full: Line } | undefined>(undefined);
  useEffect(() => {
    const take =
      (phase: "quick" | "full") =>
      (id: number, r: Read<Answer>): void => {
        if (phase === "full" ? id < newest.current : id <= settled.current) return;
        if (phase === "full") settled.current = id;
        setState((s) => (r.ok ? { answer: r.value, issues: [], working: phase === "quick" } : { ...s, issues: r.issues, working: false }));
      };
    const made = { quick: new Line("quick", take("quick")), full: new Line("full", take("full")) };
    lines.current = made;
    return () => {
      made.quick.stop();
      made.full.stop();
    };
  }, []);
  const key = JSON.stringify(overrides);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the overrides are compared by what they say
  useEffect(() => {
    const id = ++newest.current;
    const q = { id, sheet, at, overrides, document, sampling };
    setState((s) => ({ ...s, working: true }));
    lines.current?.quick.ask(q);
    if (!dragging) lines.current?.full.ask(q);
  }, [document, sheet, at, key, dragging, sampling.seed, sampling.draws]);
  const stop = useCallback(() => {
    lines.current?.full.stop();
    setState((s) => ({ ...s, working: false }));
  }, []);
  return { ...state, stop };
}
