import { answers } from "../../ask/declare";
import { printValue } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { endsLossDb, middleHz, solve } from "./solve";
import theory from "./theory.md";

export const converterSetting = answers(ask, {
  theory,
  refuse: (x, bad) => {
    if (!(x.crystal > 0)) return bad("crystal", "not-said", "0 Hz", "the frequency that is marked on the converter's crystal");
    if (!(x.wantedHigh > x.wantedLow))
      return bad("wantedHigh", "crossed", printValue(x.wantedHigh, "frequency"), `more than ${printValue(x.wantedLow, "frequency")}`);
    return x.crystal >= x.wantedLow && x.crystal <= x.wantedHigh
      ? bad("crystal", "inside-the-band", printValue(x.crystal, "frequency"), "a crystal outside the band")
      : undefined;
  },
  prepare: (best, points) => {
    const axis = Float64Array.from(
      { length: points },
      (_, i) => best.wantedLow + ((best.wantedHigh - best.wantedLow) * i) / Math.max(1, points - 1),
    );
    return {
      axes: { ends: axis, read: Float64Array.of(best.wantedLow, middleHz(best), best.wantedHigh) },
      solve: (x, into) => {
        for (let i = 0; i < axis.length; i++) into.ends[i] = endsLossDb(x, axis[i]);
        const lossAt = (level: number | undefined) => 20 * Math.log10((level ?? Number.NaN) / (x.levelAtMiddle ?? Number.NaN));
        into.read.set([x.levelAtLow, x.levelAtMiddle, x.levelAtHigh].map(lossAt));
        return solve(x);
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
});
