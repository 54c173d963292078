import { isLiveSet, isSafeToJoin } from "../../ask/chassis";
import type { Finding } from "../../ask/findings";
import { lineCurrentA } from "../../physics/discharge";
import { hazardousDcV } from "../../standards/cautions";
import { nextFuseA, nextRatedV } from "../../standards/preferred";
import { bondMostOhm, dangerousJ, impulseVOf, insulationLeastOhm, lineClasses, touchLimitOf } from "../../standards/touch-current";
import { printValue } from "../../units/print";
import { allowedF, type G } from "./solve";

/** Largest line bypass that is usual in sets of the era, F. Common practice, no source. */
const largestUsualF = 0.05e-6;
const all: Finding["hazards"] = ["line", "b-plus", "stored-charge"];

/** What is dangerous here, and what proves that it is not. */
export function findingsOf(g: G): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const limit = touchLimitOf(x.touchLimit);
  const live = isLiveSet(x.chassis);
  if (!isSafeToJoin(x.chassis))
    out.push({
      id: "chassis-may-be-live",
      severity: "danger",
      says: `The chassis ${x.chassis === "live" ? "is" : "must be taken to be"} joined to the line: every screw and shaft on it can kill.`,
      do: "Never earth it, and fit no three-wire cord with the green wire to the chassis. Work on it only behind a line isolation transformer of half again its power and more, the chassis proved dead with the plug either way round. A polarised plug with the chassis on the neutral lowers the risk and doesn't remove it: a wrongly wired socket reverses it. Knobs, screws and back must cover every part of it. Local code prevails.",
      restsOn: [],
      hazards: ["live-chassis", ...all],
    });
  if (live && x.cord === "three-wire")
    out.push({
      id: "safety-cord-live",
      severity: "danger",
      says: "A three-wire cord is stated on a chassis that is, or counts as, joined to the line. With its green wire on the chassis it is a short of the line, or a chassis at line voltage through a broken wire.",
      do: "Unplug the set. Nobody plugs it in until the green wire is proved off the chassis, or the set is proved to have a transformer of its own.",
      restsOn: [],
      hazards: ["live-chassis", ...all],
    });
  if (x.bypass > 0 && x.bypassClass !== "none fitted" && g.isAssumed("bypass"))
    out.push({
      id: "safety-line-bypass-look",
      severity: "act",
      says: `Nobody has checked yet whether a capacitor goes from the line to the chassis. One of 0.01 to 0.05 µF is usual in sets of the era, and passes up to ${printValue(lineCurrentA(largestUsualF, x.ratedLine, x.lineFrequency), "current", 4e-4)} at ${printValue(x.ratedLine, "voltage")}, ${printValue(x.lineFrequency, "frequency")}; an old one has no safety class.`,
      do: "Unplug the set. Look at the line switch and the transformer's primary; read its marking; then record it (supplies.lineBypass, supplies.bypassClass). Local code prevails.",
      restsOn: ["bypassCurrent"],
      hazards: all,
    });
  else if (x.bypass > 0 && x.bypassClass !== "none fitted") {
    const over = g.verdict((i, y) => y.bypassCurrent > touchLimitOf(i.touchLimit).ampere);
    const classed = lineClasses.some((c) => c.name === x.bypassClass && c.name.startsWith("Y"));
    if (over !== "no" || !classed)
      out.push({
        id: "safety-line-bypass",
        severity: over === "yes" || !classed ? "danger" : "check",
        says: `The capacitor from line to chassis passes ${g.say("bypassCurrent")} at the highest line${over === "yes" ? `, over ${x.touchLimit}` : over === "open" ? `, and may be over ${x.touchLimit}` : ""} (${limit.source})${classed ? "" : `; ${x.bypassClass === "no class" ? "it is of no safety class, and if it shorts, the line is on the chassis" : `${x.bypassClass} is no class for line to chassis`}`}.`,
        do: `Unplug the set. Take it out, or replace it by class Y2${x.ratedLine < 150 ? " or Y4" : ""} (impulse ${printValue(impulseVOf("Y2", 4.7e-9), "voltage")}) of no more than ${printValue(allowedF(g), "capacitance")} for both line wires together; X2 is for line to line only. Never a plain film or paper part. Line-side work is for a licensed person where local code says so.`,
        restsOn: ["bypassCurrent", "largestBypass"],
        hazards: all,
      });
  }
  if (!live && x.cord !== "three-wire")
    out.push({
      id: "safety-cord",
      severity: "act",
      says: `The cord is ${x.cord === "not-stated" ? "not stated" : `a ${x.cord} one`}. Practices differ: many fit a three-wire cord to every set with a transformer, so that a fault blows the fuse; others keep two wires to avoid ground loops, or for originality. Local code decides; where it is silent, earth is the safer of the two.`,
      do: "Unplug the set. Three-wire: hot to fuse, then switch; neutral straight to the transformer; green to the chassis by itself, on its own bolt and left longest of the three, strain relief on the jacket. Then prove the bond.",
      restsOn: [],
      hazards: all,
    });
  out.push({
    id: "safety-fuse",
    severity: "act",
    says: `Line fuse: 1.5 to 2 times the running current, so ${printValue(nextFuseA(g.figures.fuseLow.value ?? 1), "current")}, slow (common practice; from memory). It guards against fire, not shock.`,
    do: "Unplug the set. Fuse in the hot wire, before the switch; with the breaking capacity that local code asks for. Read the running current once the set is proved, and choose by it.",
    restsOn: ["fuseLow", "fuseHigh"],
    hazards: all,
  });
  const energy = g.verdict((_, y) => y.stored > dangerousJ);
  out.push({
    id: "safety-stored",
    severity: energy === "no" ? "check" : "act",
    says: `Charged to ${g.about("noLoad")} the filter holds ${g.say("stored")}${energy === "no" ? "" : `; over ${dangerousJ} J counts as dangerous`}. If the bleeder is intact it falls to ${hazardousDcV.value} V in ${g.say("falls")}; if it is open, never. This is a guide, not proof.`,
    do: "Every time you switch off: unplug, wait, MEASURE each filter capacitor by itself, discharge through a resistor with an insulated handle, and MEASURE once more before you touch.",
    restsOn: ["stored", "noLoad", "falls", "fallsOpen"],
    hazards: all,
  });
  const hot = g.verdict((i, y) => y.falls > 60 && i.bleeder > 0);
  if (hot !== "no")
    out.push({
      id: "safety-bleeder",
      severity: "check",
      says: `It takes, or may take, over a minute to fall. ${g.say("bleederWanted")} across the filter would do it in ten seconds.`,
      do: `Unplugged, discharged and measured: a bleeder rated twice ${printValue((g.figures.noLoad.value ?? 0) ** 2 / (g.figures.bleederWanted.value ?? 1e6), "power", 0.1)} and for the whole volts, mounted clear of anything its heat could harm.`,
      restsOn: ["bleederWanted", "falls"],
      hazards: [...all, "heat"],
    });
  if (x.connectorVolts > hazardousDcV.value)
    out.push({
      id: "safety-connector",
      severity: "danger",
      says: `A connector on the outside carries ${printValue(x.connectorVolts, "voltage", 1)}; ${hazardousDcV.value} V DC already counts as hazardous (${hazardousDcV.source}).`,
      do: `Unplugged, discharged and measured: a recessed or shrouded socket on the set, never a pin; a series capacitor at the tap rated ${printValue(nextRatedV(1.5 * (g.figures.noLoad.high ?? x.connectorVolts)) ?? 1000, "voltage")} where only signal is wanted; a fuse in the lead where power is; and a warning on it.`,
      restsOn: ["noLoad"],
      hazards: all,
    });
  return [...out, ...proofs(g)];
}

