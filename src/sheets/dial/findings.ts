import { dialAt } from "../../infer/dial/fitted";
import type { OddPoint } from "../../infer/dial/odd";
import { orThrow } from "../../units/issue";
import { printExact, printValue } from "../../units/print";
import { approaches } from "../inputs/dial";
import { doubtHz, mhz, roughly } from "../inputs/dial-figures";
import { dialOf } from "../inputs/dial-law";
import type { G, Put } from "./ask";
import { narrowers, spanOf } from "./narrow";

const eveningBeats = 20;

/**
 * How well the dial is known, in a sentence.
 *
 * @param g the ground: inputs and results
 * @returns the sentence
 * @source house frame
 */
export function headlineOf(g: G): string {
  const { fit, odd } = orThrow(dialOf(g.best));
  const ends = spanOf(fit)
    .map((r) => ({ hz: dialAt(fit, r).hz, u: Math.max(50, doubtHz(fit, r) / 2) }))
    .sort((a, b) => a.hz - b.hz)
    .map((e) => printValue(e.hz, "frequency", e.u));
  const beats = `${fit.points.length} zero beats${odd.length > 0 ? `, ${odd.length} left out as odd` : ""}`;
  return `The dial is known to ${roughly(g.figures.typicalDoubt.value)} or so, ${roughly(g.figures.worstDoubt.value)} at its worst, from ${ends[0]} to ${ends[1]}: ${beats}${fit.leans ? ", and between and beyond them what such dials usually do" : ""}.`;
}

/**
 * What is odd about the zero beats, what would tell more, and what the law does not say.
 *
 * @param g the ground: inputs and results
 * @param put puts each finding
 * @source house frame
 */
