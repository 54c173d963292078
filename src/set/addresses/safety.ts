import { lineClasses, touchLimitNames } from "../../standards/touch-current";
import { addresses, choice, quantity } from "./declare";

export const safety = addresses("safety", {
  cord: choice(["two-wire", "three-wire", "polarised two-wire", "not-stated"], "line cord", "look at it", "not-stated"),
  bypassClass: choice(
    ["no class", "none fitted", ...lineClasses.map((c) => c.name)],
    "safety class of the capacitor from the line to the chassis",
    "printed on it; an old one has none",
    "no class",
  ),
  touchLimit: choice(touchLimitNames, "limit of the touch current; local code prevails", "chosen", "0.5 mA"),
  bypass: quantity(
    "capacitance",
    "capacitance from the line to the chassis; 0 for none",
    "its marking; a bridge from both line wires to the chassis, unplugged",
    [2e-8, 1e-8, "0.01 to 0.05 µF in sets of the era, common practice, no source"],
    { min: 0, max: 2e-6 },
  ),
  bond: quantity("resistance", "bond from the earth pin to the chassis", "milliohmmeter or four wires, unplugged", undefined, { min: 0 }),
  insulation: quantity(
    "resistance",
    "insulation from the line to the chassis",
    "insulation tester at 500 V DC, unplugged, switch on, by somebody trained for it",
    undefined,
    { min: 0 },
  ),
  connectorVolts: quantity(
    "voltage",
    "B+ that a connector on the outside carries; 0 for none",
    "service sheet; measured from clips put on with the set off",
    [0, 0, "none stated"],
    { min: 0, max: 2000 },
  ),
});
