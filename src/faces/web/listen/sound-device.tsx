import type { ResponsePoint } from "../../../readings/sound/response";
import { useKept } from "../kept";

/** A sound device's response by a loop-back, output and input together, as this browser keeps it for each input. */
export interface Loop {
  readonly points: readonly ResponsePoint[] | undefined;
  readonly keep: (points: readonly ResponsePoint[]) => void;
}
const none: readonly ResponsePoint[] = [];
export function useLoop(label: string): Loop {
  const [points, keep] = useKept(`listen:response:${label}`, none);
  return { points: points.length > 0 ? points : undefined, keep };
}
/** Whether the device's own response is undone, and the ways to have it so or not. */
export const LoopLine = ({ loop, measured }: { readonly loop: Loop; readonly measured: readonly ResponsePoint[] | undefined }) => (
  <div className="row">
    <p className="quiet">
      {loop.points
        ? "This input's own response, as a loop-back measured it, is undone: between none of it and all of it."
        : "This input's own response is in what is measured. Measure it once under Response, the sound device alone, and keep it."}
    </p>
    {measured && measured.length > 4 && measured !== loop.points && (
      <button type="button" onClick={() => loop.keep(measured)}>
        Keep this response for this input
      </button>
    )}
    {loop.points && (
      <button type="button" className="plain" onClick={() => loop.keep(none)}>
        Forget this input's response
      </button>
    )}
  </div>
);
