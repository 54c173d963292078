import { isLiveSet } from "../../ask/chassis";
import type { Part } from "../../ask/findings";
import { nextFuseA } from "../../standards/preferred";
import { printValue } from "../../units/print";
import type { G } from "./ask";
import { allowedF } from "./solve";

/**
 * What the line side takes to buy: bypass, cord, fuse.
 *
 * @param g inputs, figures and verdicts
 * @returns parts
 * @source touch-current limits and safety classes; the fuse: common practice, no source
 */
export function partsOf(g: G): Part[] {
  const x = g.best;
  const out: Part[] = [];
  if (x.bypass > 0 && x.bypassClass === "no class" && !g.isAssumed("bypass"))
    out.push({
      part: "capacitor, line to chassis",
      was: printValue(x.bypass, "capacitance", 0, "old"),
      value: `${printValue(allowedF(g), "capacitance")} or less, or none`,
      rating: "of its class",
      kind: x.ratedLine < 150 ? "Y2 or Y4" : "Y2",
      quantity: 1,
      why: "the old one can put the line on the chassis",
      fills: { kind: "line-capacitor" },
    });
  if (!isLiveSet(x.chassis) && x.cord !== "three-wire" && x.cord !== "not-stated")
    out.push({
      part: "line cord with strain relief",
      was: x.cord,
      value: "three-wire",
      rating: "for the line",
      kind: "as local code asks",
      quantity: 1,
      why: "a fault then blows the fuse",
      fills: { kind: "cord-fuse-switch", word: "cord" },
    });
  out.push({
    part: "line fuse and holder",
    was: "",
    value: printValue(nextFuseA(g.figures.fuseLow.value ?? 1), "current"),
    rating: `${printValue(x.ratedLine, "voltage")} line`,
    kind: "slow",
    quantity: 1,
    why: "1.5 to 2 times the running current",
    fills: { kind: "cord-fuse-switch", word: "fuse" },
  });
  return out;
}
