import type { G, Put } from "./ask";

/**
 * What the pass band means at the bench.
 *
 * @param g what the answer stands on
 * @param put takes each finding
 * @source house frame; what is wide and narrow: common practice, no source
 */
export function findingsOf(g: G, put: Put): void {
  aboutMiddle(g, put);
  aboutSlugs(g, put);
  aboutWidth(g, put);
  if (g.verdict((x) => x.strip.cans.some((c) => c.addedCapacitance > 0)) === "yes")
    put("response-cable-hangs", "act", "This is the strip as it is now: a fitted cable hangs on a can and has not been tuned out yet.", {
      do: "Tune the accessory's coil for the cable and re-peak that one primary, then record the work accessory-set.",
      restsOn: ["width6dB", "gain"],
    });
  aboutSkirts(g, put);
}
function aboutMiddle(g: G, put: Put): void {
  const centred = g.verdict((_, y) => Math.abs(y.offCentre) < 0.1 * y.width6dB);
  if (centred === "yes") return;
  put("response-off-centre", centred === "no" ? "act" : "check", `The pass band's middle is ${g.say("offCentre")} off the IF.`, {
    do:
      centred === "no"
        ? "Find out which is right before touching a slug: the filter's centre, or the IF on the service sheet. Then peak the cans to that."
        : "Sweep the strip: the parts' tolerances alone leave this open.",
    restsOn: ["offCentre", "width6dB"],
  });
}
function aboutSlugs(g: G, put: Put): void {
  if (g.best.slugsTouched === "not" || !g.isAssumed("strip.can1.primaryOffset")) return;
  put(
    "response-slugs",
    "check",
    g.best.slugsTouched === "yes"
      ? "The slugs have been turned: this curve is that of a strip set by the service sheet, and the real one isn't."
      : "Whether the slugs have been turned is not known: this curve holds only if they have not.",
    {
      do: "Sweep the strip as found before anything is turned, and read the sweep in: the fit allows for slugs that were turned.",
      restsOn: ["width6dB", "centre"],
    },
  );
}
function aboutWidth(g: G, put: Put): void {
  if (g.verdict((_, y) => y.width6dB > 8000) === "yes")
    put(
      "response-wide",
      "note",
      `Wide for crowded bands: a carrier 5 kHz away is only ${g.say("adjacentRejection5kHz")} down. A selectivity accessory gains most here, on AM too.`,
      { restsOn: ["width6dB", "adjacentRejection5kHz"] },
    );
  if (g.verdict((_, y) => y.audioBandwidthAm < 2200) === "yes")
    put("response-narrow", "note", `Too narrow for good AM: audio ends at ${g.say("audioBandwidthAm")}.`, {
      restsOn: ["audioBandwidthAm"],
    });
}
function aboutSkirts(g: G, put: Put): void {
  const measured = g.best.sweepReaches60dB === "yes";
  put(
    measured ? "response-skirts-measured" : "response-no-strays",
    "note",
    measured
      ? "A sweep of this job reaches -60 dB: below -50 dB take its own width, not the model's."
      : "Below -50 dB the curve is a model without stray coupling: a real set passes more there. Only a sweep that goes that far can tell.",
    { restsOn: ["width60dB", "shapeFactor"] },
  );
}
