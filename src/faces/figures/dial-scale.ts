import { type DialFit, readingFor } from "../../infer/dial/fitted";
import { bad, good, type Read } from "../../units/issue";
import { marksOf } from "./dial-scale-marks";
import { marginMm, papers, type ScaleShape, type ScaleTrack, shapeIssue, trackOf } from "./dial-scale-shape";

const barMm = 100;

export interface ScaleContent {
  readonly title: string;
  /** what the scale holds for, a line each */
  readonly notes: readonly string[];
  readonly fit: DialFit;
  /** readings at the two ends of the pointer's travel */
  readonly from: number;
  readonly to: number;
  /** band edges and the settings that are certain to be inside, Hz and readings */
  readonly edges: readonly { readonly hz: number; readonly safe: number | undefined }[];
}

const n = (v: number): string => String(Math.round(v * 1000) / 1000);
const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
interface Point {
  readonly x: number;
  readonly y: number;
}
const line = (p: Point, q: Point, width: number): string =>
  `<line x1="${n(p.x)}" y1="${n(p.y)}" x2="${n(q.x)}" y2="${n(q.y)}" stroke="#000" stroke-width="${width}"/>`;
const text = (p: Point, size: number, said: string, extra = ""): string =>
  `<text x="${n(p.x)}" y="${n(p.y)}" font-size="${size}" font-family="Roboto" fill="#000"${extra}>${escaped(said)}</text>`;
const middle = ' text-anchor="middle"';

/** The line that the marks stand on, and the cross where the shaft of an arc goes. */
function base(c: ScaleContent, s: ScaleShape, { at, centre }: ScaleTrack): string[] {
  if (s.shape === "straight") return [line(at(c.from, 0), at(c.to, 0), 0.25)];
  const [p, q] = [at(s.sense === "forward" ? c.from : c.to, 0), at(s.sense === "forward" ? c.to : c.from, 0)];
  return [
    `<path d="M${n(p.x)} ${n(p.y)} A${n(s.radiusMm)} ${n(s.radiusMm)} 0 ${s.sweepDeg > 180 ? 1 : 0} 1 ${n(q.x)} ${n(q.y)}" fill="none" stroke="#000" stroke-width="0.25"/>`,
    line({ x: centre.x - 3, y: centre.y }, { x: centre.x + 3, y: centre.y }, 0.15),
    line({ x: centre.x, y: centre.y - 3 }, { x: centre.x, y: centre.y + 3 }, 0.15),
  ];
}

const marked = (c: ScaleContent, { at, lengthMm, holds }: ScaleTrack): string[] =>
  marksOf(c.fit, lengthMm, Math.abs(c.to - c.from))
    .filter((m) => holds(m.reading))
    .flatMap((m) => {
      const drawn = line(at(m.reading, 0), at(m.reading, m.lengthMm), m.label ? 0.3 : 0.18);
      if (!m.label) return [drawn];
      const p = at(m.reading, m.lengthMm + 1.6);
      return [drawn, text(p, 3.2, m.label, `${middle} transform="rotate(${n(p.turnDeg)} ${n(p.x)} ${n(p.y)})"`)];
    });

/** Band edges, and the strip between edge and safe setting, where the set may be outside. */
const edged = (c: ScaleContent, { at, holds }: ScaleTrack): string[] =>
  c.edges.flatMap(({ hz, safe }) => {
    const edge = readingFor(c.fit, hz);
    if (edge === undefined || !holds(edge)) return [];
    const drawn = line(at(edge, -6), at(edge, 0), 0.6);
    if (safe === undefined || !holds(safe)) return [drawn];
    const hatch = [0, 1, 2, 3, 4].map((i) => edge + ((safe - edge) * i) / 4).map((r) => line(at(r, -3.4), at(r, -1), 0.15));
    return [drawn, line(at(safe, -4), at(safe, 0), 0.3), ...hatch];
  });

/** Bars of 100 mm both ways, by which a print is measured. */
function checkBars(heightMm: number): string[] {
  const left = { x: marginMm + 12, y: heightMm - 24 };
  const from = (x: number, y: number): Point => ({ x: left.x + x, y: left.y + y });
  const down = { x: n(left.x - 4), y: n(left.y - barMm / 2) };
  return [
    line(left, from(barMm, 0), 0.2),
    line(left, from(0, -barMm), 0.2),
    line(from(barMm, -2), from(barMm, 2), 0.2),
    line(from(-2, -barMm), from(2, -barMm), 0.2),
    line(from(-2, 0), left, 0.2),
    line(left, from(0, 2), 0.2),
    text(from(barMm / 2, 5), 3, "100 mm across", middle),
    text(from(-4, -barMm / 2), 3, "100 mm down", `${middle} transform="rotate(-90 ${down.x} ${down.y})"`),
    text(from(6, -14), 3.4, "Measured across: ................ mm     Measured down: ................ mm"),
    text(from(6, -7), 3, "Print at 100 %, not fitted to the page. If a bar is not 100 mm, print again with the length you measured."),
  ];
}

/**
 * A dial scale at true size as SVG in millimetres, with check bars of 100 mm both ways.
 *
 * @param c the dial's law and what stands on the scale
 * @param s shape, size and paper
 * @returns SVG of the page, or the issue at the field that is wrong
 */
export function dialScaleSvg(c: ScaleContent, s: ScaleShape): Read<string> {
  const wrong = shapeIssue(s);
  if (wrong) return wrong;
  if (!(Math.abs(c.to - c.from) > 0)) return bad("scaleHigh", "no-span", String(c.to), "two different ends of the scale");
  const { widthMm, heightMm } = papers[s.paper];
  const track = trackOf(s, c.from, c.to);
  const drawn = [
    ...base(c, s, track),
    ...marked(c, track),
    ...edged(c, track),
    text({ x: marginMm, y: 16 }, 5, c.title, ' font-weight="bold"'),
    ...c.notes.map((said, i) => text({ x: marginMm, y: 21.5 + 4.5 * i }, 3, said)),
    ...checkBars(heightMm),
  ];
  const [sx, sy] = [barMm / s.measuredAcrossMm, barMm / s.measuredDownMm];
  const move = `translate(${n(widthMm / 2)} ${n(heightMm / 2)}) scale(${sx} ${sy}) translate(${n(-widthMm / 2)} ${n(-heightMm / 2)})`;
  return good(
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}"><title>${escaped(c.title)}</title><g transform="${move}">${drawn.join("")}</g></svg>`,
  );
}
