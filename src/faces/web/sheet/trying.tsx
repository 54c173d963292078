import { here } from "../opened";
import { Issues, Select } from "../parts";
import { type WhatIf, type Whence, whences } from "./use-what-if";

/** What is tried, kept or dropped by one tap; what keeping it would put aside is said before. */
export function Trying({ of, meanings }: { readonly of: WhatIf; readonly meanings: ReadonlyMap<string, string> }) {
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
  return (
    <>
      {of.trying && (
        <div className="trying">
          <p>
            <strong>What if:</strong>{" "}
            {Object.entries(of.tried)
              .map(([k, v]) => `${meanings.get(k) ?? k}: ${v}`)
              .join("; ")}
            . The job's own curves are drawn dashed.
          </p>
          {of.keepable && here && (
            <Select label="These are" value={of.whence} options={whences} onChange={(w) => of.setWhence(w as Whence)} />
          )}
          {of.whence === "assumed" && replaced.length > 0 && (
            <p>
              <strong>Check</strong> Keeping it replaces what is recorded with a guess: {replaced.join(", ")}. The record stays in the
              history.
            </p>
          )}
          <button type="button" disabled={reason !== ""} aria-describedby="keep-reason" onClick={() => void of.keep()}>
            Keep in the job
          </button>
          <button type="button" className="plain" onClick={of.drop}>
            Drop
          </button>
          <span id="keep-reason" className="quiet">
            {reason}
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
