import { memo } from "preact/compat";
import { here } from "../opened";
import { Issues, Select } from "../parts";
import { type WhatIf, type Whence, whences } from "./use-what-if";

interface TryingProps {
  readonly of: WhatIf;
  /** every input that may be tried */
  readonly named: readonly { readonly path: string; readonly meaning: string }[];
}
/** What is tried, kept or dropped by one tap; what keeping it would put aside is said before. It follows when the hand rests. */
export const Trying = memo(TryingNow, (_, b) => b.of.dragging);
function TryingNow({ of, named }: TryingProps) {
  const meaning = (path: string): string => named.find((n) => n.path === path)?.meaning ?? path;
  const replaced = (of.record?.quantities ?? [])
    .filter((q) => q.path in of.tried && q.quantity.origin !== "assumed")
    .map((q) => `${q.meaning} (${q.quantity.origin})`);
  const reason = !here
    ? "Here it can be tried; it is kept on Fettle's own machine."
    : of.issues.length > 0
      ? "First correct what can't be read."
      : of.keepable
        ? ""
        : "The job doesn't store this; it can only be tried.";
  const unsaid = of.keepable && of.whence === "" ? "A guess is no reading: say whether it was measured." : "";
  return (
    <>
      {of.trying && (
        <div className="trying">
          <p>
            <strong>What if:</strong>{" "}
            {Object.entries(of.tried)
              .map(([k, v]) => `${meaning(k)}: ${v}`)
              .join("; ")}
            . The job's own curves are drawn dashed.
          </p>
          {of.keepable && here && (
            <Select
              label="These are"
              value={of.whence}
              options={of.readings ? [["", "say which"], ...whences.slice(1)] : whences}
              onChange={(w) => of.setWhence((w || "assumed") as Whence)}
            />
          )}
          {of.whence === "assumed" && replaced.length > 0 && (
            <p>
              <strong>Check</strong> Keeping it replaces what is recorded with a guess: {replaced.join(", ")}. The record stays in the
              history.
            </p>
          )}
          <button type="button" disabled={reason !== "" || unsaid !== ""} aria-describedby="keep-reason" onClick={() => void of.keep()}>
            Keep in the job
          </button>
          <button type="button" className="plain" onClick={of.drop}>
            Drop
          </button>
          <span id="keep-reason" className="quiet">
            {reason || unsaid}
          </span>
        </div>
      )}
      <Issues of={of.refused} />
      <p className="quiet" role="status">
        {of.said}
      </p>
    </>
  );
}
