import type { CircuitNode, CircuitPart, End, Volts } from "./circuit";
import type { CircuitSketch } from "./pictures";

/** A part whose nodes follow from where it stands. */
export type Loose = Omit<CircuitPart, "from" | "to">;
/** One place along the path: what leads to it from the place before, what it is, and what hangs on it down to the common side. */
export interface Rung {
  /** none: a wire */
  readonly series?: Loose;
  readonly label?: string | undefined;
  readonly volts?: Volts | undefined;
  readonly end?: End;
  /** each a chain of parts, one below the other, with what stands below each; the last ends in the common side where nothing else is said */
  readonly down?: readonly (readonly (Loose & { readonly below?: Omit<CircuitNode, "id" | "at" | "narrow"> })[])[];
}

/**
 * A circuit along one path, such as a filter or a coupling: from left to right on a wide page, from the top down on a narrow one.
 *
 * @param head name, title and the common side
 * @param rungs places in order; the first has nothing before it
 * @returns the circuit
 * @source house frame
 */
export function ladder(head: Pick<CircuitSketch, "id" | "title"> & { readonly common: End }, rungs: readonly Rung[]): CircuitSketch {
  const nodes: CircuitNode[] = [];
  const parts: CircuitPart[] = [];
  const put = (column: number, level: number, more: Omit<CircuitNode, "id" | "at">): string => {
    const id = `${column}-${level}`;
    nodes.push({ id, at: [column, level], narrow: [level, column], ...more });
    return id;
  };
  let column = 0;
  let last: string | undefined;
  for (const { series, down = [], ...node } of rungs) {
    if (last !== undefined) column++;
    const here = put(column, 0, node);
    if (last !== undefined) parts.push({ kind: "wire", what: "wire", ...series, from: last, to: here });
    last = here;
    for (const [k, chain] of down.entries()) {
      if (k > 0) {
        column++;
        const beside = put(column, 0, {});
        parts.push({ kind: "wire", what: "wire", from: last, to: beside });
        last = beside;
      }
      let above = last;
      for (const [i, { below, ...part }] of chain.entries()) {
        const foot = put(column, i + 1, { ...(i === chain.length - 1 ? { end: head.common } : {}), ...below });
        parts.push({ ...part, from: above, to: foot });
        above = foot;
      }
    }
  }
  return { kind: "circuit", id: head.id, title: head.title, nodes, parts, tubes: [] };
}
