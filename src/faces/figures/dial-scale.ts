import { type DialFit, dialAt, reach, readingFor } from "../../infer/dial/fitted";
import { bad, good, type Read } from "../../units/issue";

/** A dial scale at true size, to be printed and laid on or behind a dial. All lengths in millimetres. */
export interface ScaleShape {
  readonly shape: "arc" | "straight";
  /** of the line that the marks stand on, for an arc */
  readonly radiusMm: number;
  readonly sweepDeg: number;
  /** of the whole scale, for a straight one */
  readonly lengthMm: number;
  /** which way the scale readings rise: clockwise, or from left to right */
  readonly sense: "forward" | "backward";
  readonly paper: keyof typeof papers;
  /** what the check bars of 100 mm measured on the last print: the reprint makes up for it */
  readonly measuredAcrossMm: number;
  readonly measuredDownMm: number;
}
export const papers = { A4: { widthMm: 210, heightMm: 297 }, Letter: { widthMm: 215.9, heightMm: 279.4 } } as const;
export const usualShape: ScaleShape = {
  shape: "arc",
  radiusMm: 70,
  sweepDeg: 180,
  lengthMm: 150,
  sense: "forward",
  paper: "A4",
  measuredAcrossMm: 100,
  measuredDownMm: 100,
};
const marginMm = 14;
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
interface Mark {
  readonly reading: number;
  readonly lengthMm: number;
  readonly label?: string;
}

const nice = [1e3, 2e3, 5e3, 10e3, 20e3, 25e3, 50e3, 100e3, 200e3, 250e3, 500e3, 1e6, 2e6, 5e6];
/** Marks so that no two of a kind stand closer than can be read. */
function marksOf(fit: DialFit, trackMm: number, span: number): Mark[] {
  const [a, b] = reach(fit);
  const ends = [dialAt(fit, a).hz, dialAt(fit, b).hz].sort((x, y) => x - y);
  const usedMm = (trackMm * (b - a)) / span;
  const stepFor = (leastMm: number): number => nice.find((s) => (usedMm * s) / (ends[1] - ends[0]) >= leastMm) ?? nice[nice.length - 1];
  const major = stepFor(11);
  const minor = nice.filter((s) => major % s === 0 && s < major && (usedMm * s) / (ends[1] - ends[0]) >= 1)[0] ?? major;
  // as many as the step itself has in MHz: a label is never rounded
  const decimals = [0, 1, 2, 3].find((d) => Number.isInteger((major * 10 ** d) / 1e6)) ?? 3;
  const out: Mark[] = [];
  for (let k = Math.ceil(ends[0] / minor); k * minor <= ends[1]; k++) {
    const hz = k * minor;
    const reading = readingFor(fit, hz);
    if (reading === undefined) continue;
    const whole = hz % major === 0;
    const half = hz % (major / 2) === 0;
    out.push({ reading, lengthMm: whole ? 5 : half ? 3.6 : 2.4, ...(whole ? { label: (hz / 1e6).toFixed(decimals) } : {}) });
  }
  return out;
}

const n = (v: number): string => String(Math.round(v * 1000) / 1000);
const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

