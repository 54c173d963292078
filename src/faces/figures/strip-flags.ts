import type { Strips } from "../../ask/drawings";

const charPx = 5.9;

/** Words of one span, placed. */
export interface Placed {
  readonly x: number;
  readonly x2: number;
  readonly textAt: number;
  readonly width: number;
  level: number;
  readonly says: string;
  readonly isPlace: boolean;
  /** whether the words end at the pole */
  readonly turned: boolean;
}
/**
 * Words above their spans, on as many levels as it takes. A place carries its words like a flag beside its pole; of two that would meet
 * the left one flies higher, so that no pole goes through another's words.
 */
export function placed(
  row: Strips["rows"][number],
  x: (v: number) => number,
  { left, right }: { readonly left: number; readonly right: number },
): { readonly marks: readonly Placed[]; readonly levels: number } {
  // from the right: whose flag has turned
  let turnedAt: readonly number[] = [];
  const marks = [...row.spans]
    .sort((a, b) => b.from - a.from)
    .map((s) => {
      const [a, b] = [x(s.from), x(s.to)];
      const isPlace = s.from === s.to;
      const width = s.says.length * charPx + 6;
      // at the right edge a flag flies to the left of its pole, and so does one that would meet the pole of such a flag: else each would have to fly above the other
      const turned = isPlace && (a + 3 + width > right || turnedAt.some((at) => at >= a && at <= a + 5 + width));
      if (turned) turnedAt = [...turnedAt, a];
      const textAt = Math.max(left, isPlace ? (turned ? a - 3 - width : a + 3) : Math.min((a + b) / 2 - width / 2, right - width));
      return { x: a, x2: b, textAt, width, level: 0, says: s.says, isPlace, turned };
    })
    .reverse();
  const covers = (m: Placed, at: number): boolean => at >= m.textAt - 2 && at <= m.textAt + m.width;
  const meet = (a: Placed, b: Placed): boolean => a.textAt < b.textAt + b.width && b.textAt < a.textAt + a.width;
  for (let round = 0, moved = true; moved && round < marks.length; round++) {
    moved = false;
    for (const [i, a] of marks.entries())
      for (const [j, b] of marks.entries()) {
        if (i === j || a.level > b.level) continue;
        const over = b.isPlace && covers(a, b.x);
        if (!over && !(a.level === b.level && meet(a, b) && !covers(b, a.x) && i < j)) continue;
        a.level = b.level + 1;
        moved = true;
      }
  }
  return { marks, levels: Math.max(1, ...marks.map((m) => m.level + 1)) };
}
