import { fitDial } from "../../infer/dial/fit";
import { type DialFit, hzAt, reach, readingFor } from "../../infer/dial/fitted";
import { remembering } from "../../numerics/remember";
import type { DialPoint } from "../../readings/zero-beats";
import { timeStations } from "../../standards/time-stations";
import { orThrow } from "../../units/issue";
import { printExact } from "../../units/print";
import { doubtHz } from "../inputs/dial-figures";
import { assumedOf, dialOf, keyOfDial } from "../inputs/dial-law";
import type { Asked } from "./ask";

/** What more zero beats would bring, worked out as if each came where the law expects it. */
export interface Narrowed {
  readonly what: string;
  readonly beatsCount: number;
  /** 95 % half-width of the law then: median along the scale, and where it is widest, Hz */
  readonly typicalHz: number;
  readonly worstHz: number;
}
const dividers = [25e3, 10e3];
const mostBeats = 60;

/**
 * Half-widths of the law along what the present one speaks of.
 *
 * @param fit the law
 * @param span readings from and to, divisions; what the law is judged over where they are not said
 * @returns median and widest, Hz
 * @source 81 places, evenly spaced
 */
export function doubtsAlong(fit: DialFit, [from, to]: readonly [number, number] = spanOf(fit)): { typicalHz: number; worstHz: number } {
  const all = Array.from({ length: 81 }, (_, i) => doubtHz(fit, from + ((to - from) * i) / 80)).sort((a, b) => a - b);
  return { typicalHz: all[40], worstHz: all[80] };
}
/** What a law is judged over: its zero beats, or all that it speaks of where it leans on expectations. */
export const spanOf = (fit: DialFit): readonly [number, number] => (fit.leans ? reach(fit) : [fit.low, fit.high]);
/** The same in frequency, the lower first, Hz. */
export const spanHzOf = (fit: DialFit): readonly [number, number] => {
  const [from, to] = spanOf(fit);
  const ends = [hzAt(fit, from), hzAt(fit, to)];
  return [Math.min(...ends), Math.max(...ends)];
};

/**
 * What would narrow a law of few zero beats: the next marker, all markers of the spacing in use, those of a divider, stations within reach.
 *
 * @param x plain inputs
 * @param nextHz marker that would tell you most, Hz; none where there is none
 * @returns each with the law's half-widths after it, over what the law speaks of now; nothing once the beats tell it by themselves
 * @source posterior of the same fit with the beats added at their expected readings
 */
export const narrowers: (x: Asked, nextHz: number | undefined) => readonly Narrowed[] = remembering(
  (x: Asked, nextHz: number | undefined) => `${keyOfDial(x)} ${nextHz}`,
  (x: Asked, nextHz: number | undefined) => {
    const { fit } = orThrow(dialOf(x));
    return fit.leans ? narrowing(fit, x, nextHz) : [];
  },
  4,
);
function narrowing(fit: DialFit, x: Asked, nextHz: number | undefined): Narrowed[] {
  const [low, high] = [Math.max(spanHzOf(fit)[0], Math.min(x.low, x.high)), Math.min(spanHzOf(fit)[1], Math.max(x.low, x.high))];
  const [fromHz, toHz] = low < high ? [low, high] : spanHzOf(fit);
  const every = (stepHz: number): number[] => {
    const first = Math.ceil(fromHz / stepHz - 1e-6);
    return Array.from({ length: Math.max(0, Math.floor(toHz / stepHz + 1e-6) - first + 1) }, (_, i) => (first + i) * stepHz);
  };
  const free = (hz: readonly number[]): number[] => hz.filter((f) => !fit.points.some((p) => Math.abs(p.frequencyHz - f) < 1));
  const after = (what: string, hz: readonly number[]): Narrowed[] => {
    const more = free(hz).flatMap((f): DialPoint[] => {
      const reading = readingFor(fit, f);
      return reading === undefined ? [] : [{ reading, frequencyHz: f, approach: fit.side }];
    });
    if (more.length === 0 || more.length > mostBeats) return [];
    const then = fitDial([...fit.points, ...more], fit.conversion, assumedOf(x, true));
    return then.ok ? [{ what, beatsCount: more.length, ...doubtsAlong(then.value, spanOf(fit)) }] : [];
  };
  const near = timeStations.flatMap((s) => s.hz.filter((f) => f >= fromHz && f <= toHz).map((f) => ({ id: s.id, f })));
  const onAir = [...new Set(near.map((n) => n.f))];
  return [
    ...(nextHz === undefined ? [] : after(`the marker at ${printExact(nextHz, "frequency")}`, [nextHz])),
    ...after(`every marker of ${printExact(x.spacing, "frequency")} on this band`, every(x.spacing)),
    ...dividers.filter((d) => d < x.spacing).flatMap((d) => after(`a divider's markers of ${printExact(d, "frequency")}`, every(d))),
    ...onAir.flatMap((f) =>
      after(
        `${near
          .filter((n) => n.f === f)
          .map((n) => n.id)
          .join(" or ")} on ${printExact(f, "frequency")}`,
        [f],
      ),
    ),
  ];
}
