import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet, subjectsOf } from "../../job/view";
import { patterns } from "../../set/patterns/kinds";
import { asRead } from "../../sheets/as-read.testdata";
import { sheets } from "../../sheets/index";
import { orThrow } from "../../units/issue";
import { type Drawing, drawingOf, hasValues } from "./drawing";
import { dayInk, drawnOf, svgOf, svgText } from "./svg";
import { textWidth } from "./text-width";

interface Word {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly foot: number;
}
/** Names as a reader of the picture would measure them. */
const wordsOf = (svg: string): Word[] =>
  [...svg.matchAll(/<text class="label [^"]*" x="([\d.]+)" y="([\d.]+)" font-size="(\d+)"[^>]*>([^<]*)</g)].map(([, x, y, type, said]) => {
    const text = said.replace(/&#(\d+);/g, (_, c) => String.fromCharCode(Number(c)));
    // from the height of its capitals to what hangs below the line
    const [left, foot] = [Number(x), Number(y) + 0.2 * Number(type)];
    return { text, left, right: left + textWidth(text, Number(type)), top: Number(y) - 0.72 * Number(type), foot };
  });
const pointsOf = (svg: string): (readonly [number, number])[] => [
  ...[...svg.matchAll(/<circle class="point" cx="([\d.]+)" cy="([\d.]+)"/g)].map((m) => [Number(m[1]), Number(m[2])] as const),
  ...[...svg.matchAll(/<path class="trace [^"]*"[^>]*? d="([^"]*)"/g)].flatMap((m) => {
    const at = [...m[1].matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map((p) => [Number(p[1]), Number(p[2])] as const);
    // between two points a curve is drawn straight: looked at every half px
    return at.slice(1).flatMap(([x, y], i) => {
      const [x0, y0] = at[i];
      const n = Math.ceil(2 * Math.hypot(x - x0, y - y0)) || 1;
      return Array.from({ length: n + 1 }, (_, k) => [x0 + ((x - x0) * k) / n, y0 + ((y - y0) * k) / n] as const);
    });
  }),
];
interface Size {
  readonly width: number;
  readonly height: number;
  readonly type: number;
  readonly bare: boolean;
}
/** Whether a line runs through a word, looked at every half px; its own begins at its edge, as far as numbers are written out. */
function runsThrough([x0, y0, x1, y1]: readonly number[], w: Word): boolean {
  const n = Math.ceil(2 * Math.hypot(x1 - x0, y1 - y0)) || 1;
  return Array.from({ length: n + 1 }, (_, k) => k / n).some((part) => {
    const [x, y] = [x0 + (x1 - x0) * part, y0 + (y1 - y0) * part];
    return x > w.left + 0.01 && x < w.right - 0.01 && y > w.top + 0.01 && y < w.foot - 0.01;
  });
}
function faultsOf(d: Drawing, size: Size, svg: string = svgOf(d, size)): string[] {
  const height = Number(/viewBox="0 0 [\d.]+ ([\d.]+)"/.exec(svg)?.[1]);
  const words = wordsOf(svg);
  const points = pointsOf(svg);
  const uprights = [...svg.matchAll(/<path class="place"[^>]*? d="M([\d.]+) ([\d.]+)V([\d.]+)"/g)].map((m) => m.slice(1).map(Number));
  const [said, wanted] = [words.map((w) => w.text).join(" "), d.traces.map((t) => t.label)];
  const leads = [...svg.matchAll(/<path class="leader"[^>]*? d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)"/g)].map((m) =>
    m.slice(1).map(Number),
  );
  // what isn't found in the picture can't be seen to lie under a name
  const seen = [...svg.matchAll(/<path class="trace /g)].length;
  const found = [...svg.matchAll(/<path class="trace [^"]*"[^>]*? d="M/g)].length;
  return [
    ...(points.length > 0 && found === seen ? [] : ["a curve that isn't looked at"]),
    ...(uprights.length === [...svg.matchAll(/<path class="place"/g)].length ? [] : ["an upright line that isn't looked at"]),
    ...wanted.filter((l) => !l.split(" ").every((w) => said.includes(w))).map((l) => `${l}: not named`),
    ...words.filter((w) => w.left < 0 || w.right > size.width || w.top < 0 || w.foot > height).map((w) => `${w.text}: outside`),
    ...words
      .filter((w) => points.some(([x, y]) => x > w.left && x < w.right && y > w.top && y < w.foot))
      .map((w) => `${w.text}: over a curve or a point`),
    ...words
      .filter((w) => uprights.some(([x, top, foot]) => x > w.left && x < w.right && foot > w.top && top < w.foot))
      .map((w) => `${w.text}: over an upright line`),
    ...(leads.length === [...svg.matchAll(/<path class="leader"/g)].length ? [] : ["a line to what is named that isn't looked at"]),
    ...words.filter((w) => leads.some((l) => runsThrough(l, w))).map((w) => `${w.text}: a line leads through it`),
    ...words.flatMap((a, i) =>
      words
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.foot && b.top < a.foot)
        .map((b) => `${a.text} over ${b.text}`),
    ),
  ];
}
const set = { ...patterns[1], chassis: { state: "isolated" as const, isolation: "none" as const, note: "" } };
const drawings = sheets.flatMap((s) => {
  const at = subjectsOf(set, s.subject, s.fitting, s.stageKinds)[0] ?? "";
  const a = orThrow(answer(s, benchOfSet(set, at), { draws: 20, points: 201, overrides: asRead(s) }));
  return s.figures.filter((f) => hasValues(f, a)).map((f) => [`${s.id} ${f.id}`, drawingOf(f, a)] as const);
});
const sizes = [
  { width: 350, height: 160, type: 16, bare: true },
  { width: 350, height: 260, type: 16, bare: false },
  { width: 358, height: 260, type: 16, bare: false },
  { width: 640, height: 352, type: 16, bare: false },
  { width: 480, height: 220, type: 10, bare: false },
];

/** A hand moves a drawing so far: every curve grows and slides, the more the further it lies from its first point. */
const movedBy = (d: Drawing, part: number): Drawing => {
  const slid = (y: readonly number[]) => y.map((v, i) => v * (1 + part) + (v - y[0]) * part * (i / y.length));
  return {
    ...d,
    traces: d.traces.map((t) => ({
      ...t,
      y: slid(t.y),
      ...(t.low && t.high ? { low: slid(t.low), high: slid(t.high) } : {}),
    })),
  };
};

describe("names in a picture", () => {
  it("are many, so that this means something", () => expect(drawings.length).toBeGreaterThan(20));
  it.each(drawings)("%s: every curve is named, no name over another, over a curve or over what was measured", (_, d) => {
    for (const size of sizes) expect(faultsOf(d, size), `${size.width} by ${size.height}`).toEqual([]);
  });
  it.each(drawings)("%s: so too with the record behind what is tried", (_, d) => {
    const behind = d.traces.map((t) => ({ ...t, label: `${t.label} (job)`, y: t.y.map((v) => v * 0.98) }));
    for (const size of sizes.slice(0, 2)) expect(faultsOf({ ...d, traces: [...behind, ...d.traces] }, size)).toEqual([]);
  });
  it.each(drawings)("%s: so too while a hand moves it, and names stay where they are as long as they can", (_, d) => {
    for (const size of sizes.slice(0, 4)) {
      let drawn = drawnOf(d, size, dayInk);
      for (const part of [0.0005, 0.01, 0.03, 0.08, 0.2, 0.05, -0.1]) {
        const moved = movedBy(d, part);
        const next = drawnOf(moved, size, dayInk, drawn);
        expect(faultsOf(moved, size, svgText(next)), `${size.width} by ${size.height}, moved by ${part}`).toEqual([]);
        // a move that is hardly seen, on the same scales, moves no name by more than the height of its letters
        if (part === 0.0005 && next.under === drawn.under)
          for (const { text, at } of next.stood.inField) {
            const was = drawn.stood.inField.find((n) => n.text === text)?.at;
            expect(Math.hypot(at.x - (was?.x ?? 0), at.y - (was?.y ?? 0)), text).toBeLessThan(size.type);
          }
        drawn = next;
      }
    }
  });
});
