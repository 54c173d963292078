import { printValue } from "../../units/print";
import type { Finding, GroundOn } from "../contract";
import { inside } from "../declare";
import { blame, blameSignal, marksOf, otherSideAt, type TrackingInputs, type TrackingNames, tracked } from "./solve";

type G = GroundOn<TrackingInputs, TrackingNames>;
const percent = (v: number): string => `${Number((100 * v).toPrecision(2))} %`;
type Off = readonly [value: number, u: number];
const isSure = ([v, u]: Off): boolean => Math.abs(v) > 2 * u;
/** A share that is known to a factor of two or so is no certainty yet. */
const maybe = ([v, u]: Off): string => (Math.abs(v) > 4 * u ? "" : "perhaps ");
const sayOff = (name: string, [v, u]: Off): string =>
  `The ${name} is ${percent(Math.abs(v))} too ${v > 0 ? "large" : "small"} (give or take ${percent(2 * u)})`;
/** How many times the reading noise may stay before parts alone do not explain the readings. */
const unexplained = 4;

/** The verdict of the readings in a sentence; undefined without any. */
export function blamedIn(g: G): string | undefined {
  const x = g.best;
  const t = tracked(x);
  const found = t && blame(x, t);
  const signal = t && blameSignal(x, t);
  const said: string[] = [];
  if (found && t) {
    const other = otherSideAt(x, t);
    const sure = (["coil", "trimmer", "padder"] as const).filter((n) => isSure(found[n]));
    if (other) said.push(`The oscillator is on the wrong side on ${other}: no adjustment converges before that is put right.`);
    else if (found.leftHz > unexplained * x.readingNoise) said.push("No setting of coil, trimmer and padder explains these readings.");
    else if (sure.length === 0) said.push("These readings can't tell which part is off.");
    else
      said.push(
        `${sure.map((n, i) => `${i === 0 ? "The" : "the"} ${n} is ${maybe(found[n])}${percent(Math.abs(found[n][0]))} too ${found[n][0] > 0 ? "large" : "small"}`).join(", ")}.`,
      );
  }
  if (signal) {
    const sure = (["coil", "trimmer"] as const).filter((n) => isSure(signal[n]));
    said.push(
      sure.length > 0
        ? `Of the signal circuit ${sure.map((n) => `the ${n} is ${maybe(signal[n])}${percent(Math.abs(signal[n][0]))} too ${signal[n][0] > 0 ? "large" : "small"}`).join(", ")}.`
        : "The signal circuit peaks where it should.",
    );
  }
  return said.length > 0 ? said.join(" ") : undefined;
}

