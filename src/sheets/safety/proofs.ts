import { isLiveSet, isSafeToJoin } from "../../ask/chassis";
import { bondMostOhm, insulationLeastOhm, touchLimitOf } from "../../standards/touch-current";
import { printValue } from "../../units/print";
import type { Asked, G, Put } from "./ask";

/**
 * What the safety record holds against its limits, and what it does not hold yet.
 *
 * @param g inputs
 * @param put takes each finding
 * @source limits of touch-current.ts
 */
export function proofs({ best: x }: G, put: Put): void {
  // a record that fails is said, whatever it made of the chassis
  const failing = x.chassis === "unstated" && (x.insulation ?? Number.POSITIVE_INFINITY) < insulationLeastOhm.value;
  if (isLiveSet(x.chassis) && !failing) liveProofs(x, put);
  else recordProofs(x, put);
}

/** The record's figures against their limits. */
function recordProofs(x: Asked, put: Put): void {
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
  if (failed.length > 0)
    put("safety-proof-failed", "danger", `The safety record fails: ${failed.join("; ")}.`, {
      do: "Unplug the set. Nobody powers it or takes it home until the cause is found and the whole test is done again.",
    });
  if (wanted.length > 0)
    put("safety-proof-wanted", "act", `Not on the safety record yet: ${wanted.join(", ")}.`, {
      do: "Measure what is missing with the cover on, as the set will be used, and write it on the card of the safety record. Touch current is measured with power on, chassis to earth: for somebody trained for it.",
      state: "panel",
    });
  if (held.length > 0)
    put(
      "safety-proof-held",
      "note",
      `On the safety record, within its limits: ${held.join("; ")}. A record holds for that day: any work on cord or cabinet voids it.`,
      { hazards: ["line", "b-plus", "stored-charge"] },
    );
}

/** What is proved on a set with a live chassis: that nobody can reach it. */
function liveProofs(x: Asked, put: Put): void {
  if (!isSafeToJoin(x.chassis) && [x.insulation, x.touchOne, x.touchOther].some((v) => v !== undefined))
    put(
      "safety-record-contradicts",
      "check",
      "The safety record has insulation or touch current of the chassis, yet the chassis is live, or not proved: one of the two is wrong, or it was measured behind an isolation transformer.",
      {
        do: "Unplug the set. Trace whether one side of the line goes to the chassis, and put the record right before anything else.",
        hazards: ["live-chassis", "line", "b-plus", "stored-charge"],
      },
    );
  put(
    "safety-live-proofs",
    "act",
    "On a set with a live chassis the proof is that nobody can reach it: knobs, set screws, shafts, cabinet back, antenna and ground terminals.",
    {
      do: "With the cabinet closed and the set unplugged: no metal of the chassis can be touched with a finger or a pin, the back is fixed, knob screws are covered, and antenna and ground leave it through capacitors of class Y. What can be reached is tested on the line only by somebody trained for it, with the instrument that local code asks for.",
      hazards: ["live-chassis", "line", "b-plus", "stored-charge"],
      state: "panel",
    },
  );
}
