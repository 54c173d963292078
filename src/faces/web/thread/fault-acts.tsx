import { useState } from "preact/compat";
import type { TracedFault } from "../../../desk/traced";
import { isOpenFault, isSought } from "../../../job/faults/faults";
import { questionById } from "../../../sheets/asked";
import type { Issue } from "../../../units/issue";
import { api } from "../api";
import { useKept } from "../kept";
import { jobLink } from "../links";
import { Issues } from "../parts";
import { issuesOf } from "../task";

type Does = "trace" | "cause" | "prove" | "close" | "leave" | "open-again";
/** What may be said of a fault as it stands now, the usual next one first. */
const nextActs: Readonly<Record<TracedFault["state"], readonly Does[]>> = {
  noticed: ["cause", "trace", "leave"],
  "being traced": ["cause", "trace", "leave"],
  "cause found": ["leave"],
  mended: ["prove", "open-again"],
  proved: ["close", "open-again"],
  closed: ["open-again"],
  left: ["open-again"],
  "open again": ["cause", "trace", "leave"],
};
const says: Readonly<Record<Does, { readonly button: string; readonly asks?: string }>> = {
  trace: { button: "Tried something", asks: "What you tried, and what it showed" },
  cause: { button: "Found the cause", asks: "What it was" },
  prove: { button: "It is proved", asks: "What you read again, and how" },
  close: { button: "Close it" },
  leave: { button: "Leave it as it is", asks: "Why it is left" },
  "open-again": { button: "Open it again", asks: "What shows it" },
};

/** One act in a fault's life: its words asked for, then recorded. */
function Act({
  does,
  fault,
  name,
  reload,
}: {
  readonly does: Does;
  readonly fault: TracedFault;
  readonly name: string;
  readonly reload: () => void;
}) {
  const [open, setOpen] = useState(false);
  const [words, setWords] = useKept(`fault:${name}:${fault.id}:${does}`, "");
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const { button, asks } = says[does];
  const record = async () => {
    try {
      await api.fault(name, { does, fault: fault.id, ...(does === "cause" ? { cause: words } : { words }) });
      setWords("");
      setIssues([]);
      setOpen(false);
      reload();
    } catch (e) {
      setIssues(issuesOf(e));
    }
  };
  if (asks === undefined || open)
    return (
      <span className="act">
        {asks && (
          <label className="field">
            {asks}
            <input value={words} onChange={(e) => setWords(e.currentTarget.value)} />
          </label>
        )}
        <button type="button" onClick={() => void record()} aria-label={`${asks ? `Record it: ${button}` : button}: ${fault.label}`}>
          {asks ? "Record it" : button}
        </button>
        <Issues of={issues} />
      </span>
    );
  return (
    <button type="button" className="plain" onClick={() => setOpen(true)} aria-label={`${button}: ${fault.label}`}>
      {button}
    </button>
  );
}

/** What can be done about it: what tells the causes apart comes before mending, until one is found. */
export function Ways({ of: f, name, reload }: { readonly of: TracedFault; readonly name: string; readonly reload: () => void }) {
  const open = isOpenFault(f);
  const question = f.asks && questionById(f.asks.sheet);
  const isExplained = question !== undefined && isSought(f);
  return (
    <p className="buttons">
      {question && f.asks && (
        <a
          className={isExplained ? "button" : "button plain"}
          href={jobLink(name, "sheet", f.asks.sheet, ...(f.asks.at ? [f.asks.at] : []))}
        >
          {question.question}
        </a>
      )}
      {f.state === "mended" && f.readOn && (
        <a className="button" href={jobLink(name, "records", f.readOn)}>
          Write what you read
        </a>
      )}
      {open && (
        <a
          className={f.state === "cause found" ? "button" : "button plain"}
          href={jobLink(name, "mend", f.place, f.unrecorded ? "" : f.id)}
        >
          Mend it
        </a>
      )}
      {nextActs[f.state].map((does) => (
        <Act key={does} does={does} fault={f} name={name} reload={reload} />
      ))}
    </p>
  );
}
