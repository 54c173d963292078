/**
 * Where the columns of a drawing stand: as close together as what lies beside them lets them. Everything that takes room hangs on a column, in a zone of
 * the height; two things in one zone may not meet, two in different zones cannot.
 */
export interface Item {
  readonly zone: string;
  readonly column: number;
  /** how far it reaches to the left and to the right of its column; negative where it begins beside it */
  readonly left: number;
  readonly right: number;
}
/** The least distance of two columns, as of a part that lies between them. */
export interface Gap {
  readonly from: number;
  readonly to: number;
  readonly least: number;
}
export const padPx = 10;

/** Of all that hangs on one column in one zone, what reaches farthest to either side. */
function widest(items: readonly Item[]): Item[] {
  const by = new Map<string, Item>();
  for (const i of items) {
    const key = `${i.zone} ${i.column}`;
    const o = by.get(key);
    by.set(key, o ? { ...o, left: Math.max(o.left, i.left), right: Math.max(o.right, i.right) } : i);
  }
  return [...by.values()];
}
/** The greatest of the least distances of each pair of columns. */
function gapsOf(items: readonly Item[], own: readonly Gap[]): Gap[] {
  const by = new Map<string, Gap>();
  const ask = (g: Gap): void => {
    const key = `${g.from} ${g.to}`;
    if (g.least > (by.get(key)?.least ?? Number.NEGATIVE_INFINITY)) by.set(key, g);
  };
  for (const a of items)
    for (const b of items)
      if (a.zone === b.zone && a.column < b.column) ask({ from: a.column, to: b.column, least: a.right + b.left + padPx });
  for (const g of own) ask(g);
  return [...by.values()];
}

/**
 * Middles of the columns, and the width that all of it takes.
 *
 * @param columns how many
 * @param all what hangs on them
 * @param own distances asked for besides
 * @param spare width to be shared out between the columns, at most so much for each
 */
export function columnsAt(
  columns: number,
  all: readonly Item[],
  own: readonly Gap[],
  spare: { readonly width: number; readonly most: number } = { width: 0, most: 0 },
): { readonly x: readonly number[]; readonly width: number } {
  const items = widest(all);
  const gaps = gapsOf(items, own);
  const place = (more: number) => {
    const x = new Array<number>(columns).fill(0);
    for (let c = 0; c < columns; c++) {
      for (const i of items) if (i.column === c) x[c] = Math.max(x[c], i.left + padPx);
      if (c > 0) x[c] = Math.max(x[c], x[c - 1] + more);
      for (const g of gaps) if (g.to === c) x[c] = Math.max(x[c], x[g.from] + g.least + more);
    }
    return { x, width: Math.max(...items.map((i) => x[i.column] + i.right), ...x) + padPx };
  };
  const tight = place(0);
  if (columns < 2 || tight.width >= spare.width) return tight;
  return place(Math.min(spare.most, (spare.width - tight.width) / (columns - 1)));
}
