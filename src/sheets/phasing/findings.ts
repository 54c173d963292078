import type { G, Put } from "./ask";

/**
 * What the filter's peak and notch mean for the alignment.
 *
 * @param g what the answer stands on
 * @param put takes each finding
 * @source lessons and handbooks on crystal filters (read); common practice
 */
export function findingsOf(g: G, put: Put): void {
  const off = g.verdict((_, y) => Math.abs(y.peakOff) > 100);
  if (off !== "no")
    put(
      `phasing-off-the-if-${off}`,
      off === "yes" ? "act" : "check",
      `The crystal peaks ${g.say("peakOff")} off the IF: the cans belong on the crystal, which can't be moved.`,
      {
        do: "Align the IF to the crystal's own peak, phasing neutral, then set the BFO by it; the oscillator follows band by band.",
        restsOn: ["peakOff"],
      },
    );
  const reached = g.verdict((x) => x.phasingLow < x.crystalHolder && x.phasingHigh > x.crystalHolder);
  if (reached !== "yes")
    put(
      `phasing-not-neutral-${reached}`,
      "check",
      "The phasing capacitor may not reach the point that balances this holder: then there is a notch on one side only.",
      {
        do: "Power off, discharged and measured: look at the wiring on the crystal's side first, then at its holder; a fixed capacitor of a few pF on the other side helps.",
        restsOn: ["neutral"],
      },
    );
  put(
    "phasing-avc-volts",
    "note",
    "Judge notch and peak by the AVC volts or an output meter without BFO: a null by ear may be just the note passing zero beat.",
    { restsOn: ["notchAt"] },
  );
  if (g.verdict((_, y) => y.ringing > 0.01) !== "no")
    put("phasing-rings", "note", `It rings for ${g.about("ringing")}: fast CW runs together.`, { restsOn: ["ringing"] });
}
