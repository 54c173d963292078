import type { State } from "../../standards/cautions";
import type { Described } from "../inputs/supply-law";
import { firstNode } from "../inputs/supply-law";
import type { Stretch } from "./causes";

/** A reading that a cause foretells, in part: where one cause can be two things, each foretells its own. */
export interface Told {
  readonly v: number;
  readonly part: number;
}
/** The supply that a test is made at, and its heaters. */
export interface Here {
  readonly d: Described;
  readonly heaterRated: number;
  readonly heatersRead: boolean;
}
/** A test at the supply beyond B+ itself: what each cause foretells of it, on a scale where its error is even. */
export interface SupplyTest {
  readonly id: string;
  readonly how: string;
  readonly state: State;
  readonly reads: "resistance" | "voltage" | "capacitance" | "fraction";
  /** whether it needs the supply on, or puts a new part in: nothing for a set that may have a short */
  readonly onlyClear: boolean;
  readonly log: boolean;
  readonly error: number;
  /** nothing where this supply has no such part */
  readonly predict: (here: Here, cause: string, s: Stretch) => readonly Told[] | undefined;
}
const sure = (v: number): readonly Told[] => [{ v, part: 1 }];
const noLeak = 2e8;
const beside = (a: number, b: number): number => 1 / (1 / a + 1 / b);
/** From the first filter capacitor through filter and bleeder: cold tubes draw nothing, and a rectifier does not conduct backwards. */
const coldOhm = ({ x }: Described): number => Math.min(noLeak, x.firstResistance + x.secondResistance + x.bleeder);

/** Source of each: the supply's own equations; errors and how it is done: common practice, no source. */
export const supplyTestList: readonly SupplyTest[] = [
  {
    id: "first-ohm",
    how: "set unplugged, discharged and measured; ohmmeter from the first filter capacitor to the chassis, red lead on plus, until it settles",
    state: "open-dead",
    reads: "resistance",
    onlyClear: false,
    log: true,
    error: 0.3,
    predict: ({ d }, cause, s) => {
      const cold = coldOhm(d);
      if (cause === "leaky-filter") return sure(beside(cold, 1 / s.size));
      if (cause === "bleeder-open" || cause === "choke-open") return sure(noLeak);
      if (cause !== "heavy-load") return sure(cold);
      // a tube that draws too much shows nothing cold, a leak behind the filter does
      const drawn = (s.size - 1) * (d.x.plateCurrent + d.x.restCurrent);
      const leak = d.x.firstResistance + Math.max(1, s.solved.volts[1]) / Math.max(1e-4, drawn);
      return [
        { v: cold, part: 0.5 },
        { v: beside(cold, leak), part: 0.5 },
      ];
    },
  },
  {
    id: "look",
    how: "set unplugged, discharged and measured; look at the rectifier's socket, above and below: a tube, or diodes",
    state: "open-dead",
    reads: "fraction",
    onlyClear: false,
    log: false,
    error: 0.2,
    predict: ({ d }, cause) => (d.x.rectifierType === "silicon" ? undefined : sure(cause === "silicon" ? 1 : 0)),
  },
  {
    id: "filter-volts",
    how: "meter clipped across the first choke or filter resistor with the set off and discharged; stand clear, switch on; both ends carry B+",
    state: "open-live",
    reads: "voltage",
    onlyClear: true,
    log: true,
    error: 0.15,
    predict: ({ d: { x } }, _, s) => (x.filterInput === "choke" ? undefined : sure(Math.max(0.1, s.solved.volts[0] - s.solved.volts[1]))),
  },
  {
    id: "ripple",
    how: "meter or scope behind a capacitor rated for B+, clipped on with the set off and discharged; stand clear, switch on; volts peak to peak",
    state: "open-live",
    reads: "voltage",
    onlyClear: true,
    log: true,
    error: 0.2,
    predict: ({ d: { x } }, _, s) => sure(Math.max(0.05, s.solved.ripplePp[firstNode(x)])),
  },
  {
    id: "first-farad",
    how: "set unplugged, discharged and measured; lift the first filter capacitor, bridge or capacitance meter across it",
    state: "open-dead",
    reads: "capacitance",
    onlyClear: false,
    log: true,
    error: 0.15,
    predict: ({ d: { x } }, cause, s) =>
      x.firstCapacitance > 0 ? sure(x.firstCapacitance * (cause === "first-capacitor" ? s.size : 1)) : undefined,
  },
  {
    id: "new-rectifier",
    how: "set off and cooled; another rectifier tube of the type, meter clipped on the first filter capacitor, stand clear, switch on",
    state: "open-live",
    reads: "voltage",
    onlyClear: true,
    log: true,
    error: 0.03,
    predict: ({ d }, cause, s) => {
      if (d.x.rectifierType === "silicon") return undefined;
      const [asRead, sound] = [Math.max(1, (s.fromV + s.toV) / 2), Math.max(1, d.typed.volts[firstNode(d.x)])];
      if (cause === "weak-rectifier") return sure(sound);
      // one half is dead by its plate or by its winding
      return cause === "one-half"
        ? [
            { v: sound, part: 0.5 },
            { v: asRead, part: 0.5 },
          ]
        : sure(asRead);
    },
  },
  {
    id: "heaters",
    how: "AC meter at a heater pin with all tubes in; on sockets with B+ beside it clip on with the set off and discharged",
    state: "open-live",
    reads: "voltage",
    onlyClear: true,
    log: true,
    error: 0.015,
    predict: ({ d: { x }, heaterRated, heatersRead }, cause, s) => {
      if (heatersRead) return undefined;
      const v = (heaterRated * x.lineVoltage) / x.ratedLine;
      // an open fuse leaves the heaters cold, an open winding of B+ does not
      return cause === "no-supply"
        ? [
            { v, part: 0.5 },
            { v: 0.01 * v, part: 0.5 },
          ]
        : sure(cause === "line" ? v * s.size : v);
    },
  },
];
/** A reading on the scale of its test. Source: definition. */
export const onScale = (t: Pick<SupplyTest, "log">, v: number): number => (t.log ? Math.log(Math.max(v, 1e-13)) : v);

/**
 * How well one size of a cause foretells what tests read.
 *
 * @param here the supply with its loads
 * @param cause its id
 * @param s the stretch of sizes
 * @param made readings by the tests' ids, SI
 * @returns likelihood, 1 where nothing was made
 * @source normal error on each test's scale
 */
export function foretells(here: Here, cause: string, s: Stretch, made: Readonly<Record<string, number>>): number {
  let all = 1;
  for (const t of supplyTestList) {
    if (!Object.hasOwn(made, t.id)) continue;
    const told = t.predict(here, cause, s);
    if (!told) continue;
    const y = onScale(t, made[t.id]);
    // one reading in a thousand is a slip of the hand: no test rules a cause out altogether
    all *= 1e-3 + told.reduce((sum, { v, part }) => sum + part * Math.exp(-0.5 * ((y - onScale(t, v)) / t.error) ** 2), 0);
  }
  return all;
}
