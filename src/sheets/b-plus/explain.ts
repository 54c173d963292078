import { type BPlusInputs, type Change, firstNode, sizeThatGives, solveChanged } from "./solve";

/** One way in which the measured B+ could have come about. */
export interface Cause {
  readonly id: string;
  readonly says: string;
  readonly predictedV: number;
  /** whether it gives what was measured, within what is known */
  readonly fits: boolean;
  /** current into the filter in this case, A: what tells causes apart */
  readonly ampere: number;
  readonly rippleV: number;
}

const span = (size: number): string => (size >= 10 ? size.toFixed(0) : size.toPrecision(2));

/**
 * Everything that would explain a measured B+, each solved with its own size: the line, silicon in place of the tube, a light or a heavy load, a weak
 * rectifier, a first capacitor that lost its value, a dead half. What the heaters say of the line is used where they were read.
 *
 * @param x best inputs with the measured volts
 * @param u what the prediction is known to, V, one standard deviation
 * @returns every cause with what it predicts, those that fit first
 * @source the supply's own equations; signatures as service literature has them (common practice)
 */
export function causesOf(x: BPlusInputs, u: number): readonly Cause[] {
  const seen = x.measuredFirst;
  const heaters = x.measuredHeater > 0;
  const lineV = heaters ? (x.ratedLine * x.measuredHeater) / x.heaterRated : x.lineVoltage;
  const base = solveChanged(x, { lineV });
  if (!base) return [];
  const within = 2 * Math.hypot(u, 0.01 * seen);
  const out: Cause[] = [];
  const add = (id: string, says: string, c: Change, allowed = true): void => {
    const r = solveChanged(x, { lineV, ...c }, base);
    if (!r) return;
    out.push({
      id,
      says,
      predictedV: r.volts[firstNode(x)],
      fits: allowed && Math.abs(r.volts[firstNode(x)] - seen) <= within,
      ampere: r.plateMeanA * (x.arrangement === "half-wave" || c.oneHalf ? 1 : 2),
      rippleV: r.ripplePp[firstNode(x)],
    });
  };
  const volts = (c: Change): number => solveChanged(x, { lineV, ...c }, base)?.volts[firstNode(x)] ?? Number.NaN;
  add("as-described", "nothing: the supply as described", {});
  // the line by itself: what it would have to be, against what the heaters or the outlet say
  const needed = sizeThatGives((v) => volts({ lineV: v }), seen, 0.5 * x.ratedLine, 1.6 * x.ratedLine);
  if (needed !== undefined) {
    const said = `a line of ${needed.toFixed(0)} V${heaters ? `, where the heaters say ${lineV.toFixed(0)} V` : ""}`;
    add("line", said, { lineV: needed }, !heaters && Math.abs(needed / x.lineVoltage - 1) < 0.03);
  }
  const vacuum = x.rectifierType !== "silicon";
  if (vacuum) add("silicon", "silicon in place of the rectifier tube", { silicon: true });
  const light = sizeThatGives((t) => volts({ loadTimes: t }), seen, 0.02, 0.85);
  if (light !== undefined)
    add("light-load", `a light load, ${span(100 * light)} % of what is described: a dead output tube, an open bleeder`, {
      loadTimes: light,
    });
  const heavy = sizeThatGives((t) => volts({ loadTimes: t }), seen, 1.15, 8);
  if (heavy !== undefined)
    add("heavy-load", `a heavy load, ${span(heavy)} times what is described: a leaky filter, a tube that draws too much`, {
      loadTimes: heavy,
    });
  if (vacuum) {
    const weak = sizeThatGives((t) => volts({ perveanceTimes: t }), seen, 0.02, 0.8);
    if (weak !== undefined) add("weak-rectifier", `a weak rectifier tube, ${span(100 * weak)} % of its emission`, { perveanceTimes: weak });
  }
  if (x.filterInput === "capacitor") {
    const low = sizeThatGives((t) => volts({ firstTimes: t }), seen, 0.005, 0.7);
    if (low !== undefined)
      add("first-capacitor", `a first filter capacitor that has lost its value, ${span(100 * low)} % left`, { firstTimes: low });
  }
  if (x.arrangement !== "half-wave") add("one-half", "one half of the winding or one plate dead", { oneHalf: true });
  return out.sort((a, b) => Number(b.fits) - Number(a.fits) || Math.abs(a.predictedV - seen) - Math.abs(b.predictedV - seen));
}
