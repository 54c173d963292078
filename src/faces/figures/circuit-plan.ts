import type { Circuit } from "../../ask/drawn/circuit";
import { voltsInShort } from "../../ask/drawn/volts";
import { keyPx, signPx } from "./circuit-labels";
import type { How, Laid } from "./circuit-laid";
import { CircuitLayout } from "./circuit-layout";
import { circuitFoot, nodeSentence, partSentence, tubeSentence } from "./circuit-words";
import { linePx, textPx } from "./picture-text";
import { textWidth } from "./text-width";

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
  { narrow: true, wrapPx: 90 },
] as const;

/** A circuit laid for a width: with words beside its parts where they fit; else with keys, told below. */
export function planOf(circuit: Circuit, width: number): Plan {
  const foot = circuitFoot(circuit);
  for (const t of tries) {
    const laid = new CircuitLayout(circuit, { ...t, words: (_, said) => said }).laid(width);
    if (laid.width <= width) return { laid, keyed: [], foot };
  }
  const [first, ...others] = keyings;
  let plan = keyedPlan(circuit, width, first);
  for (const k of others) if (plan.laid.width > width) plan = keyedPlan(circuit, width, k);
  return { ...plan, foot };
}

type Labelled = Parameters<How["words"]>[0];
/** The one figure of a place. */
const figureOf = (of: Labelled): string => ("at" in of && of.volts && of.end !== "onward" ? voltsInShort(of.volts) : "");
interface Keying {
  readonly isShort: boolean;
  readonly tight: boolean;
}
/** Keys with figures beside them, keys alone, and those with the leads cut short. */
const keyings = [
  { isShort: true, tight: false },
  { isShort: false, tight: false },
  { isShort: false, tight: true },
] as const;
/** The circuit with a key in place of the words of each part and place, and beside it its figure where there is room. */
function keyedPlan(circuit: Circuit, width: number, { isShort, tight }: Keying): Pick<Plan, "laid" | "keyed"> {
  const keyed: { readonly key: number; readonly says: string }[] = [];
  const words: How["words"] = (of, said) => {
    if (!said || ("end" in of && of.end === "chassis")) return undefined;
    // what a live frame is stands below, once
    if ("end" in of && of.end === "live-chassis") return { lines: [], danger: true, width: signPx, height: linePx };
    const key = keyed.length + 1;
    keyed.push({ key, says: "at" in of ? nodeSentence(of) : "kind" in of ? partSentence(of, circuit) : tubeSentence(of) });
    const figure = isShort ? figureOf(of) : "";
    return {
      lines: figure === "" ? [] : [{ text: figure, bold: true, tone: "ink" }],
      danger: said.danger,
      key,
      width: keyPx + (said.danger ? signPx : 0) + (figure === "" ? 0 : 4 + textWidth(figure, textPx)),
      height: keyPx,
    };
  };
  const laid = new CircuitLayout(circuit, { narrow: true, wrapPx: 96, words, tight }).laid(width);
  return { laid, keyed };
}
