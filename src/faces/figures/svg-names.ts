import { type Canvas, type Name, type Named, sampleEm } from "./named";
import { escaped, type Ink, type Path, type Placed, round } from "./svg-parts";

/** Width of a line, in the unit of the size. */
export const strokeOf = (type: number, tone: Name["tone"]): string => round((tone === "faint" ? 1.3 : 1.8) * Math.max(1, type / 12));

/** A line of a name, over a halo of paper. */
function nameLine(said: string, at: string, { tone, kind }: Name, ink: Ink): string {
  const halo = ink.laysPaper ? "" : `<text class="halo" ${at} fill="${ink.paper}" stroke="${ink.paper}" stroke-width="3">${said}</text>`;
  return `${halo}<text class="label ${tone} ${kind}" ${at} fill="${ink[tone]}">${said}</text>`;
}
/** The lines of a name, one under the other, wherever it is put. */
function placed(n: Name & { readonly lines: readonly string[] }, { x, y }: { readonly x: number; readonly y: number }, how: How): Placed {
  const { type, step, ink } = how;
  const lines = n.lines.map(escaped);
  const at = (x: number, y: number): string =>
    lines
      .map((said, i) =>
        nameLine(said, `x="${round(x)}" y="${round(y + type * (1 + step * i))}" font-size="${type}" font-weight="bold"`, n, ink),
      )
      .join("");
  return { x, y, at };
}
interface How {
  readonly type: number;
  /** from line to line, in letters' heights */
  readonly step: number;
  readonly ink: Ink;
}
/** Names beside what they name, and above the field those that found no room in it; and the lines that lead from them to what they name, or show it. */
export function writtenNames(
  { canvas, inField, above }: Named<Canvas>,
  ink: Ink,
): { readonly names: readonly Placed[]; readonly leads: readonly Path[] } {
  const { type } = canvas.plot;
  const there = inField.map((n) => placed({ ...n, lines: n.at.lines }, { x: n.at.x + 2, y: n.at.y }, { type, step: 1.2, ink }));
  const over = above.map((n) => placed(n, { x: n.x + type * (sampleEm + 0.4), y: n.y }, { type, step: 1.3, ink }));
  const leads = inField.flatMap(({ tone, at: { leader } }): Path[] => {
    if (!leader) return [];
    const [[x0, y0], [x1, y1]] = leader;
    const look = `class="leader" stroke="${ink[tone]}" stroke-width="1" fill="none"`;
    return [{ look, d: `M${round(x0)} ${round(y0)}L${round(x1)} ${round(y1)}` }];
  });
  const samples = above.map(({ tone, dash, x, y }): Path => {
    const look = `class="sample ${tone}" fill="none" stroke="${ink[tone]}" stroke-width="${strokeOf(type, tone)}"${dash ? ' stroke-dasharray="6 4"' : ""}`;
    return { look, d: `M${round(x)} ${round(y + type * 0.65)}h${round(type * sampleEm)}` };
  });
  return { names: [...there, ...over], leads: [...leads, ...samples] };
}
