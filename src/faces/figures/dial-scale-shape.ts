import { bad } from "../../units/issue";

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
/** Left free at each edge of the paper. */
export const marginMm = 14;

const millimetres = (v: number): string => String(Math.round(v * 1000) / 1000);
/** What is wrong with a shape, at the field that is wrong. */
export function shapeIssue(s: ScaleShape): ReturnType<typeof bad> | undefined {
  const { widthMm, heightMm } = papers[s.paper];
  const room = widthMm - 2 * marginMm;
  const say = (path: string, read: number, expected: string) => bad(path, "out-of-range", millimetres(read), expected);
  for (const [path, v] of [
    ["measuredAcross", s.measuredAcrossMm],
    ["measuredDown", s.measuredDownMm],
  ] as const)
    if (!(v >= 95 && v <= 105)) return say(path, v, "95 mm to 105 mm: what the bar of 100 mm measured");
  if (s.shape === "straight")
    return s.lengthMm >= 30 && s.lengthMm <= room ? undefined : say("length", s.lengthMm, `30 mm to ${millimetres(room)} mm on this paper`);
  if (!(s.sweepDeg >= 20 && s.sweepDeg <= 340)) return say("sweep", s.sweepDeg, "20 to 340 degrees");
  const halfWide = s.sweepDeg >= 180 ? s.radiusMm : s.radiusMm * Math.sin((s.sweepDeg * Math.PI) / 360);
  const most = Math.min((s.radiusMm * room) / (2 * halfWide + 24), (heightMm - 138) / 2);
  return s.radiusMm >= 15 && s.radiusMm <= most
    ? undefined
    : say("radius", s.radiusMm, `15 mm to ${millimetres(Math.floor(most))} mm at this sweep on this paper`);
}

/** A point of the page in millimetres, and how far what stands there is turned. */
export interface PlaceMm {
  readonly x: number;
  readonly y: number;
  readonly turnDeg: number;
}
/** Where the readings of a scale lie on its page. */
export interface ScaleTrack {
  /** of the shaft, for an arc; the middle of the line, for a straight one */
  readonly centre: { readonly x: number; readonly y: number };
  readonly lengthMm: number;
  /** the place of a reading, so far outside the line */
  readonly at: (reading: number, outMm: number) => PlaceMm;
  readonly holds: (reading: number) => boolean;
}
/**
 * Where the readings of a scale lie on its page.
 *
 * @param s shape, size and paper
 * @param from reading at the one end of the pointer's travel
 * @param to reading at the other
 * @returns places in millimetres from the upper left corner
 */
export function trackOf(s: ScaleShape, from: number, to: number): ScaleTrack {
  const centre = { x: papers[s.paper].widthMm / 2, y: s.shape === "arc" ? 50 + s.radiusMm : 62 };
  const part = (reading: number): number => {
    const t = (reading - from) / (to - from);
    return s.sense === "forward" ? t : 1 - t;
  };
  const at = (reading: number, outMm: number): PlaceMm => {
    const t = part(reading);
    if (s.shape === "straight") return { x: centre.x - s.lengthMm / 2 + t * s.lengthMm, y: centre.y - outMm, turnDeg: 0 };
    const turnDeg = (t - 0.5) * s.sweepDeg;
    const a = (turnDeg * Math.PI) / 180;
    const r = s.radiusMm + outMm;
    return { x: centre.x + r * Math.sin(a), y: centre.y - r * Math.cos(a), turnDeg };
  };
  return {
    centre,
    lengthMm: s.shape === "arc" ? (s.radiusMm * s.sweepDeg * Math.PI) / 180 : s.lengthMm,
    at,
    holds: (reading) => part(reading) >= -1e-9 && part(reading) <= 1 + 1e-9,
  };
}