/** What the readings mean, the next adjustment, and why it may never come right. */
export function findingsOf(g: G): Finding[] {
  const x = g.best;
  const out: Finding[] = [];
  const put = (
    id: string,
    severity: Finding["severity"],
    says: string,
    todo: string | undefined,
    restsOn: readonly TrackingNames[],
  ): void => {
    out.push({ id: `tracking-${id}`, severity, says, ...(todo ? { do: todo } : {}), restsOn, hazards: todo ? inside : ["none"] });
  };
  const t = tracked(x);
  if (!t) return out;
  const found = blame(x, t);
  const assumed = `Assumed: the gang as it stands above, the IF at ${printValue(x.intermediate, "frequency", 100)}, and ${x.readings.length < 3 ? "the padder near its value" : "nothing of the three"}.`;
  const marks = marksOf(x).map((f) => printValue(f, "frequency", f / 200));
  if (x.high / x.low < 1.3)
    put(
      "bandspread",
      "check",
      "This range is much narrower than a gang of that size covers: a bandspread section or fixed capacitors do it, and the parts above are not this set's.",
      "Enter the capacitance of the bandspread section itself for gangLow and gangHigh, or ask about the general-coverage band that it lies on.",
      ["worst", "coil", "trimmer"],
    );
  if (!t.parts)
    put(
      "no-parts",
      "check",
      x.oscillator === "below"
        ? "With the oscillator below the signal it is the oscillator that covers the wider range: a padder belongs in the signal circuit, and which part is off is not worked out for that here."
        : "No positive parts make this curve on this gang: one of its ends, or the band's, is not as entered.",
      undefined,
      ["worst"],
    );
  if (found) oscillator();
  signal();
  movedIf();
  const costs = g.verdict((_, y) => y.worstLoss > 3);
  if (costs !== "no")
    put(
      `costs-${costs}`,
      "check",
      `Even with every part right the signal circuit is off its peak by up to ${g.say("worstLoss")} somewhere on the band.`,
      "It is the design's: peak the signal trimmer at the place that is used most.",
      ["worstLoss"],
    );
  return out;

  function oscillator() {
    if (!found || !t) return undefined;
    const other = otherSideAt(x, t);
    if (other)
      return put(
        "wrong-side",
        "act",
        `The readings fit an oscillator on its other side on ${other}: it then can't be set at one end without losing the other.`,
        `Take the other setting of the trimmer there, the one with ${x.oscillator === "above" ? "less" : "more"} capacitance; prove it with a generator two IF away (the sheet on images); then read both marks again.`,
        ["left", "coilOff", "trimmerOff"],
      );
    if (found.leftHz > unexplained * x.readingNoise)
      return put(
        "unexplained",
        "check",
        `Coil, trimmer and padder together leave ${g.about("left")} unexplained: more than reading errors do.`,
        "Look first at what no adjustment mends: bandspread plates in mesh, the pointer off its mark at full mesh, a marker taken for its neighbour, bent plates.",
        ["left"],
      );
    const parts = (
      [
        ["coil", found.coil, "slug, at the low end"],
        ["trimmer", found.trimmer, "trimmer, at the high end"],
        ["padder", found.padder, "padder, or the coil where the padder is fixed"],
      ] as const
    ).filter(([, off]) => isSure(off));
    if (parts.length === 0)
      return put(
        "none-sure",
        "check",
        "The readings can't tell which part is off: each may be right.",
        "Read both ends and a third mark in the middle, each several times: less reading noise tells more.",
        ["coilOff", "trimmerOff", "padderOff"],
      );
    const slug = g.figures.slugTurns.low !== null;
    const trimmer = g.figures.trimmerTurns.low !== null;
    const turns =
      slug || trimmer
        ? `By your trials that is ${[...(slug ? [`${g.about("slugTurns")} turns of the slug`] : []), ...(trimmer ? [`${g.about("trimmerTurns")} turns of the trimmer`] : [])].join(" and ")}, clockwise positive.`
        : "Which way and how many turns is not known yet: make one trial of a quarter turn of each, read the same two marks again, and record it.";
    put(
      parts.map(([n]) => n).join("-"),
      "act",
      `${parts.map(([n, off]) => sayOff(n, off)).join("; ")}. ${assumed}`,
      `Begin with the ${parts[0][2]}. Both at once, set at ${marks[0]} and ${marks[1]}: coil by ${g.about("slugBy")}, ${trimmerSaid()}; then the dial is right within ${g.about("afterwards")}. ${turns}`,
      ["coilOff", "trimmerOff", "padderOff", "slugBy", "trimmerBy"],
    );
    if (parts.some(([n, [v]]) => n === "trimmer" && v > 0) && found.trimmer[0] * (t.parts?.trimmerF ?? 0) > 6e-12)
      put(
        "meshed",
        "check",
        `There are ${printValue(found.trimmer[0] * (t.parts?.trimmerF ?? 0), "capacitance", 0.5e-12)} too many across the gang: bandspread plates in mesh do just that, and then the low end can be set and the high end never.`,
        "Set the bandspread to its own mark, plates usually fully open, before any trimmer is touched.",
        ["trimmerOff"],
      );
    const slugOut = g.verdict((i, y) => Math.abs(y.slugBy) > i.slugRange);
    const trimmerOut = g.verdict((i, y) => Math.abs(y.trimmerBy) > i.trimmerTravel);
    if (slugOut !== "no" || trimmerOut !== "no")
      put(
        `out-of-range-${slugOut}-${trimmerOut}`,
        slugOut === "yes" || trimmerOut === "yes" ? "act" : "check",
        `${slugOut !== "no" ? `The slug would have to change the coil by ${g.about("slugBy")}, ${slugOut === "yes" ? "more" : "perhaps more"} than it can. ` : ""}${trimmerOut !== "no" ? `The trimmer would have to change by ${g.about("trimmerBy")}, ${trimmerOut === "yes" ? "more" : "perhaps more"} than it can. ` : ""}Turning on never brings it right.`,
        found.coil[0] < -0.08
          ? "A coil that has lost so much inductance has shorted turns or a broken slug. Power off, discharged and measured: its ohms against its neighbours', and its Q."
          : "Power off, discharged and measured: look for what was added or changed, a lead to an accessory, a replaced padder, a wrong tube, a slug that is broken.",
        ["slugBy", "trimmerBy"],
      );
    return undefined;
  }
  /** The trimmer's part of it: nothing where it is less than a screwdriver can do, or its direction not known. */
  function trimmerSaid(): string {
    const { low, high, value } = g.figures.trimmerBy;
    return Math.abs(value ?? 0) < 0.3e-12 || (low ?? 0) * (high ?? 0) < 0 ? "the trimmer left alone" : `trimmer by ${g.about("trimmerBy")}`;
  }
  function signal(): void {
    if (!t) return;
    const s = blameSignal(x, t);
    if (!s) return;
    const sure = (
      [
        ["signal coil", s.coil],
        ["signal trimmer", s.trimmer],
      ] as const
    ).filter(([, off]) => isSure(off));
    if (sure.length > 0)
      put(
        `signal-${sure.map(([n]) => n.split(" ")[1]).join("-")}`,
        "act",
        `${sure.map(([n, off]) => sayOff(n, off)).join("; ")}. Assumed: the gang's sections alike, and that the peak is not the image's.`,
        `Oscillator first, since the dial follows it alone. Then coil or slug at ${marks[0]}, trimmer at ${marks[1]}, twice, with the tuning rocked; a trial of a quarter turn tells which way.`,
        ["signalCoilOff", "signalTrimmerOff"],
      );
    else
      put("signal-none-sure", "note", "The signal circuit peaks where it should, as far as these readings tell.", undefined, [
        "signalCoilOff",
        "signalTrimmerOff",
      ]);
  }
  function movedIf(): void {
    if (x.ifMoved === 0) return;
    const fits = g.verdict((i, y) => Math.abs(y.shiftSlug) <= i.slugRange && Math.abs(y.shiftTrimmer) <= i.trimmerTravel);
    put(
      `if-moved-${fits}`,
      fits === "yes" ? "act" : "check",
      `With the IF ${printValue(Math.abs(x.ifMoved), "frequency", 50)} ${x.ifMoved > 0 ? "up" : "down"} every mark receives ${printValue(Math.abs(x.ifMoved), "frequency", 50)} ${(g.figures.dialShift.value ?? 0) > 0 ? "higher" : "lower"} than it says. ${g.figures.shiftSlug.low === null ? "What takes it up is not worked out here." : `Coil by ${g.about("shiftSlug")} and trimmer by ${g.about("shiftTrimmer")} take it up, within ${g.about("shiftLeft")} on this band${fits === "yes" ? "" : fits === "no" ? ": more than they can" : ", if they go so far"}.`}${x.readings.length > 0 ? " Readings that were taken after the move hold it already: then leave this at nothing, or it counts twice." : ""}`,
      fits === "no"
        ? "Leave the IF where the book has it, unless its filter can't be had otherwise; else make a correction card for the dial."
        : `Set it at ${marks[0]} and ${marks[1]} on every band; then the BFO, and the bandspread. The signal circuits hardly notice.`,
      ["dialShift", "shiftSlug", "shiftTrimmer", "shiftLeft"],
    );
  }
}
