import { createContext, useContext } from "preact/compat";
import { type NeverWaits, neverWaits } from "./waits";

/** Whether Fettle isn't answering. */
export const Gone = createContext(false);

/** Beside an act that can't be held in this browser, for as long as Fettle is away: that, why, and what to do instead. */
export function CantWait({ act }: { readonly act: NeverWaits }) {
  if (!useContext(Gone)) return null;
  return <p className="gone" role="status">{`While Fettle is away this is neither done nor held here: ${neverWaits[act]}.`}</p>;
}
