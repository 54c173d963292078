import type { G, Put } from "./ask";

/** Small numbers k for which every k-th marker is missing at this duty. */
const missing = (duty: number): number[] =>
  [2, 3, 4, 5, 10].filter(
    (k) => Math.abs(duty * k - Math.round(duty * k)) < 0.004 * k && Math.round(duty * k) > 0 && Math.round(duty * k) < k,
  );

/**
 * Markers that are missing, too weak or too loud, and whether one coupling suits both bands.
 *
 * @param g inputs at their best values, and the results
 * @param put puts a finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  aboutMissing(g, put);
  aboutLevels(g, put);
  if (g.verdict((_, y) => y.smallestCoupling < y.largestCoupling) === "no")
    put("markers-no-window", "act", "No single coupling suits both bands.", {
      do: "Sharpen the edges, or switch the coupling.",
      restsOn: ["smallestCoupling", "largestCoupling"],
    });
  put(
    "markers-front-end",
    "note",
    `The coupling moves the antenna circuit by ${g.say("frontEndDetune")} of its frequency at the top: touch up the antenna trimmer with the lead in place.`,
    { restsOn: ["frontEndDetune"] },
  );
  put("markers-s-law", "note", "S readings are by the IARU law; an old set follows its own law.", {
    restsOn: ["readingHighest", "readingLowest"],
  });
}
function aboutMissing(g: G, put: Put): void {
  const [gone] = missing(g.best.duty);
  if (gone === undefined) return;
  put(
    "markers-missing",
    "check",
    `At this duty every ${gone}${gone === 2 ? "nd" : gone === 3 ? "rd" : "th"} marker vanishes or nearly so${gone === 2 ? ": a perfect square wave has no even harmonics, and a differentiator after it does not bring them back" : ""}.`,
    {
      do: "Shape the output to a narrow pulse, or clip one polarity of the differentiated edge, so that all markers are there.",
      restsOn: ["heardShare"],
    },
  );
}
function aboutLevels(g: G, put: Put): void {
  const heard = g.verdict((x, y) => y.overNoiseHighest >= x.wantedOverNoise);
  if (heard !== "yes")
    put(
      `markers-weak-${heard}`,
      heard === "no" ? "act" : "check",
      `The highest band's markers are ${g.say("overNoiseHighest")} above the noise.`,
      {
        do: "Take the antenna off while the markers are on, use more coupling within the window, or sharpen the edges.",
        restsOn: ["overNoiseHighest", "smallestCoupling"],
      },
    );
  const loud = g.verdict((x, y) => y.levelLowest > x.loudest);
  if (loud !== "no")
    put(
      `markers-loud-${loud}`,
      "check",
      `On the lowest band the loudest marker reads ${g.say("readingLowest")}: it may overload the set or hide a weak station.`,
      { do: "Use less coupling.", restsOn: ["readingLowest", "largestCoupling"] },
    );
}
