import { addresses, quantity } from "./declare";

export const crystal = addresses("crystal", {
  crystalSeries: quantity(
    "frequency",
    "series resonance of the crystal",
    "generator by counter, phasing neutral: where the output peaks",
    [4.556e5, 300, "common practice, no source"],
    { positive: true, max: 2e7 },
  ),
  crystalMotional: quantity(
    "capacitance",
    "motional capacitance of the crystal",
    "width and load, or two notches of known phasing",
    [4e-14, 1e-14, "common practice, no source"],
    { positive: true, max: 1e-12 },
  ),
  crystalQ: quantity(
    "ratio",
    "Q of the crystal by itself",
    "width of its peak, driven and loaded lightly",
    [10000, 4000, "common practice, no source"],
    { positive: true, max: 2e6 },
  ),
  crystalHolder: quantity(
    "capacitance",
    "capacitance of the crystal's holder and wiring",
    "bridge, far off resonance",
    [6e-12, 1e-12, "common practice, no source"],
    { positive: true, max: 1e-10 },
  ),
  phasing: quantity(
    "capacitance",
    "phasing capacitor as it is set",
    "bridge, or by the angle of its plates",
    [6e-12, 5e-13, "common practice, no source"],
    { positive: true, max: 1e-10 },
  ),
  phasingLow: quantity(
    "capacitance",
    "minimum capacitance of the phasing capacitor",
    "bridge, plates out",
    [2e-12, 5e-13, "common practice, no source"],
    { positive: true, max: 1e-10 },
  ),
  phasingHigh: quantity(
    "capacitance",
    "maximum capacitance of the phasing capacitor",
    "bridge, plates in",
    [1.2e-11, 1e-12, "common practice, no source"],
    { positive: true, max: 1e-10 },
  ),
  crystalAround: quantity(
    "resistance",
    "source and load that the crystal works between, together",
    "from its width: the selectivity switch sets it",
    [10000, 4000, "common practice, no source"],
    { positive: true, max: 1e7 },
  ),
});
