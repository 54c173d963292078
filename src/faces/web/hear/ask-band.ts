import { Refused } from "../api";
import type { FromBand, ToBand } from "./band-messages";

/**
 * Asks the worker that reads bands, one of its own for each question; it ends with its answer, or when it is given up.
 *
 * @throws {Refused} where the recording can't be read as it is said to be
 */
export function askBand<Is extends Exclude<FromBand["is"], "refused">>(
  m: ToBand & { readonly is: Is },
  signal: AbortSignal,
): Promise<Extract<FromBand, { is: Is }>> {
  return new Promise((done, fail) => {
    const worker = new Worker("band-worker.js", { type: "module" });
    const refuse = (issues: ConstructorParameters<typeof Refused>[0]): void => {
      worker.terminate();
      fail(new Refused(issues));
    };
    const stopped = () => refuse([{ path: "band", code: "stopped", read: "", expected: "you to ask again: it was stopped" }]);
    signal.addEventListener("abort", stopped);
    worker.onerror = () => refuse([{ path: "band", code: "defect", read: "", expected: "a recording that can be listened to" }]);
    worker.onmessage = ({ data }: MessageEvent<FromBand>) => {
      if (data.is === "refused") return refuse(data.issues);
      if (data.is !== m.is) return;
      worker.terminate();
      signal.removeEventListener("abort", stopped);
      done(data as Extract<FromBand, { is: Is }>);
    };
    worker.postMessage(m);
  });
}
