import type { Circuit } from "../../ask/drawn/circuit";
import { voltsInShort } from "../../ask/drawn/volts";
import { keyPx, signPx, type Told, toldWithin, type Words } from "./circuit-labels";
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
/** How wide words beside keys may be. */
const besideKeysPx = 96;

/** A circuit laid for a width: with words beside its parts where they fit; else with as many of them as do, and keys for the others, told below. */
export function planOf(circuit: Circuit, width: number): Plan {
  const foot = circuitFoot(circuit);
  const known = new Map<number, Told>();
  const within = (wrapPx: number): Told => {
    const told = known.get(wrapPx) ?? toldWithin(circuit, wrapPx);
    known.set(wrapPx, told);
    return told;
  };
  for (const { narrow, wrapPx } of tries) {
    const layout = new CircuitLayout(circuit, { narrow, told: within(wrapPx), words: (_, said) => said });
    if (layout.fits(width)) return { laid: layout.laid(width), keyed: [], foot };
  }
  const { laid, keyed } = withKeys(circuit, width, within(besideKeysPx));
  const says = (of: Labelled): string => ("at" in of ? nodeSentence(of) : "kind" in of ? partSentence(of, circuit) : tubeSentence(of));
  return { laid, keyed: keyed.map((of, i) => ({ key: i + 1, says: says(of) })), foot };
}

type Labelled = Parameters<How["words"]>[0];
/** How much of its words a part, tube or place has beside it: all of them, or those that name or measure it. */
type Extent = "all" | "chief";
interface Keying {
  /** one figure beside a key */
  readonly figures: boolean;
  readonly tight: boolean;
}
/** Keys with figures beside them, keys alone, and those with the leads cut short. */
const keyings = [
  { figures: true, tight: false },
  { figures: false, tight: false },
  { figures: false, tight: true },
] as const;
/** The one figure of a place. */
const figureOf = (of: Labelled): string => ("at" in of && of.volts && of.end !== "onward" ? voltsInShort(of.volts) : "");
/** The lines that name or measure it. */
function chief({ lines, danger }: Words): Words {
  const kept = lines.filter((l) => l.bold);
  const width = Math.max(0, ...kept.map((l) => textWidth(l.text, textPx))) + (danger ? signPx : 0);
  return { lines: kept, danger, width, height: kept.length * linePx };
}
/**
 * The circuit with keys, and words in their place as long as the drawing stays within its width: first the value or name of one part after the other, then
 * all that is said of places and of them. What has a value or name alone is known by where it stands; where a word more is said of a part, as what it has to
 * stand, it has all of its words or a key.
 *
 * @returns how it is laid, and what has a key, in the order of the keys
 */
function withKeys(circuit: Circuit, width: number, told: Told): { readonly laid: Laid; readonly keyed: readonly Labelled[] } {
  const extents = new Map<Labelled, Extent>();
  const layoutBy = ({ figures, tight }: Keying) => {
    const keyed: Labelled[] = [];
    const words: How["words"] = (of, said) => {
      if (!said || ("end" in of && of.end === "chassis")) return undefined;
      // what a live frame is stands below, once
      if ("end" in of && of.end === "live-chassis") return { lines: [], danger: true, width: signPx, height: linePx };
      const extent = extents.get(of);
      if (extent) return extent === "all" ? said : chief(said);
      keyed.push(of);
      return keyWords(keyed.length, said.danger, figures ? figureOf(of) : "");
    };
    return { layout: new CircuitLayout(circuit, { narrow: true, told, words, tight }), keyed };
  };
  const keying = keyings.find((k) => layoutBy(k).layout.fits(width)) ?? keyings[2];
  let plan = layoutBy(keying);
  const tried = (of: Labelled, extent: Extent): void => {
    const before = extents.get(of);
    extents.set(of, extent);
    const next = layoutBy(keying);
    if (next.layout.fits(width)) plan = next;
    else if (before) extents.set(of, before);
    else extents.delete(of);
  };
  const parts = [...circuit.parts, ...circuit.tubes].filter((of) => plan.keyed.includes(of));
  for (const p of parts) tried(p, "says" in p && p.says ? "all" : "chief");
  for (const n of circuit.nodes.filter((n) => plan.keyed.includes(n))) tried(n, "all");
  for (const p of parts) if (extents.get(p) === "chief") tried(p, "all");
  return { laid: plan.layout.laid(width), keyed: plan.keyed };
}
/** A key, and a figure beside it. */
const keyWords = (key: number, danger: boolean, figure: string): Words => ({
  lines: figure === "" ? [] : [{ text: figure, bold: true, tone: "ink" }],
  danger,
  key,
  width: keyPx + (danger ? signPx : 0) + (figure === "" ? 0 : 4 + textWidth(figure, textPx)),
  height: keyPx,
});