/** What the safety record holds against its limits, and what it does not hold yet. */
function proofs(g: G): Finding[] {
  const x = g.best;
  // a record that fails is said, whatever it made of the chassis
  const failing = x.chassis === "unstated" && (x.insulation ?? Number.POSITIVE_INFINITY) < insulationLeastOhm.value;
  if (isLiveSet(x.chassis) && !failing) return liveProofs(x);
  const limit = touchLimitOf(x.touchLimit);
  const wanted: string[] = [];
  const failed: string[] = [];
  const held: string[] = [];
  const judge = (read: number | undefined, good: (v: number) => boolean, what: string, figure: (v: number) => string): void => {
    if (read === undefined) wanted.push(what);
    else (good(read) ? held : failed).push(`${what} ${figure(read)}`);
  };
  if (x.cord === "three-wire" || x.bond !== undefined)
    judge(
      x.bond,
      (v) => v <= bondMostOhm.value,
      "bond",
      (v) => `${printValue(v, "resistance", 0.001)} (${printValue(bondMostOhm.value, "resistance")} at most)`,
    );
  judge(
    x.insulation,
    (v) => v >= insulationLeastOhm.value,
    "insulation from line to chassis",
    (v) =>
      `${printValue(v, "resistance")} (at least ${printValue(insulationLeastOhm.value, "resistance")}; over ${printValue(insulationLeastOhm.good, "resistance")} is good)`,
  );
  for (const [name, v] of [
    ["touch current one way", x.touchOne],
    ["touch current the other way", x.touchOther],
  ] as const)
    judge(
      v,
      (i) => i <= limit.ampere,
      name,
      (i) => `${printValue(i, "current", 3e-5)} (${x.touchLimit} at most)`,
    );
  const out: Finding[] = [];
  if (failed.length > 0)
    out.push({
      id: "safety-proof-failed",
      severity: "danger",
      says: `The safety record fails: ${failed.join("; ")}.`,
      do: "Unplug the set. Nobody powers it or takes it home until the cause is found and the whole test is done again.",
      restsOn: [],
      hazards: all,
    });
  if (wanted.length > 0)
    out.push({
      id: "safety-proof-wanted",
      severity: "act",
      says: `Not on the safety record yet: ${wanted.join(", ")}.`,
      do: "Measure them with the cover on, as the set will be used, and write them on the card of the safety record. Touch current is measured with power on, chassis to earth: for somebody trained for it.",
      restsOn: [],
      hazards: all,
      state: "panel",
    });
  if (held.length > 0)
    out.push({
      id: "safety-proof-held",
      severity: "note",
      says: `On the safety record, within its limits: ${held.join("; ")}. A record holds for that day: any work on cord or cabinet voids it.`,
      restsOn: [],
      hazards: all,
    });
  return out;
}

