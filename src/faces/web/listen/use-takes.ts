import { useEffect, useState } from "preact/compat";
import { clockOf } from "../../../desk/heard";
import { type Take, type TakeKind, type Takes, takeFor } from "../../../desk/takes";
import { clock as clockTime } from "../../../readings/sound/health";
import type { LiveTold, TakeFor, TakeTold } from "../../../readings/sound/live";
import { standardUncertainty } from "../../../units/quantity";
import { type Task, useTask } from "../task";
import { takeFile } from "./take-file";
import type { Input } from "./use-input";

/** Recordings that belong together, as a page has them: what was taken, what is being taken, and the ways to take. */
export interface Taking {
  readonly takes: Takes;
  /** the one that is being taken live */
  readonly live: string | undefined;
  /** seconds that it has lasted */
  readonly seconds: number;
  readonly task: Task;
  readonly begin: (slot: string) => void;
  readonly end: () => Promise<void>;
  readonly file: (slot: string, file: File) => void;
  readonly forget: (slot: string) => void;
}
const everyMs = 1000;
type Told = Pick<LiveTold, "head" | "health"> & TakeTold;

/** As it was told, with the device's clock. */
function takeOf(name: string, { head, health, ...told }: Told, typed: string): Take {
  const clock = clockOf(typed === "" ? undefined : typed);
  const warnings = [...head.warnings, ...health.warnings];
  return {
    heard: { name, head, health, clock, clockU: standardUncertainty(clock.spread), warnings },
    told,
  };
}

/** Takes recordings live or from files; what is taken live is told as it comes, once a second. */
export function useTakes(kind: TakeKind, input: Input, clock: string, ask: (slot: string) => TakeFor): Taking {
  const [takes, setTakes] = useState<Takes>({});
  const [live, setLive] = useState<string>();
  const task = useTask();
  const { open, begin, tell, channel } = input;
  const put = (slot: string, take: Take | undefined): void => setTakes((t) => ({ ...t, [slot]: take }));
  const heardNow = async (slot: string): Promise<void> => {
    const { told } = await tell(false);
    if (told.health.secondsCount > 0.5)
      put(slot, takeOf(`${kind} ${slot} ${(told.head.begun ?? "").replace(/:/g, ".")} live`, told, clock));
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: told anew only while one is being taken
  useEffect(() => {
    if (live === undefined || !open) {
      setLive(undefined);
      return undefined;
    }
    const timer = setInterval(() => void heardNow(live), everyMs);
    return () => clearInterval(timer);
  }, [live, open]);
  const { value } = clockOf(clock === "" ? undefined : clock);
  // its level is seen before anything is taken; another channel begins anew
  useEffect(() => {
    if (open) begin(takeFor(kind), value);
  }, [open, begin, kind, value]);
  return {
    takes,
    live,
    seconds: (live === undefined ? undefined : takes[live]?.heard.health.secondsCount) ?? 0,
    task,
    begin: (slot) =>
      void task.run("Beginning", async () => {
        const what = ask(slot);
        put(slot, undefined);
        begin(what, value);
        setLive(slot);
        return undefined;
      }),
    end: async () => {
      if (live !== undefined) await heardNow(live);
      setLive(undefined);
    },
    file: (slot, file) =>
      void task.run(`Listening to ${file.name}`, async (signal) => {
        const what = ask(slot);
        put(slot, undefined);
        const told = await takeFile(file, {
          for: what,
          clock: value,
          channel,
          signal,
          progress: (at, of) => task.at(`Listening to ${file.name}: ${clockTime(at)}${of === undefined ? "" : ` of ${clockTime(of)}`}`),
        });
        put(slot, takeOf(file.name, told, clock));
        return undefined;
      }),
    forget: (slot) => put(slot, undefined),
  };
}
