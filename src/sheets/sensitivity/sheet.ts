import { answers, type Refuse } from "../../ask/declare";
import { dbOf, factorForLoss, lossAgainstWorldDb, ratioOf } from "../../physics/noise";
import { type Environment, environments, externalNoiseDb } from "../../standards/external-noise";
import type { Issue } from "../../units/issue";
import { printValue } from "../../units/print";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { figuresOf, lackingIn, noiseOf, worldLimitDb } from "./solve";
import theory from "./theory.md";

export const sensitivity = answers(ask, {
  theory,
  refuse: refused,
  prepare: (best) => {
    const axis = Float64Array.from({ length: 61 }, (_, i) => 1.8e6 * (30 / 1.8) ** (i / 60));
    const median = axis.map((hz) => externalNoiseDb(hz, best.place));
    return {
      axes: { world: axis, set: axis },
      solve: (x, into) => {
        const n = noiseOf(x);
        for (let i = 0; i < axis.length; i++) into.world[i] = median[i] + x.worldOff;
        into.set.fill(dbOf(n.all));
        return figuresOf(x, n);
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: (x) => {
    const { all } = noiseOf(x);
    const db = (name: string) => ({ name, dimension: "decibel", u: 0.5 }) as const;
    return [
      {
        id: "bands",
        title: "The set's noise against external noise, by band and place (median; a quiet hour may be 5 to 10 dB better)",
        columns: [
          { name: "at", dimension: "frequency" },
          db("city: lost"),
          db("residential: lost"),
          db("rural: lost"),
          db("quiet rural: lost"),
          db("noise figure for 1 dB, here"),
        ],
        rows: [1.9, 3.75, 7.1, 10.1, 14.2, 21.2, 28.5].map((mhz) => {
          const at = (place: Environment): number => ratioOf(externalNoiseDb(mhz * 1e6, place));
          return [mhz * 1e6, ...environments.map((p) => lossAgainstWorldDb(at(p), all)), dbOf(factorForLoss(at(x.place), worldLimitDb))];
        }),
      },
    ];
  },
});

/** A level whose definition is not whole, or that is less than thermal noise. */
function refused(x: Asked, bad: Refuse): readonly Issue[] {
  if (!(x.level > 0)) return [];
  const lacks = lackingIn(x).map(([input, read]) =>
    bad(
      input,
      "definition-incomplete",
      read,
      "all five: ratio, modulation, bandwidth, impedance, and EMF or p.d. Microvolts without them are no sensitivity, and can't be compared with anything",
    ),
  );
  if (lacks.length > 0 || noiseOf(x).receiver >= 1) return lacks;
  const read = printValue(x.level, "voltage", x.level / 50);
  return [
    bad(
      "level",
      "below-thermal-noise",
      read,
      "more than thermal noise allows by this definition: a generator that leaks past its attenuator does this, or a wrong attenuator step",
    ),
  ];
}