/** What is wrong with a shape, at the field that is wrong. */
function shapeIssue(s: ScaleShape): ReturnType<typeof bad> | undefined {
  const { widthMm, heightMm } = papers[s.paper];
  const room = widthMm - 2 * marginMm;
  const say = (path: string, read: number, expected: string) => bad(path, "out-of-range", n(read), expected);
  for (const [path, v] of [
    ["measuredAcross", s.measuredAcrossMm],
    ["measuredDown", s.measuredDownMm],
  ] as const)
    if (!(v >= 95 && v <= 105)) return say(path, v, "95 mm to 105 mm: what the bar of 100 mm measured");
  if (s.shape === "straight")
    return s.lengthMm >= 30 && s.lengthMm <= room ? undefined : say("length", s.lengthMm, `30 mm to ${n(room)} mm on this paper`);
  if (!(s.sweepDeg >= 20 && s.sweepDeg <= 340)) return say("sweep", s.sweepDeg, "20 to 340 degrees");
  const halfWide = s.sweepDeg >= 180 ? s.radiusMm : s.radiusMm * Math.sin((s.sweepDeg * Math.PI) / 360);
  const most = Math.min((s.radiusMm * room) / (2 * halfWide + 24), (heightMm - 138) / 2);
  return s.radiusMm >= 15 && s.radiusMm <= most
    ? undefined
    : say("radius", s.radiusMm, `15 mm to ${n(Math.floor(most))} mm at this sweep on this paper`);
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
  const centre = { x: widthMm / 2, y: s.shape === "arc" ? 50 + s.radiusMm : 62 };
  const track = s.shape === "arc" ? (s.radiusMm * s.sweepDeg * Math.PI) / 180 : s.lengthMm;
  const part = (reading: number): number => {
    const t = (reading - c.from) / (c.to - c.from);
    return s.sense === "forward" ? t : 1 - t;
  };
  /** a point at a reading, so far outside the line */
  const at = (reading: number, outMm: number): { x: number; y: number; turnDeg: number } => {
    const t = part(reading);
    if (s.shape === "straight") return { x: centre.x - s.lengthMm / 2 + t * s.lengthMm, y: centre.y - outMm, turnDeg: 0 };
    const turnDeg = (t - 0.5) * s.sweepDeg;
    const a = (turnDeg * Math.PI) / 180;
    const r = s.radiusMm + outMm;
    return { x: centre.x + r * Math.sin(a), y: centre.y - r * Math.cos(a), turnDeg };
  };
  const onScale = (reading: number): boolean => part(reading) >= -1e-9 && part(reading) <= 1 + 1e-9;
  const out: string[] = [];
  const line = (p: { x: number; y: number }, q: { x: number; y: number }, width: number, extra = ""): void => {
    out.push(`<line x1="${n(p.x)}" y1="${n(p.y)}" x2="${n(q.x)}" y2="${n(q.y)}" stroke="#000" stroke-width="${width}"${extra}/>`);
  };
  const text = (x: number, y: number, size: number, said: string, extra = ""): void => {
    out.push(`<text x="${n(x)}" y="${n(y)}" font-size="${size}" font-family="Roboto" fill="#000"${extra}>${escaped(said)}</text>`);
  };
  const middle = ' text-anchor="middle"';
  if (s.shape === "straight") line(at(c.from, 0), at(c.to, 0), 0.25);
  else {
    const [p, q] = [at(s.sense === "forward" ? c.from : c.to, 0), at(s.sense === "forward" ? c.to : c.from, 0)];
    out.push(
      `<path d="M${n(p.x)} ${n(p.y)} A${n(s.radiusMm)} ${n(s.radiusMm)} 0 ${s.sweepDeg > 180 ? 1 : 0} 1 ${n(q.x)} ${n(q.y)}" fill="none" stroke="#000" stroke-width="0.25"/>`,
    );
    // where the shaft goes
    line({ x: centre.x - 3, y: centre.y }, { x: centre.x + 3, y: centre.y }, 0.15);
    line({ x: centre.x, y: centre.y - 3 }, { x: centre.x, y: centre.y + 3 }, 0.15);
  }
  for (const m of marksOf(c.fit, track, Math.abs(c.to - c.from))) {
    if (!onScale(m.reading)) continue;
    line(at(m.reading, 0), at(m.reading, m.lengthMm), m.label ? 0.3 : 0.18);
    if (!m.label) continue;
    const p = at(m.reading, m.lengthMm + 1.6);
    text(p.x, p.y, 3.2, m.label, `${middle} transform="rotate(${n(p.turnDeg)} ${n(p.x)} ${n(p.y)})"`);
  }
  for (const e of c.edges) {
    const edge = readingFor(c.fit, e.hz);
    if (edge === undefined || !onScale(edge)) continue;
    line(at(edge, -6), at(edge, 0), 0.6);
    if (e.safe === undefined || !onScale(e.safe)) continue;
    line(at(e.safe, -4), at(e.safe, 0), 0.3);
    // the strip between edge and safe setting is where the set may be outside
    for (let i = 0; i <= 4; i++) {
      const r = edge + ((e.safe - edge) * i) / 4;
      line(at(r, -3.4), at(r, -1), 0.15);
    }
  }
  text(marginMm, 16, 5, c.title, ' font-weight="bold"');
  c.notes.forEach((said, i) => {
    text(marginMm, 21.5 + 4.5 * i, 3, said);
  });
  const base = heightMm - 24;
  const left = { x: marginMm + 12, y: base };
  line(left, { x: left.x + barMm, y: base }, 0.2);
  line({ x: left.x, y: base }, { x: left.x, y: base - barMm }, 0.2);
  for (const [p, q] of [
    [
      { x: left.x + barMm, y: base - 2 },
      { x: left.x + barMm, y: base + 2 },
    ],
    [
      { x: left.x - 2, y: base - barMm },
      { x: left.x + 2, y: base - barMm },
    ],
    [
      { x: left.x - 2, y: base },
      { x: left.x, y: base },
    ],
    [
      { x: left.x, y: base },
      { x: left.x, y: base + 2 },
    ],
  ])
    line(p, q, 0.2);
  text(left.x + barMm / 2, base + 5, 3, "100 mm across", middle);
  text(left.x - 4, base - barMm / 2, 3, "100 mm down", `${middle} transform="rotate(-90 ${n(left.x - 4)} ${n(base - barMm / 2)})"`);
  text(left.x + 6, base - 14, 3.4, "Measured across: ................ mm     Measured down: ................ mm");
  text(
    left.x + 6,
    base - 7,
    3,
    "Print at 100 %, not fitted to the page. If a bar is not 100 mm, print again with the length you measured.",
  );
  const [sx, sy] = [barMm / s.measuredAcrossMm, barMm / s.measuredDownMm];
  const move = `translate(${n(widthMm / 2)} ${n(heightMm / 2)}) scale(${sx} ${sy}) translate(${n(-widthMm / 2)} ${n(-heightMm / 2)})`;
  return good(
    `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm" viewBox="0 0 ${widthMm} ${heightMm}"><title>${escaped(c.title)}</title><g transform="${move}">${out.join("")}</g></svg>`,
  );
}
