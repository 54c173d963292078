import type { DialFace } from "../../ask/drawn/dial-face";
import { type DialFit, dialSlope, hzAt, reach, readingFor } from "../../infer/dial/fitted";
import { doubtHz, mhz, readingsAlong, roughly } from "./dial-figures";

const steps = [1e3, 2e3, 5e3, 10e3, 20e3, 50e3, 100e3, 200e3, 500e3, 1e6, 2e6, 5e6];
/** Frequencies that a scale marks, and those of them that have their figure on it. */
function marksOf(fit: DialFit): DialFace["marks"] {
  const [low, high] = reach(fit)
    .map((r) => hzAt(fit, r))
    .sort((a, b) => a - b);
  const stepFor = (most: number): number => steps.find((s) => (high - low) / s <= most) ?? 1e7;
  const [major, minor] = [stepFor(8), stepFor(40)];
  const out: { at: number; text?: string }[] = [];
  for (let k = Math.ceil(low / minor); k * minor <= high; k++) {
    const at = readingFor(fit, k * minor);
    if (at === undefined) continue;
    // a step of five fits no step of two: what has no figure of its own is marked all the same
    const figured = (k * minor) % major === 0;
    out.push({ at, ...(figured ? { text: String((k * minor) / 1e6) } : {}) });
  }
  return out;
}

/**
 * A dial by its law: marks in MHz, the zero beats it rests on, what is not known of it.
 *
 * @param fit the law
 * @returns all of the face but its name and what a question adds
 * @source infer/dial
 */
export function faceOf(fit: DialFit): Pick<DialFace, "kind" | "scale" | "marks" | "beats" | "doubt" | "edges"> {
  const along = [...readingsAlong(fit, 49)].map((at) => ({
    at,
    hz: doubtHz(fit, at),
    half: doubtHz(fit, at) / Math.abs(dialSlope(fit, at)),
  }));
  const [from, to] = reach(fit);
  return {
    kind: "dial",
    scale: { from, to, says: `MHz, on a scale that reads ${Number(from.toFixed(1))} to ${Number(to.toFixed(1))}` },
    marks: marksOf(fit),
    beats: fit.points.map((p) => ({ at: p.reading, says: mhz(p.frequencyHz) })),
    doubt: {
      along: along.map(({ at, half }) => ({ at, half })),
      says: `how far off the law may be: ${roughly(Math.max(...along.map((a) => a.hz)))} where the band is widest`,
    },
    edges: [],
  };
}
