import { type Caution, isOpen, type State, stateWord } from "../../standards/cautions";
import { upperFirst } from "../../units/sentence";

/** What the hands are at, pinned once at the foot of the page with what is to be heeded there; the cautions of each step stand beside it as well. */
export const Pinned = ({ state, cautions }: { readonly state: State; readonly cautions: readonly Caution[] }) => (
  <aside className={`pinned noprint ${state}`} aria-label="State of the set for this work">
    <strong>{upperFirst(stateWord[state])}.</strong>{" "}
    {isOpen(state)
      ? cautions
          .slice(0, 1)
          .map((c) => c.says)
          .join(" ") || "B+ kills: MEASURE before you touch."
      : "B+ kills. Measure before you touch; local code and licensed practice prevail."}
  </aside>
);
