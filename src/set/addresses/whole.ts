import { licences, regions } from "../../standards/bands";
import { symbolSets } from "../../standards/symbols";
import { addresses, choice, exactly, quantity } from "./declare";

export const adjusters = addresses("adjusters", {
  slugRange: quantity(
    "fraction",
    "how far the slug can lower (or raise) the primary's inductance",
    "count the turns left to the stop, and how far the peak shifts per turn",
    [0.12, 0.04, "assumed: no published range found"],
    { positive: true, max: 0.9 },
  ),
  trimmerRange: quantity(
    "capacitance",
    "how much the can's trimmer can be reduced; 0 where the can has none",
    "service sheet, or a bridge at both ends of its travel",
    [0, 0, "slug-tuned can without trimmer, assumed"],
  ),
});

export const audio = addresses("audio", {
  low: exactly(
    quantity(
      "frequency",
      "lowest audio frequency wanted, for SSB and CW: low end of the audio filter",
      "audio sweep; 300 Hz for speech",
      [300, 0, "common practice, no source"],
      { positive: true, max: 2000 },
    ),
  ),
  high: exactly(
    quantity(
      "frequency",
      "highest audio frequency wanted, for SSB and CW: high end of the audio filter",
      "audio sweep; 2.7 kHz for speech",
      [2700, 200, "usual speech band"],
      { positive: true },
    ),
  ),
});

export const place = addresses("place", {
  licence: choice(
    ["by Region", ...licences, "own"],
    "whose edges count: the Region's, a licence's, or the owner's own as stated below",
    "the owner's licence; national rules prevail",
    "by Region",
  ),
  region: choice(
    ["unstated", ...regions],
    "ITU Region that the set is used in",
    "where the set stands: 1 is Europe, Africa and the Middle East; 2 the Americas; 3 the rest of Asia and Oceania",
    "unstated",
  ),
  mode: choice(
    ["CW", "AM", "USB", "LSB"],
    "what the transmitter will send: a carrier that is inside is not a signal that is inside",
    "chosen",
    "CW",
  ),
  symbols: choice(symbolSets, "standard whose symbols circuits are drawn in", "chosen", "IEC 60617"),
});

/** Of the strip by itself; its cans and filter have addresses of their own. */
export const strip = addresses("strip", {
  intermediateFrequency: quantity("frequency", "IF that the strip is set to", "a sweep of the strip, or the service sheet", undefined, {
    positive: true,
    min: 10e3,
    max: 50e6,
  }),
});
