import { orNone } from "../../ask/axes";
import { noneOf } from "../../ask/declare";
import { areApart } from "../../numerics/apart";
import { StripResponse } from "../../physics/if-strip";
import { Skirts, widthHz } from "../../physics/passband";
import { Plate } from "../inputs/multiplier-plate";
import type { Asked } from "./ask";

type CentreInputs = Omit<Asked, "chassis" | "cableType">;
const twoPi = 2 * Math.PI;
const db = (p: number): number => 10 * Math.log10(p);
/** Regeneration that a nose is worked out at, at most: beyond it whatever is there oscillates. */
const mostPart = 0.9999;

/** Cable and its coil behind the series capacitor, tank off, as an admittance on the plate. */
class CableLoad {
  re = 0;
  im = 0;
  /** @param coilError error of the coil's inductance; undefined: no coil at all */
  at(x: CentreInputs, hz: number, coilError: number | undefined): void {
    const w = twoPi * hz;
    const f0 = x.strip.intermediateFrequency;
    const cableF = x.cableLength * x.cableCapacitancePerLength;
    const coilS = coilError === undefined ? 0 : (twoPi * f0 * cableF) / (1 + coilError);
    const re = coilS / x.coilQ;
    const im = w * cableF - coilS * (f0 / hz);
    const b = w * x.couplingCapacitance;
    const size = re * re + (im + b) * (im + b);
    this.re = (re * (im + b) - im * re) * (b / size);
    this.im = (re * re + im * (im + b)) * (b / size);
  }
}

/** The strip with its first primary re-peaked for a capacitance that hangs on it: its inductance lowered until it resonates again. */
function repeakedFor(x: CentreInputs, addedF: number): CentreInputs["strip"] {
  const [first, ...rest] = x.strip.cans;
  const own = first.primaryCapacitance + first.outputCapacitance + first.addedCapacitance;
  const f = x.strip.intermediateFrequency;
  const offset = (f + first.primaryOffset) * Math.sqrt(Math.max(0.01, (own + addedF) / own)) - f;
  return { ...x.strip, cans: [{ ...first, primaryOffset: offset }, ...rest] };
}

/**
 * What setting the accessory should look like at each step, and where a note says that it sits; it holds what draw after draw works with.
 *
 * @returns `solve`: from plain inputs (SI) results, SI and dB, gains against the strip without the accessory. `fill`: |H|^2 as it sits, then centred,
 *   of what was solved last, over the centred peak
 * @source src/physics/q-multiplier.ts, if-strip.ts; the note of the oscillating tank is its frequency less the carrier's place in the IF
 */
export function centreSolver() {
  const plate = new Plate();
  const bare = new StripResponse();
  const again = new StripResponse();
  const cable = new CableLoad();
  /** power of the centred peak; unknown where the setting oscillates */
  let top: number | undefined;

  const solve = (x: CentreInputs) => {
    const f = x.strip.intermediateFrequency;
    bare.load(x.strip);
    plate.load(x);
    const own = bare.at(f);
    const withCable = (r: StripResponse, coilError: number | undefined): number => {
      cable.at(x, f, coilError);
      return db(r.at(f, cable.re, cable.im) / own);
    };
    const cableAlone = withCable(bare, undefined);
    const coilTuned = withCable(bare, x.coilError);
    cable.at(x, f, x.coilError);
    again.load(repeakedFor(x, cable.im / (twoPi * f)));
    const tank = onTank(plate, x, own);
    top = tank.top;
    return {
      cableAlone,
      unitsLost: -cableAlone / x.dbPerUnit,
      coilTuned,
      coilThreeDb: orNone(threeDbOff(withCable, bare), "no error costs that much"),
      retouched: withCable(again, x.coilError) - coilTuned,
      leftWithout: db(again.at(f) / own),
      ...tank.results,
    };
  };
  const fill = (x: CentreInputs, state: "asIs" | "centred", axis: Float64Array, into: Float64Array): void => {
    const part = Math.min(mostPart, x.regeneration);
    if (top === undefined) {
      centre(plate, x, 0, part);
      top = plate.peak(x.strip.intermediateFrequency).power;
      centre(plate, x, offsetOf(x) ?? 0, part);
    }
    if (state === "centred") centre(plate, x, 0, part);
    plate.fillPower(axis, into, axis.length);
    for (let i = 0; i < axis.length; i++) into[i] /= top;
  };
  return { solve, fill };
}
/** Inductance too large by so much leaves the cable as a capacitor: where the gain is 3 dB under that of the coil tuned. */
function threeDbOff(gain: (r: StripResponse, e: number | undefined) => number, bare: StripResponse): number {
  const tuned = gain(bare, 0);
  let [held, lost] = [0, 0.5];
  if (gain(bare, lost) > tuned - 3) return Number.NaN;
  while (areApart(held, lost, 1e-5)) {
    const mid = (held + lost) / 2;
    if (gain(bare, mid) > tuned - 3) held = mid;
    else lost = mid;
  }
  return (held + lost) / 2;
}

/** The note with its sign, Hz; an unknown side is taken as high, since both sides lose alike. */
const offsetOf = (x: CentreInputs): number | undefined => (x.beat === undefined ? undefined : x.side === "low" ? -x.beat : x.beat);

/** Hangs the tank so that, regenerated until it starts, it oscillates so far off the carrier's place. */
function centre(plate: Plate, x: CentreInputs, offHz: number, part: number): void {
  const f = x.strip.intermediateFrequency;
  let tuned = f + offHz;
  // the plate pulls the oscillation a little: what it was pulled by is taken off, twice
  for (let i = 0; i < 2; i++) tuned -= plate.hang(x, tuned, 0).hz - (f + offHz);
  plate.hang(x, tuned, part);
}

/** What the tank does, and the power of its centred peak; it is left hanging as it sits. */
function onTank(plate: Plate, x: CentreInputs, own: number) {
  const f = x.strip.intermediateFrequency;
  centre(plate, x, 0, 0);
  const tankOff = db(plate.at(f) / own);
  if (x.regeneration >= 1)
    return { top: undefined, results: { tankOff, ...noneOf(["tankSet", "widthSet", "offCentre", "lost", "uneven"], "it oscillates") } };
  const part = Math.min(mostPart, x.regeneration);
  plate.regenerate(part);
  const peak = plate.peak(f);
  const set = plate.at(f);
  const there = { tankOff, tankSet: db(set / own), widthSet: orNone(widthHz(plate, peak, 6), "-6 dB is not reached") };
  const off = offsetOf(x);
  if (off === undefined)
    return { top: peak.power, results: { ...there, ...noneOf(["offCentre", "lost", "uneven"], "no note was counted yet") } };
  centre(plate, x, off, part);
  const now = plate.peak(f);
  const skirts = new Skirts().of(plate, now);
  const [low, high] = [skirts.crossingHz(6, -1) - f, skirts.crossingHz(6, 1) - f];
  const results = {
    ...there,
    offCentre: now.hz - f,
    lost: db(set / plate.at(f)),
    uneven: orNone(Math.min(1, Math.abs(high + low) / (high - low)), "-6 dB is not reached"),
  };
  return { top: peak.power, results };
}
