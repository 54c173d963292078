import type { Due } from "../../../job/document";
import { type Place, shortAmount } from "../../../job/rollups/route";
import { State } from "../parts";

/** What a piece of work does to a place: shown on its tag, by how much. */
const Stirred = ({ due }: { readonly due: Due }) => (
  <span className="stirred">
    {due.makes === "redo" ? "do again" : "check"}
    {due.amount ? `: ${shortAmount(due.amount)}` : ""}
  </span>
);

/** A tag tied to the string: what it is, its state by shape and word, its figure; opened, its place lies open below it. */
export function Tag({
  place: p,
  open,
  lit,
  choose,
}: {
  readonly place: Place;
  readonly open: boolean;
  readonly lit: Due | undefined;
  readonly choose: (path: string) => void;
}) {
  const figure = p.left ?? p.found;
  const classes = ["tag", p.lies, lit ? "lit" : "", p.state === "due again" ? "due" : ""].filter(Boolean).join(" ");
  return (
    <button type="button" className={classes} aria-expanded={open} aria-controls="place" onClick={() => choose(open ? "" : p.path)}>
      <span className="hole" aria-hidden="true" />
      <strong>{p.label}</strong>
      <span className="part">{p.part.split(", ")[0]}</span>
      {lit ? (
        <Stirred due={lit} />
      ) : (
        <>
          {p.faultsCount > 0 && <span className="faulty">{p.faultsCount > 1 ? `${p.faultsCount} faults` : "fault"}</span>}
          {p.lies === "hung" && <span className="state">{p.fitting}</span>}
          {p.lies !== "hung" && (p.faultsCount === 0 || p.state === "in work" || p.state === "due again") && <State state={p.state} />}
          {p.amount && <span className="amount">{p.amount}</span>}
          {figure && <span className="figure">{`${p.left ? "left" : "found"}: ${figure}`}</span>}
        </>
      )}
    </button>
  );
}
