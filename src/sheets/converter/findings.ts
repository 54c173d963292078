import { type CrystalChoice, crowdIn } from "../../infer/crystal/choose";
import { imageOf, tunedOver } from "../../physics/converter";
import { printValue } from "../../units/print";
import type { G, Put } from "./ask";
import { nearWithoutCrossing } from "./near";
import { beatHz, hz, markersMeet, throughOwnImageHz } from "./solve";

/** Less than this off an image is heard. Common practice, no source. */
const heardDb = 40;
/**
 * What a plan means, its traps, and what to do at the set.
 *
 * @param g inputs at their best values, and the results
 * @param put puts a finding
 * @param taken the crystal with its plan
 * @source house rule
 */
export function findingsOf(g: G, put: Put, taken: CrystalChoice): void {
  aboutCrystal(g, put, taken);
  aboutImages(g, put, taken);
  aboutStrong(g, put, taken);
  aboutNotes(put, taken);
  const onDial = crowdIn(...tunedOver(taken.plan));
  if (onDial.length > 0)
    put("converter-feed-through", "check", `On this range the receiver by itself hears ${onDial.join(" and ")}.`, {
      do: "Coaxial cable from converter to receiver, its braid to chassis at both ends once both are proved isolated; the receiver's own antenna off.",
      restsOn: ["feedThroughRejection"],
    });
  aboutBothPaths(g, put, taken);
  put(
    "converter-markers",
    "note",
    "For this band, feed markers to the converter's input: at the receiver's terminal they mark only the receiver's own dial.",
    { do: "Couple the marker generator where the antenna joins the converter.", restsOn: ["readout"] },
  );
}
function aboutCrystal({ best: x }: G, put: Put, { plan, overtone }: CrystalChoice): void {
  const restsOn = ["crystal"] as const;
  put(
    "converter-order",
    "note",
    overtone === 1
      ? "A crystal of this frequency is ordered on its fundamental, with its load capacitance."
      : `A crystal of this frequency is a ${overtone === 3 ? "third" : "fifth"}-overtone one: order it by its overtone frequency, at series resonance; its fundamental lies near ${hz(plan.crystalHz / overtone)}, not exactly there.`,
    { restsOn },
  );
  if (x.ranges.some((r) => r.low <= x.wantedLow && r.high >= x.wantedHigh))
    put("converter-already", "check", "The receiver tunes this band on its own: a converter would only add trouble.", { restsOn });
}
function aboutImages(g: G, put: Put, { plan: p }: CrystalChoice): void {
  const x = g.best;
  if ((g.figures.ownImageRejection.value ?? 0) < heardDb)
    put(
      "converter-own-image",
      "check",
      `The receiver's own image brings in ${hz(throughOwnImageHz(x, p, tunedOver(p)[0]))} to ${hz(throughOwnImageHz(x, p, tunedOver(p)[1]))} as well: the converter's input takes only ${g.about("ownImageRejection")} off it, the receiver's own circuits the rest.`,
      {
        do: "Peak the receiver's antenna trimmer with the converter on; the sheet on images says what its circuits do there.",
        restsOn: ["ownImageRejection"],
      },
    );
  const weak = g.verdict((_, y) => y.imageRejection < heardDb);
  const image = imageOf(p);
  const crowd = crowdIn(image.lowHz, image.highHz);
  if (weak !== "no")
    put(
      `converter-image-${weak}`,
      "check",
      `The image is ${weak === "yes" ? "" : "perhaps "}less than 40 dB down (${g.say("imageRejection")})${crowd.length > 0 ? `, and ${crowd.join(" and ")} lies there` : ""}. What tunes ${p.side === "below" ? "backward" : "forward"}, against the wanted signals, with its sidebands inverted, is the image.`,
      {
        do: "Add a tuned circuit at the converter's input, or take a crystal that puts the band on a higher range: both raise it.",
        restsOn: ["imageRejection"],
      },
    );
  if (p.side === "above")
    put("converter-backward", "note", "The crystal is above the band, so the dial runs backward and upper sideband comes out as lower.", {
      restsOn: ["dialAtLow"],
    });
}
function aboutStrong({ best: x }: G, put: Put, { plan, responses }: CrystalChoice): void {
  const restsOn = ["whistles"] as const;
  for (const { m, n, crossHz } of responses)
    if (crossHz !== undefined && m + n <= 9)
      put(
        `converter-whistle-${m}-${n}`,
        "check",
        `A strong signal near ${hz(crossHz)} whistles with itself there (harmonic ${m} of the crystal, ${n} of the signal).`,
        { do: "Keep strong signals small at the mixer: turn the converter's gain down, not the receiver's.", restsOn },
      );
  const near = nearWithoutCrossing(x, plan);
  if (near.length === 0) return;
  const first = near.slice(0, 3).map((r) => `${hz(r.lowHz)} to ${hz(r.highHz)} (harmonic ${r.m} of the crystal, ${r.n} of the signal)`);
  put(
    "converter-near",
    "check",
    `Strong signals in the band or near it come out elsewhere on the dial too, without a whistle: ${first.join("; ")}${near.length > 3 ? `, and ${near.length - 3} more` : ""}.`,
    {
      do: "Turn the converter's gain down a little: what fades faster than its neighbours on the dial is one of these.",
      restsOn,
      state: "panel",
    },
  );
}
function aboutNotes(put: Put, { birdies }: CrystalChoice): void {
  if (birdies.length === 0) return;
  const one = birdies.length === 1;
  put(
    "converter-notes",
    "note",
    `${birdies.length} steady ${one ? "note is" : "notes are"} to be expected that ${one ? "is not a signal" : "are not signals"}; the table says where.`,
    {
      do: "A note that stays with the converter's input shorted is one of these. One that stays with the crystal out gets in past the converter, or is the receiver's own.",
      restsOn: ["notes"],
    },
  );
}
function aboutBothPaths(g: G, put: Put, { plan: p }: CrystalChoice): void {
  const restsOn = ["crystalFound"] as const;
  if (!markersMeet(g.best, p)) {
    put(
      "converter-no-two-path",
      "note",
      "The crystal is no multiple of the markers, so they can't measure it here: use a counter, loosely coupled.",
      { restsOn: ["crystal"] },
    );
    return;
  }
  if (beatHz(g.best, p) === undefined) {
    put(
      "converter-two-path",
      "note",
      `The crystal is a whole multiple of the markers, so a marker comes in at one place by both paths: their beat is exactly the crystal's error (${printValue(p.crystalHz * 1e-5, "frequency", 1)} for 10 ppm).`,
      {
        do: "Marker generator at the converter's input, and a wire of it near the receiver's antenna terminal. Count the beat; pull the crystal with its trimmer to learn whether it is high or low.",
        restsOn,
      },
    );
    return;
  }
  const error = g.figures.byCrystal.value ?? 0;
  const far = g.verdict((_, y) => Math.abs(y.crystalFound) > 5e-6);
  put(
    `converter-trim-${far}`,
    far === "no" ? "note" : "act",
    `By both paths the crystal is ${g.about("crystalFound")} off: for that alone the true frequency is ${printValue(Math.abs(error), "frequency", Math.max(1, Math.abs(error) / 100))} ${error < 0 ? "below" : "above"} what the card says.`,
    {
      restsOn,
      ...(far === "no"
        ? {}
        : { do: "Trim it until the beat stands still, warm and with the cover on; or write the true frequency on the card." }),
    },
  );
}