/** What is proved on a set with a live chassis: that nobody can reach it. */
function liveProofs(x: G["best"]): Finding[] {
  const out: Finding[] = [];
  if (!isSafeToJoin(x.chassis) && [x.insulation, x.touchOne, x.touchOther].some((v) => v !== undefined))
    out.push({
      id: "safety-record-contradicts",
      severity: "check",
      says: "The safety record has insulation or touch current of the chassis, yet the chassis is live, or not proved: one of the two is wrong, or it was measured behind an isolation transformer.",
      do: "Unplug the set. Trace whether one side of the line goes to the chassis, and put the record right before anything else.",
      restsOn: [],
      hazards: ["live-chassis", ...all],
    });
  out.push({
    id: "safety-live-proofs",
    severity: "act",
    says: "On a set with a live chassis the proof is that nobody can reach it: knobs, set screws, shafts, cabinet back, antenna and ground terminals.",
    do: "With the cabinet closed and the set unplugged: no metal of the chassis can be touched with a finger or a pin, the back is fixed, knob screws are covered, and antenna and ground leave it through capacitors of class Y. What can be reached is tested on the line only by somebody trained for it, with the instrument that local code asks for.",
    restsOn: [],
    hazards: ["live-chassis", ...all],
    state: "panel",
  });
  return out;
}
