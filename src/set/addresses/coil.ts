import { addresses, choice, exactly, quantity } from "./declare";

export const coil = addresses("coil", {
  winding: choice(["single layer", "several layers"], "how the coil is wound", "look at it", "single layer"),
  turns: exactly(quantity("ratio", "turns", "count them", [48, 0, "an example"], { positive: true, max: 20000 })),
  diameter: quantity("length", "mean diameter of the winding: form plus one wire", "calipers", [0.01905, 1e-4, "an example"], {
    positive: true,
    max: 2,
  }),
  length: quantity("length", "length of the winding along the form", "calipers", [0.0381, 2e-4, "an example"], { positive: true, max: 5 }),
  depth: quantity("length", "depth of the winding from inside to outside, of several layers", "calipers", [0.005, 2e-4, "an example"], {
    positive: true,
    max: 1,
  }),
  frequency: exactly(
    quantity("frequency", "frequency at which the coil is to resonate", "the band, or the IF", [3.75e6, 0, "an example"], {
      positive: true,
      max: 1e8,
    }),
  ),
  capacitance: quantity(
    "capacitance",
    "capacitance across the coil, strays included, its own left out",
    "bridge, or the gang's law at that place",
    [1e-10, 5e-12, "an example"],
    { positive: true, max: 1e-6 },
  ),
  selfCapacitance: quantity(
    "capacitance",
    "the coil's own capacitance",
    "resonance with two known capacitors",
    [3e-12, 2e-12, "small coils have 1 to 5 pF, common practice, no source"],
    { min: 0, max: 1e-9 },
  ),
  coilRange: quantity(
    "fraction",
    "how far the slug changes the inductance, up and down from the middle",
    "resonance at both stops",
    [0.12, 0.04, "assumed: no published range found"],
    { positive: true, max: 0.9 },
  ),
  bandwidth: exactly(
    quantity(
      "frequency",
      "width at -3 dB that the circuit is to have",
      "what the band or the sheet on images asks for",
      [1e5, 0, "an example"],
      { positive: true, max: 1e7 },
    ),
  ),
  windingOff: quantity(
    "fraction",
    "by how much the winding differs from an even sheet of current: round wire, spacing, leads",
    "measure its inductance: resonance with a known capacitor",
    [0, { shape: "normal", u: 0.012 }, "1 to 2 % for round wire, common practice, no source"],
    { min: -0.5, max: 0.5 },
  ),
});
