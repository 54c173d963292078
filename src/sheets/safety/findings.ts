import { isLiveSet, isSafeToJoin } from "../../ask/chassis";
import { lineCurrentA } from "../../physics/discharge";
import { safety } from "../../set/addresses/safety";
import { hazardousDcV } from "../../standards/cautions";
import { nextFuseA, nextRatedV } from "../../standards/preferred";
import { dangerousJ, impulseVOf, lineClasses, touchLimitOf } from "../../standards/touch-current";
import { printValue } from "../../units/print";
import type { G, Put } from "./ask";
import { proofs } from "./proofs";
import { allowedF } from "./solve";

/** Largest line bypass that is usual in sets of the era, F. Common practice, no source. */
const largestUsualF = 0.05e-6;

/**
 * What is dangerous here, and what proves that it is not.
 *
 * @param g inputs, figures and verdicts
 * @param put takes each finding
 * @source cautions.ts, touch-current.ts; the steps: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  aboutChassis(g, put);
  aboutBypass(g, put);
  aboutLine(g, put);
  aboutCharge(g, put);
  proofs(g, put);
}
function aboutChassis({ best: x }: G, put: Put): void {
  if (!isSafeToJoin(x.chassis))
    put(
      "chassis-may-be-live",
      "danger",
      `The chassis ${x.chassis === "live" ? "is" : "must be taken to be"} connected to the line: every screw and shaft on it can kill.`,
      {
        do: "Never earth it, and fit no three-wire cord with the green wire to the chassis. Work on it only behind a line isolation transformer rated for at least half as much power again, the chassis proved dead with the plug either way round. A polarised plug with the chassis on the neutral lowers the risk and doesn't remove it: a wrongly wired socket reverses it. Knobs, screws and back must cover every part of it. Local code prevails.",
        hazards: ["live-chassis", "line", "b-plus", "stored-charge"],
      },
    );
  if (isLiveSet(x.chassis) && x.cord === "three-wire")
    put(
      "safety-cord-live",
      "danger",
      "A three-wire cord is stated on a chassis that is, or counts as, connected to the line. With its green wire on the chassis it is a short of the line, or a chassis at line voltage through a broken wire.",
      {
        do: "Unplug the set. Nobody plugs it in until the green wire is proved off the chassis, or the set is proved to have a transformer of its own.",
        hazards: ["live-chassis", "line", "b-plus", "stored-charge"],
      },
    );
}
function aboutBypass(g: G, put: Put): void {
  const x = g.best;
  const limit = touchLimitOf(x.touchLimit);
  if (x.bypass > 0 && x.bypassClass !== "none fitted" && g.isAssumed("bypass"))
    put(
      "safety-line-bypass-look",
      "act",
      `Nobody has checked yet whether a capacitor goes from the line to the chassis. One of 0.01 to 0.05 µF is usual in sets of the era, and passes up to ${printValue(lineCurrentA(largestUsualF, x.ratedLine, x.lineFrequency), "current", 4e-4)} at ${printValue(x.ratedLine, "voltage")}, ${printValue(x.lineFrequency, "frequency")}; an old one has no safety class.`,
      {
        do: `Unplug the set. Look at the line switch and the transformer's primary; read its marking; then record it (${safety.bypass.address}, ${safety.bypassClass.address}). Local code prevails.`,
        restsOn: ["bypassCurrent"],
      },
    );
  else if (x.bypass > 0 && x.bypassClass !== "none fitted") {
    const over = g.verdict((i, y) => y.bypassCurrent > touchLimitOf(i.touchLimit).ampere);
    const classed = lineClasses.some((c) => c.name === x.bypassClass && c.name.startsWith("Y"));
    if (over !== "no" || !classed)
      put(
        "safety-line-bypass",
        over === "yes" || !classed ? "danger" : "check",
        `The capacitor from line to chassis passes ${g.say("bypassCurrent")} at the highest line${over === "yes" ? `, over ${x.touchLimit}` : over === "open" ? `, and may be over ${x.touchLimit}` : ""} (${limit.source})${classed ? "" : `; ${x.bypassClass === "no class" ? "it is of no safety class, and if it shorts, the line is on the chassis" : `${x.bypassClass} is no class for line to chassis`}`}.`,
        {
          do: `Unplug the set. Take it out, or replace it by class Y2${x.ratedLine < 150 ? " or Y4" : ""} (impulse ${printValue(impulseVOf("Y2", 4.7e-9), "voltage")}) of no more than ${printValue(allowedF(g), "capacitance")} for both line wires together; X2 is for line to line only. Never a plain film or paper part. Line-side work is for a licensed person where local code says so.`,
          restsOn: ["bypassCurrent", "largestBypass"],
        },
      );
  }
}
function aboutLine(g: G, put: Put): void {
  const x = g.best;
  if (!isLiveSet(x.chassis) && x.cord !== "three-wire")
    put(
      "safety-cord",
      "act",
      `The cord is ${x.cord === "not-stated" ? "not stated" : `a ${x.cord} one`}. Practices differ: many fit a three-wire cord to every set with a transformer, so that a fault blows the fuse; others keep two wires to avoid ground loops, or for originality. Local code decides; where it is silent, earth is the safer of the two.`,
      {
        do: "Unplug the set. Three-wire: hot to fuse, then switch; neutral straight to the transformer; green to the chassis by itself, on its own bolt and left longest of the three, strain relief on the jacket. Then prove the bond.",
      },
    );
  put(
    "safety-fuse",
    "act",
    `Line fuse: 1.5 to 2 times the running current, so ${printValue(nextFuseA(g.figures.fuseLow.value ?? 1), "current")}, slow (common practice; from memory). It guards against fire, not shock.`,
    {
      do: "Unplug the set. Fuse in the hot wire, before the switch; with the breaking capacity that local code asks for. Read the running current once the set is proved, and choose by it.",
      restsOn: ["fuseLow", "fuseHigh"],
    },
  );
}
function aboutCharge(g: G, put: Put): void {
  const x = g.best;
  const energy = g.verdict((_, y) => y.stored > dangerousJ);
  put(
    "safety-stored",
    energy === "no" ? "check" : "act",
    `Charged to ${g.about("noLoad")} the filter holds ${g.say("stored")}${energy === "no" ? "" : `; over ${dangerousJ} J counts as dangerous`}. If the bleeder is intact it falls to ${hazardousDcV.value} V in ${g.say("falls")}; if it is open, never. This is a guide, not proof.`,
    {
      do: "Every time you switch off: unplug, wait, MEASURE each filter capacitor by itself, discharge through a resistor with an insulated handle, and MEASURE once more before you touch.",
      restsOn: ["stored", "noLoad", "falls", "fallsOpen"],
    },
  );
  const hot = g.verdict((i, y) => y.falls > 60 && i.bleeder > 0);
  if (hot !== "no")
    put(
      "safety-bleeder",
      "check",
      `It takes, or may take, over a minute to fall. ${g.say("bleederWanted")} across the filter would do it in ten seconds.`,
      {
        do: `Unplugged, discharged and measured: a bleeder rated twice ${printValue((g.figures.noLoad.value ?? 0) ** 2 / (g.figures.bleederWanted.value ?? 1e6), "power", 0.1)} and for the whole volts, mounted clear of anything its heat could harm.`,
        restsOn: ["bleederWanted", "falls"],
        hazards: ["line", "b-plus", "stored-charge", "heat"],
      },
    );
  if (x.connectorVolts > hazardousDcV.value)
    put(
      "safety-connector",
      "danger",
      `A connector on the outside carries ${printValue(x.connectorVolts, "voltage", 1)}; ${hazardousDcV.value} V DC already counts as hazardous (${hazardousDcV.source}).`,
      {
        do: `Unplugged, discharged and measured: a recessed or shrouded socket on the set, never a pin; a series capacitor at the tap rated ${printValue(nextRatedV(1.5 * (g.figures.noLoad.high ?? x.connectorVolts)) ?? 1000, "voltage")} where only signal is wanted; a fuse in the lead where power is; and a warning on it.`,
        restsOn: ["noLoad"],
      },
    );
}
