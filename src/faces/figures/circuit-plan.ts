import type { Circuit } from "../../ask/drawn/circuit";
import { keyPx, signPx, type Words } from "./circuit-labels";
import type { Laid } from "./circuit-laid";
import { CircuitLayout } from "./circuit-layout";
import { circuitFoot, nodeSentence, partSentence, tubeSentence } from "./circuit-words";

/** A circuit as it is drawn at a width, with what stands below it: told keys, what kills, what is assumed. */
export interface Plan {
  readonly laid: Laid;
  readonly keyed: readonly { readonly key: number; readonly says: string }[];
  readonly foot: ReturnType<typeof circuitFoot>;
}

/** How wide words may be, and on which places: the first that fits is drawn. */
const tries = [
  { narrow: false, wrapPx: 190 },
  { narrow: false, wrapPx: 150 },
  { narrow: false, wrapPx: 120 },
  { narrow: true, wrapPx: 190 },
  { narrow: true, wrapPx: 150 },
  { narrow: true, wrapPx: 120 },
  { narrow: false, wrapPx: 96 },
  { narrow: true, wrapPx: 96 },
] as const;

/** A circuit laid for a width: with words beside its parts where they fit; else with keys, told below. */
export function planOf(circuit: Circuit, width: number): Plan {
  const foot = circuitFoot(circuit);
  for (const t of tries) {
    const laid = new CircuitLayout(circuit, { ...t, words: (_, said) => said }).laid(width);
    if (laid.width <= width) return { laid, keyed: [], foot };
  }
  const keyed: { readonly key: number; readonly says: string }[] = [];
  const keyFor = (
    of: Parameters<ConstructorParameters<typeof CircuitLayout>[1]["words"]>[0],
    said: Words | undefined,
  ): Words | undefined => {
    if (!said || ("end" in of && of.end === "chassis")) return undefined;
    const key = keyed.length + 1;
    const says = "at" in of ? nodeSentence(of) : "kind" in of ? partSentence(of, circuit) : tubeSentence(of);
    keyed.push({ key, says });
    return { lines: [], danger: said.danger, key, width: keyPx + (said.danger ? signPx : 0), height: keyPx };
  };
  const laid = new CircuitLayout(circuit, { narrow: true, wrapPx: 96, words: keyFor }).laid(width);
  return { laid, keyed, foot };
}
