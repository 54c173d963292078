import { levels, modes, ratios } from "../../physics/noise";
import { environments } from "../../standards/external-noise";
import { tubeNoise, tubeNoiseSource } from "../../standards/tube-noise";
import { addresses, choice, exactly, quantity } from "./declare";

/** Tubes of the table that may stand there; as stated takes the figures typed in. */
const tubesFor = (use: "amplifier" | "mixer"): readonly string[] => tubeNoise.filter((t) => t.use === use).map((t) => t.type);

export const sensitivity = addresses("sensitivity", {
  statedRatio: choice(
    ["not stated", ...ratios],
    "ratio that the level is stated for",
    "the sheet or the page that states it",
    "not stated",
  ),
  statedMode: choice(
    ["not stated", ...modes],
    "modulation that the level is stated for",
    "the sheet or the page that states it",
    "not stated",
  ),
  levelIs: choice(
    ["not stated", ...levels],
    "whether the level is the volts across the terminals (p.d.) or the generator's own (EMF)",
    "the generator's manual",
    "not stated",
  ),
  place: choice(environments, "surroundings of the antenna", "look around", "residential"),
  before: choice(["nothing", "a converter or preamplifier"], "what is ahead of the receiver", "look at it", "nothing"),
  rfTube: choice(
    ["as stated", "none", ...tubesFor("amplifier")],
    "tube of the RF stage",
    "look at it; as stated takes rfNoise",
    "as stated",
  ),
  mixerTube: choice(["as stated", ...tubesFor("mixer")], "tube of the first mixer", "look at it; as stated takes mixerNoise", "as stated"),
  level: quantity(
    "voltage",
    "level that gives the ratio; 0 where none was measured",
    "generator and output meter, AVC held; ratio, modulation, bandwidth, impedance and EMF or p.d. written down",
    [0, 0, "not measured yet"],
    { min: 0, max: 0.1 },
  ),
  ratioDb: exactly(
    quantity("decibel", "the ratio", "the sheet or the page that states the level", [10, 0, "the usual value"], {
      min: 0.5,
      max: 60,
    }),
  ),
  modulationDepth: quantity(
    "fraction",
    "depth of AM",
    "the generator",
    [0.3, 0.03, "the usual depth; a tenth of it as service generators keep it, common practice, no source"],
    { positive: true, max: 1 },
  ),
  noiseBandwidth: quantity(
    "frequency",
    "noise bandwidth before the detector; 0 where not stated",
    "the sheet on what the IF passes",
    [0, 0, "not stated"],
    { min: 0, max: 1e5 },
  ),
  sourceResistance: quantity(
    "resistance",
    "impedance that the level is stated for; 0 where not stated",
    "the generator, with its dummy antenna",
    [0, 0, "not stated"],
    { min: 0, max: 5000 },
  ),
  listenAt: exactly(quantity("frequency", "frequency to listen on", "the band", [1.4e7, 0, "an example"], { min: 1e5, max: 1.5e8 })),
  worldOff: quantity(
    "decibel",
    "by how much external noise where the set is used exceeds the median",
    "compare a quiet hour with a noisy one, on a calibrated set",
    [0, 6, "P.372 gives half of its deciles at some 5 to 10 dB, from memory"],
    { min: -40, max: 60 },
  ),
  rfNoise: quantity(
    "resistance",
    "equivalent noise resistance of the RF tube",
    `tube tables; ${tubeNoiseSource}`,
    [3550, 500, "6BA6 class"],
    { positive: true, max: 1e6 },
  ),
  rfGain: quantity(
    "ratio",
    "ratio of the volts at the mixer grid to those at the RF grid",
    "the sheet on stage gain",
    [10, 4, "common practice, no source"],
    { positive: true, max: 1000 },
  ),
  mixerNoise: quantity("resistance", "equivalent noise resistance of the mixer", "tube tables", [1.84e5, 30000, "6BE6 class"], {
    positive: true,
    max: 5e6,
  }),
  tankResistance: quantity(
    "resistance",
    "parallel resistance of the antenna circuit, as the grid sees it",
    "its Q times its reactance",
    [10000, 4000, "common practice, no source"],
    { positive: true, max: 1e7 },
  ),
  stageResistance: quantity(
    "resistance",
    "parallel resistance of the mixer's circuit, as its grid sees it",
    "its Q times its reactance",
    [20000, 8000, "common practice, no source"],
    { positive: true, max: 1e7 },
  ),
  inputLoss: quantity(
    "decibel",
    "loss ahead of the first grid, from mismatch and coils",
    "detune the trimmer and compare; 1 to 6 dB",
    [3, 2, "common practice, no source"],
    { min: 0, max: 40 },
  ),
  aheadNoise: quantity(
    "decibel",
    "noise figure of what is ahead of the receiver",
    "its maker, or its own first tube",
    [5, 1.5, "common practice, no source"],
    { min: 0.1, max: 40 },
  ),
  aheadGain: quantity(
    "decibel",
    "gain of what is ahead of the receiver",
    "generator through it and round it",
    [15, 3, "common practice, no source"],
    { min: -20, max: 60 },
  ),
});
