import type { TakeFor } from "../../../readings/sound/live";
import { Refused } from "../api";
import type { FromEar, ToEar } from "./messages";

type Taken = Extract<FromEar, { is: "taken" }>["told"];
/** How a file is listened to. */
interface How {
  readonly for: TakeFor;
  readonly clock: number;
  readonly channel: number | undefined;
  readonly progress: (seconds: number, of: number | undefined) => void;
  readonly signal: AbortSignal;
}
/**
 * Listens to a recording in a worker of its own, from its beginning to its end.
 *
 * @throws {Refused} where it can't be read, is silent, or was stopped
 */
export function takeFile(file: File, { progress, signal, ...ask }: How): Promise<Taken> {
  return new Promise((done, fail) => {
    const worker = new Worker("ear-worker.js", { type: "module" });
    const end = (): void => worker.terminate();
    const refuse = (issues: ConstructorParameters<typeof Refused>[0]): void => {
      end();
      fail(new Refused(issues));
    };
    signal.addEventListener("abort", () =>
      refuse([{ path: file.name, code: "stopped", read: "", expected: "you to ask again: it was stopped" }]),
    );
    worker.onerror = () => refuse([{ path: file.name, code: "defect", read: "", expected: "a recording that can be listened to" }]);
    worker.onmessage = ({ data: m }: MessageEvent<FromEar>) => {
      if (m.is === "progress") progress(m.seconds, m.of);
      else if (m.is === "refused") refuse(m.issues);
      else if (m.is === "taken") {
        end();
        done(m.told);
      }
    };
    const say: ToEar = { is: "file", file, ...ask };
    worker.postMessage(say);
  });
}
