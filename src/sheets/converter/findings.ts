import type { GroundOn } from "../../ask/contract";
import { inside } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import { crowdIn } from "../../infer/crystal/choose";
import { imageOf, tunedOver } from "../../physics/converter";
import { printValue } from "../../units/print";
import { nearWithoutCrossing } from "./near";
import { beatHz, type Chosen, type ConverterInputs, hz, markersMeet, type Names, throughOwnImageHz } from "./solve";

/** What a plan means, its traps, and what to do at the set. */
export function findingsOf(g: GroundOn<ConverterInputs, Names>, { taken }: Chosen): Finding[] {
  const x = g.best;
  const p = taken.plan;
  const out: Finding[] = [];
  const put = (id: string, severity: Finding["severity"], says: string, todo: string | undefined, restsOn: readonly Names[]): void => {
    out.push({ id: `converter-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
  };
  put(
    "order",
    "note",
    taken.overtone === 1
      ? "A crystal of this frequency is ordered on its fundamental, with its load capacitance."
      : `A crystal of this frequency is a ${taken.overtone === 3 ? "third" : "fifth"}-overtone one: order it by its overtone frequency, at series resonance; its fundamental lies near ${hz(p.crystalHz / taken.overtone)}, not exactly there.`,
    undefined,
    ["crystal"],
  );
  const already = x.ranges.some((r) => r.low <= x.wantedLow && r.high >= x.wantedHigh);
  if (already) put("already", "check", "The receiver tunes this band by itself: a converter only adds pitfalls.", undefined, ["crystal"]);
  const own = g.figures.ownImageRejection.value ?? 0;
  if (own < 40)
    put(
      "own-image",
      "check",
      `The receiver's own image brings in ${hz(throughOwnImageHz(x, p, tunedOver(p)[0]))} to ${hz(throughOwnImageHz(x, p, tunedOver(p)[1]))} as well: the converter's input takes only ${g.about("ownImageRejection")} off it, the receiver's own circuits the rest.`,
      "Peak the receiver's antenna trimmer with the converter on; the sheet on images says what its circuits do there.",
      ["ownImageRejection"],
    );
  const weak = g.verdict((_, y) => y.imageRejection < 40);
  const image = imageOf(p);
  const crowd = crowdIn(image.lowHz, image.highHz);
  if (weak !== "no")
    put(
      `image-${weak}`,
      "check",
      `The image is ${weak === "yes" ? "" : "perhaps "}less than 40 dB down (${g.say("imageRejection")})${crowd.length > 0 ? `, and ${crowd.join(" and ")} lies there` : ""}. What tunes ${p.side === "below" ? "backward" : "forward"}, against the wanted signals, with sidebands the other way round, is the image.`,
      "Add a tuned circuit at the converter's input, or take a crystal that puts the band on a higher range: both raise it.",
      ["imageRejection"],
    );
  if (p.side === "above")
    put("backward", "note", "The crystal is above the band, so the dial runs backward and upper sideband comes out as lower.", undefined, [
      "dialAtLow",
    ]);
  for (const r of taken.responses.filter((s) => s.crossHz !== undefined && s.m + s.n <= 9))
    put(
      `whistle-${r.m}-${r.n}`,
      "check",
      `A strong signal near ${hz(r.crossHz as number)} whistles with itself there (harmonic ${r.m} of the crystal, ${r.n} of the signal).`,
      "Keep strong signals small at the mixer: turn the converter's gain down, not the receiver's.",
      ["whistles"],
    );
  const near = nearWithoutCrossing(x, p);
  if (near.length > 0)
    out.push({
      id: "converter-near",
      severity: "check",
      says: `Strong signals in the band or near it come out elsewhere on the dial too, without a whistle: ${near
        .slice(0, 3)
        .map((r) => `${hz(r.lowHz)} to ${hz(r.highHz)} (harmonic ${r.m} of the crystal, ${r.n} of the signal)`)
        .join("; ")}${near.length > 3 ? `, and ${near.length - 3} more` : ""}.`,
      do: "Turn the converter's gain down a little: what fades faster than its neighbours on the dial is one of these.",
      restsOn: ["whistles"],
      hazards: inside,
      state: "panel",
    });
  if (taken.birdies.length > 0)
    put(
      "notes",
      "note",
      `${taken.birdies.length} steady ${taken.birdies.length === 1 ? "note is" : "notes are"} to be expected that ${taken.birdies.length === 1 ? "is no signal" : "are no signals"}; the table says where.`,
      "What stays with the converter's input shorted is such a note. What stays with its crystal out comes past the converter, or is the receiver's own.",
      ["notes"],
    );
  const onDial = crowdIn(...tunedOver(p));
  if (onDial.length > 0)
    put(
      "feed-through",
      "check",
      `On this range the receiver by itself hears ${onDial.join(" and ")}.`,
      "Coaxial cable from converter to receiver, both ends earthed to their chassis once these are proved isolated; the receiver's own antenna off.",
      ["feedThroughRejection"],
    );
  if (markersMeet(x, p)) {
    const beat = beatHz(x, p);
    if (beat === undefined)
      put(
        "two-path",
        "note",
        `The crystal is a whole multiple of the markers, so a marker comes in at one place by both paths: their beat is exactly the crystal's error (${printValue(p.crystalHz * 1e-5, "frequency", 1)} for 10 ppm).`,
        "Marker generator at the converter's input, and a wire of it near the receiver's antenna terminal. Count the beat; pull the crystal with its trimmer to learn whether it is high or low.",
        ["crystalFound"],
      );
    else {
      const error = g.figures.byCrystal.value ?? 0;
      const far = g.verdict((_, y) => Math.abs(y.crystalFound) > 5e-6);
      put(
        `trim-${far}`,
        far === "no" ? "note" : "act",
        `By both paths the crystal is ${g.about("crystalFound")} off: for that alone the true frequency is ${printValue(Math.abs(error), "frequency", Math.max(1, Math.abs(error) / 100))} ${error < 0 ? "below" : "above"} what the card says.`,
        far === "no"
          ? undefined
          : "Trim it until the beat stands still, warm and with the cover on; or write the true frequency on the card.",
        ["crystalFound"],
      );
    }
  } else
    put(
      "no-two-path",
      "note",
      "The crystal is no multiple of the markers, so they can't measure it here: use a counter, loosely coupled.",
      undefined,
      ["crystal"],
    );
  put(
    "markers",
    "note",
    "For this band, feed markers to the converter's input: at the receiver's terminal they mark only the receiver's own dial.",
    "Couple the marker generator where the antenna joins the converter.",
    ["readout"],
  );
  return out;
}
