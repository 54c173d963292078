import { useEffect, useRef, useState } from "preact/compat";
import { planOf, type SweepTyped } from "../../../desk/stepped-plan";
import { Generator } from "../../../instruments/generator";
import { Instrument } from "../../../instruments/instrument";
import { type Missed, stepSweep } from "../../../instruments/step-sweep";
import { type OpenTransport, WireError } from "../../../instruments/wire";
import { generator, voltmeter } from "../../../readings/scpi/commands";
import { type SteppedPoint, tableHead, tableRow } from "../../../readings/stepped/table";
import { InputError } from "../../../units/issue";

const patienceMs = 5000;
export type Running = "no" | "yes" | "paused" | "ending";
export interface SweepState {
  readonly running: Running;
  readonly points: readonly SteppedPoint[];
  readonly doneCount: number;
  readonly missed: readonly Missed[];
  /** the output may be on, and nobody can tell */
  readonly mayBeOn: string;
  /** the generator itself said that its output is off */
  readonly isOff: boolean;
  readonly csv: string;
}
const still: SweepState = { running: "no", points: [], doneCount: 0, missed: [], mayBeOn: "", isOff: false, csv: "" };
const byFrequency = (points: readonly SteppedPoint[]): SteppedPoint[] => [...points].sort((a, b) => a.frequencyHz - b.frequencyHz);

export interface SweepHands {
  readonly state: SweepState;
  /** steps the sweep to its end, or until it is ended; what can't be done is thrown */
  readonly run: (typed: SweepTyped, leads: { readonly generator: OpenTransport; readonly voltmeter: OpenTransport }) => Promise<void>;
  readonly pause: () => void;
  readonly goOn: () => void;
  readonly end: () => void;
}

interface Beside {
  readonly change: (more: Partial<SweepState>) => void;
  readonly set: (state: SweepState) => void;
  readonly signal: AbortSignal;
  readonly paused: () => Promise<void> | undefined;
}
type Leads = Parameters<SweepHands["run"]>[1];
/** Steps it, and tells of each point; what can't be done is thrown, with the output off. */
async function stepped(typed: SweepTyped, leads: Leads, { change, set, ...beside }: Beside): Promise<void> {
  const plan = planOf(typed);
  set({ ...still, running: "yes" });
  const points: SteppedPoint[] = [];
  const guarded = new Generator(new Instrument(leads.generator, "generator", generator.standard, patienceMs), plan.mostDbm, {
    mayBeOn: (mayBeOn) => change({ mayBeOn, isOff: false }),
    isOff: () => change({ mayBeOn: "", isOff: true }),
  });
  const meter = new Instrument(leads.voltmeter, "voltmeter", voltmeter.standard, patienceMs);
  const by = { generator: guarded, voltmeter: meter, reads: typed.reads === "ac" ? ("acVolts" as const) : ("dcVolts" as const) };
  const point = (p: SteppedPoint, doneCount: number): void => {
    points.push(p);
    change({ points: byFrequency(points), doneCount });
  };
  try {
    const { missed } = await stepSweep(plan, by, [], { ...beside, point });
    change({ missed });
  } catch (e) {
    throw e instanceof WireError ? new InputError([e.issue]) : e;
  } finally {
    const head = tableHead(plan, new Date().toISOString(), "by serial ports");
    change({ running: "no", csv: points.length > 4 ? `${head}${byFrequency(points).map(tableRow).join("")}` : "" });
  }
}

/** A page that is closed can switch nothing off: it asks first; one that goes to another place ends the sweep. */
function useGuard(atWork: boolean, end: () => void): void {
  const last = useRef(end);
  last.current = end;
  useEffect(() => {
    if (!atWork) return;
    const ask = (e: BeforeUnloadEvent): void => e.preventDefault();
    addEventListener("beforeunload", ask);
    return () => {
      removeEventListener("beforeunload", ask);
      last.current();
    };
  }, [atWork]);
}

/** A sweep by generator and meter, as the page sees it: its points as they come, paused, ended, and whether the output is off. */
export function useSweep(): SweepHands {
  const [state, setState] = useState(still);
  const change = (more: Partial<SweepState>): void => setState((s) => ({ ...s, ...more }));
  const held = useRef<{ readonly wait: Promise<void>; readonly on: () => void }>(undefined);
  const stop = useRef<AbortController>(undefined);
  useGuard(state.running !== "no", () => {
    held.current?.on();
    stop.current?.abort();
  });
  const goOn = (): void => {
    held.current?.on();
    held.current = undefined;
    setState((s) => (s.running === "paused" ? { ...s, running: "yes" } : s));
  };
  return {
    state,
    goOn,
    pause: () => {
      let on = (): void => undefined;
      const wait = new Promise<void>((done) => {
        on = done;
      });
      held.current = { wait, on };
      change({ running: "paused" });
    },
    end: () => {
      goOn();
      stop.current?.abort();
      change({ running: "ending" });
    },
    run: async (typed, leads) => {
      const mine = new AbortController();
      stop.current = mine;
      try {
        await stepped(typed, leads, { change, set: setState, signal: mine.signal, paused: () => held.current?.wait });
      } finally {
        held.current = undefined;
      }
    },
  };
}
