import { Raw } from "../readings/told";
import type { SweepHands } from "./use-sweep";

/** The sweep as it runs: where it is, its points, the ways to pause and to end it. */
export function Running({ of: { state, pause, goOn, end }, all }: { readonly of: SweepHands; readonly all: string }) {
  const { points } = state;
  const hz = points.map((p) => p.frequencyHz / 1e3);
  return (
    <>
      {state.mayBeOn !== "" && (
        <p className="maybeon" role="alert">
          {state.mayBeOn}
        </p>
      )}
      {state.running !== "no" && (
        <>
          <p className="stepcount" role="status">
            {state.running === "paused" ? "Paused, the output off. " : state.running === "ending" ? "Ending… " : ""}
            {state.doneCount} of {all}
          </p>
          <button type="button" className="plain" onClick={state.running === "paused" ? goOn : pause} disabled={state.running === "ending"}>
            {state.running === "paused" ? "Go on" : "Pause"}
          </button>{" "}
          <button type="button" onClick={end} disabled={state.running === "ending"}>
            End it, output off
          </button>
        </>
      )}
      {points.length > 1 && (
        <Raw
          of={{
            title: "what is read",
            xLabel: "frequency, kHz",
            yLabel: "level, dB",
            traces: [{ label: "as read", x: hz, y: points.map((p) => p.levelDb) }],
          }}
        />
      )}
      {state.running === "no" && state.isOff && <p>The output is off: the generator says so.</p>}
      {state.missed.length > 0 && (
        <p>
          Nothing was read at {state.missed.length} of {all}: {[...new Set(state.missed.map((m) => m.why))].join("; ")}.
        </p>
      )}
    </>
  );
}