export function findingsOf(g: G, put: Put): void {
  const { odd, repeats } = orThrow(dialOf(g.best));
  for (const o of odd) aboutOdd(o, g.best.markerError, put);
  if (repeats.length > 0)
    put(
      "dial-repeats",
      "note",
      `Row ${repeats.map((i) => i + 1).join(", ")} repeats another row to the last digit and counts once. A second look at a marker is worth having: read the scale afresh.`,
    );
  aboutNextMarker(g, put);
  aboutScatter(g, put);
  aboutFewBeats(g, put);
  aboutSide(g, put);
  put(
    "dial-set-point",
    "note",
    `On a bandspread scale a main dial that is off by ${printValue(g.best.setPointOff, "frequency")} at the low end moves the high end by ${g.say("setPointShiftHigh")}: as the cube of the oscillator's ratio.`,
    { restsOn: ["setPointShiftHigh"] },
  );
  put(
    "dial-honest",
    "note",
    "The half-widths are widened so that on 19 dials of 20 they hold over at least 88 % of the scale; errors along one scale go together. What is not known of the markers' error comes on top; what is known is taken out.",
    { restsOn: ["worstDoubt"] },
  );
}
function aboutNextMarker(g: G, put: Put): void {
  const next = g.figures.nextMarker.value;
  if (typeof next !== "number" || orThrow(dialOf(g.best)).fit.points.length >= 60) return;
  put("dial-next-marker", "check", `The law is least sure near ${g.about("nextMarker")}.`, {
    do: `Zero beat the marker at ${g.about("nextMarker")}${next % g.best.spacing === 0 ? "" : ", with markers half as far apart"}, from the usual side.`,
    restsOn: ["nextMarker", "worstDoubt"],
  });
}
function aboutScatter({ best: x }: G, put: Put): void {
  const { readingNoise } = orThrow(dialOf(x)).fit;
  if (readingNoise <= 2 * x.readingNoise) return;
  put(
    "dial-scatter",
    "check",
    `The readings scatter by ${printValue(readingNoise, "division", readingNoise / 5)}, ${Number((readingNoise / x.readingNoise).toPrecision(2))} times what was stated: the law is widened to match.`,
    {
      do: "Zero beat two of the markers again, three times each from the usual side. If they scatter as much, look for a loose pointer, cord or knob.",
      restsOn: ["typicalDoubt", "worstDoubt"],
    },
  );
}
/** A law that leans on expectations: on which, and what would free it from them; or too few beats to know an odd one. */
function aboutFewBeats(g: G, put: Put): void {
  const x = g.best;
  const { fit } = orThrow(dialOf(x));
  if (!fit.leans) {
    if (fit.points.length < 8)
      put(
        "dial-few",
        "check",
        `${fit.points.length} zero beats are too few to tell a wrong marker, least of all an outermost one, from a bend in the dial.`,
        { do: "Take eight or more, and identify one of them by a station of known frequency." },
      );
    return;
  }
  // what an evening at the bench can do; finer markers bring little more
  const [best] = narrowers(x, g.figures.nextMarker.value ?? undefined)
    .filter((n) => n.beatsCount <= eveningBeats)
    .sort((a, b) => a.typicalHz - b.typicalHz);
  put(
    "dial-leans",
    "check",
    `${fit.points.length} zero beats don't tell how the dial bends. The rest is expected, not measured: the ends of the band (${printExact(x.low, "frequency")} and ${printExact(x.high, "frequency")} as described) near the ends of the scale, give or take a fifth of it, and a bend such as tuning capacitors have. So the law is wide.`,
    {
      do: best
        ? `Zero beat ${best.what}${best.beatsCount > 1 ? `, ${best.beatsCount} more` : ""}: that would bring it to ${roughly(best.typicalHz)} or so, ${roughly(best.worstHz)} at its worst.`
        : "Take more zero beats, of markers closer together or of a station of known frequency.",
      restsOn: ["typicalDoubt", "worstDoubt"],
    },
  );
}
const holdFor = {
  "1": "for turning up to them",
  "-1": "for turning down to them",
  "0": "for neither side: midway between both, half the backlash off either way",
} as const;
function aboutSide(g: G, put: Put): void {
  const { fit } = orThrow(dialOf(g.best));
  const lash = g.figures.backlashHz.value === null ? "" : `, ${g.say("backlashHz")} at the frequency asked about`;
  const oneSide = fit.side !== 0 && fit.points.every((p) => p.approach === fit.side);
  put(
    "dial-side",
    "note",
    oneSide
      ? `All zero beats were approached turning ${approaches[fit.side === 1 ? 1 : 2]}. Come to a frequency the same way and backlash does not matter; from the other side it is off by the backlash${lash}, which these points can't tell.`
      : `Backlash is ${g.say("backlash")}${lash}. The readings here hold ${holdFor[fit.side]}. Always come to a frequency from the same side.`,
    { restsOn: ["backlash", "backlashHz"] },
  );
}
function aboutOdd(o: OddPoint, knownError: number, put: Put): void {
  const marker = (hz: number): string => printExact(Math.round(hz / (1 + knownError)), "frequency");
  const where = `Row ${o.index + 1}, ${marker(o.point.frequencyHz)} at ${o.point.reading}`;
  const { says, do: todo } = {
    neighbour: {
      says: `${where}: it was mistaken for its neighbour. At that reading the set is on ${mhz(o.lawHz)}, so it is the marker at ${marker(o.likelyHz ?? o.lawHz)}.`,
      do: "Take this zero beat back and write it again with the right frequency; count the markers from one that is known for certain.",
    },
    "wrong-side": {
      says: `${where}: off by ${printValue(o.offDiv, "division", 0.05)}, as much as the backlash. It was approached from the other side.`,
      do: "Turn past it and come back from the usual side, then write it again.",
    },
    unexplained: {
      says: `${where}: ${Math.abs(o.sigmas).toFixed(0)} times further off than a reading should be; neither a neighbouring marker nor backlash explains it.`,
      do: "Zero beat it once more and read the scale afresh.",
    },
  }[o.cause];
  put(`dial-odd-${o.index + 1}`, "act", says, { do: todo, restsOn: ["oddCount"] });
}
