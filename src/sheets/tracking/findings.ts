import { inside } from "../../ask/declare";
import type { Finding } from "../../ask/findings";
import type { State } from "../../standards/cautions";
import { printValue } from "../../units/print";
import { marksOf } from "./adjust";
import type { PartName } from "./blame";
import { tracked } from "./circuit";
import type { TrackingNames } from "./results";
import { aloneSaid, type G, isSure, orGangSaid, sayOff, told, tradesSaid, type Verdict, verdictOf } from "./verdict";

const hz = (v: number, u: number): string => printValue(v, "frequency", u);
const marksSaid = (g: G): string[] => marksOf(g.best).map((f) => hz(f, f / 200));
const finding = (
  id: string,
  severity: Finding["severity"],
  says: string,
  todo: string | undefined,
  restsOn: readonly TrackingNames[],
  state?: State,
): Finding => ({
  id: `tracking-${id}`,
  severity,
  says,
  ...(todo ? { do: todo } : {}),
  restsOn,
  hazards: todo ? inside : ["none"],
  ...(state ? { state } : {}),
});

/** What the readings mean, the next adjustment, and why it may never come right. */
export function findingsOf(g: G): Finding[] {
  const t = tracked(g.best);
  if (!t) return [];
  const v = verdictOf(g);
  return [
    ...aboutDesign(g, t.parts !== undefined),
    ...(v ? aboutOscillator(g, v) : []),
    ...aboutSignal(g),
    ...aboutMovedIf(g),
    ...costs(g),
  ];
}

function aboutDesign(g: G, hasParts: boolean): Finding[] {
  const x = g.best;
  return [
    ...(x.high / x.low < 1.3
      ? [
          finding(
            "bandspread",
            "check",
            "This range is much narrower than a gang of that size covers: a bandspread section or fixed capacitors do it, and the parts above are not this set's.",
            "Enter the capacitance of the bandspread section itself for gangLow and gangHigh, or ask about the general-coverage band that it lies on.",
            ["worst", "coil", "trimmer"],
            "desk",
          ),
        ]
      : []),
    ...(hasParts
      ? []
      : [
          finding(
            "no-parts",
            "check",
            x.oscillator === "below"
              ? "With the oscillator below the signal it is the oscillator that covers the wider range: a padder belongs in the signal circuit, and which part is off is not worked out for that here."
              : "No positive parts make this curve on this gang: one of its ends, or the band's, is not as entered.",
            undefined,
            ["worst"],
          ),
        ]),
  ];
}

function aboutOscillator(g: G, v: Verdict): Finding[] {
  const x = g.best;
  switch (v.kind) {
    case "wrong-side":
      return [
        finding(
          "wrong-side",
          "act",
          `The readings fit an oscillator on its other side on ${v.where}: it then can't be set at one end without losing the other.`,
          `Take the other setting of the trimmer there, the one with ${x.oscillator === "above" ? "less" : "more"} capacitance; prove it with a generator two IF away (the sheet on images); then read both marks again.`,
          ["left", "coilOff", "trimmerOff"],
        ),
      ];
    case "unexplained":
      return [
        finding(
          "unexplained",
          "check",
          `Coil, trimmer and padder together leave ${hz(g.figures.left.value ?? 0, x.readingNoise)} unexplained: more than reading errors do.`,
          "Look first at what no adjustment mends: bandspread plates in mesh, the pointer off its mark at full mesh, a marker taken for its neighbour, bent plates.",
          ["left"],
        ),
      ];
    case "nothing-off":
      return [
        finding(
          "right",
          "note",
          "Every mark read is where the dial says, within the reading errors. Leave slug, trimmer and padder as they are.",
          undefined,
          ["coilOff", "trimmerOff", "padderOff"],
        ),
      ];
    case "none-sure":
      return [
        finding(
          "none-sure",
          "check",
          `The marks are received off what they say, but which part is at fault is open.${aloneSaid(v.alone)} ${tradesSaid(v.trades)}`.trim(),
          `Read both ends and a third mark in the middle, each several times. Whichever it is, slug and trimmer bring ${marksSaid(g).join(" and ")} right: ${adjustmentSaid(g)}.`,
          ["coilOff", "trimmerOff", "padderOff"],
        ),
      ];
    case "parts":
      return partsFindings(g, v.parts, v.orGang, tradesSaid(v.trades));
  }
}

const knob: Record<PartName, string> = {
  coil: "slug, at the low end",
  trimmer: "trimmer, at the high end",
  padder: "padder, or the coil where the padder is fixed",
};
/** More than this across the gang is more than a trimmer drifts by: plates in mesh. Common practice, no source. */
const meshedF = 6e-12;
function partsFindings(g: G, parts: readonly PartName[], orGang: boolean, trades: string): Finding[] {
  const x = g.best;
  const assumed = `Assumed: the gang as it stands above give or take ${printValue(x.gangDoubt, "capacitance")}, the IF at ${hz(x.intermediate, 100)}, the dial drawn to the ${x.dialDrawnTo}${x.readings.length < 3 && x.padderLayout !== "no padder" ? ", and the padder near its value" : ""}.`;
  const meshed = parts.includes("trimmer") && (g.figures.acrossOff.value ?? 0) > meshedF;
  const sure = parts.map((n) => sayOff(n, g.figures[told[n]])).join("; ");
  return [
    ...(meshed
      ? [
          finding(
            "meshed",
            "act",
            `There is ${g.about("acrossOff")} too much across the gang: bandspread plates in mesh do just that, and then the low end can be set but never the high end.`,
            "Before any trimmer is touched set the bandspread to its own mark, plates usually fully open, and read the marks again.",
            ["acrossOff"],
            "panel",
          ),
        ]
      : []),
    finding(
      parts.join("-"),
      meshed || orGang ? "check" : "act",
      `${sure}.${orGangSaid(g, orGang)} ${trades === "" ? "" : `${trades} `}${assumed}`,
      `${onlyWhere(meshed, orGang)} with the ${knob[parts[0]]}. Both at once, set at ${marksSaid(g).join(" and ")}: ${adjustmentSaid(g)}; then the dial is right within ${g.about("afterwards")}. ${turnsSaid(g)}`,
      ["coilOff", "trimmerOff", "padderOff", "slugBy", "trimmerBy"],
    ),
    ...outOfRange(g, orGang),
  ];
}
/** What comes before any screw is turned. */
function onlyWhere(meshed: boolean, orGang: boolean): string {
  const gang = "Turn nothing yet. Look at the gang: plates bent or leaning, the rotor shifted on its shaft, the pointer off its mark. ";
  if (meshed) return `${orGang ? gang : ""}Only where it stays so with the bandspread at its mark: begin`;
  return orGang ? `${gang}Only where it is straight: begin` : "Begin";
}
function turnsSaid(g: G): string {
  const known = (
    [
      ["slugTurns", "slug"],
      ["trimmerTurns", "trimmer"],
    ] as const
  ).filter(([n]) => g.figures[n].low !== null);
  return known.length === 0
    ? "Which way and how many turns is not known yet: make one trial of a quarter turn of each, read the same two marks again, and record it."
    : `By your trials that is ${known.map(([n, name]) => `${g.about(n)} turns of the ${name}`).join(" and ")}, clockwise positive.`;
}
/** Slug and trimmer of the next adjustment: left alone where it is less than a screwdriver can do, or its direction is not known. */
function adjustmentSaid(g: G): string {
  const by = (n: "slugBy" | "trimmerBy", name: string, least: number): string => {
    const { low, high, value } = g.figures[n];
    return Math.abs(value ?? 0) < least || (low ?? 0) * (high ?? 0) < 0 ? `the ${name} left alone` : `${name} by ${g.about(n)}`;
  };
  return `${by("slugBy", "coil", 5e-4)}, ${by("trimmerBy", "trimmer", 0.3e-12)}`;
}
function outOfRange(g: G, orGang: boolean): Finding[] {
  const slugOut = g.verdict((i, y) => Math.abs(y.slugBy) > i.slugRange);
  const trimmerOut = g.verdict((i, y) => Math.abs(y.trimmerBy) > i.trimmerTravel);
  if (slugOut === "no" && trimmerOut === "no") return [];
  const more = (v: string): string => (v === "yes" ? "more" : "perhaps more");
  return [
    finding(
      `out-of-range-${slugOut}-${trimmerOut}`,
      !orGang && (slugOut === "yes" || trimmerOut === "yes") ? "act" : "check",
      `${slugOut !== "no" ? `The slug would have to change the coil by ${g.about("slugBy")}, ${more(slugOut)} than it can. ` : ""}${trimmerOut !== "no" ? `The trimmer would have to change by ${g.about("trimmerBy")}, ${more(trimmerOut)} than it can. ` : ""}More turning never brings it right.`,
      (g.figures.coilOff.high ?? 0) < -0.08
        ? "A coil that has lost so much inductance has shorted turns or a broken slug. Power off, discharged and measured: its ohms against its neighbours', and its Q."
        : "Power off, discharged and measured: look for what was added or changed, a lead to an accessory, a replaced padder, a wrong tube, a slug that is broken.",
      ["slugBy", "trimmerBy"],
      "open-dead",
    ),
  ];
}

function aboutSignal(g: G): Finding[] {
  if (g.figures.signalCoilOff.low === null) return [];
  const sure = (
    [
      ["coil", "signalCoilOff"],
      ["trimmer", "signalTrimmerOff"],
    ] as const
  ).filter(([, n]) => isSure(g.figures[n]));
  if (sure.length === 0)
    return [
      finding("signal-none-sure", "note", "The signal circuit peaks where it should, as far as these readings tell.", undefined, [
        "signalCoilOff",
        "signalTrimmerOff",
      ]),
    ];
  const marks = marksSaid(g);
  return [
    finding(
      `signal-${sure.map(([n]) => n).join("-")}`,
      "act",
      `${sure.map(([n, r]) => sayOff(`signal ${n}`, g.figures[r])).join("; ")}. Assumed: the gang's sections alike, and that the peak is not the image's.`,
      `Oscillator first, since the dial follows it alone. Then coil or slug at ${marks[0]}, trimmer at ${marks[1]}, twice, with the tuning rocked; a trial of a quarter turn tells which way.`,
      ["signalCoilOff", "signalTrimmerOff"],
    ),
  ];
}

function aboutMovedIf(g: G): Finding[] {
  const x = g.best;
  if (x.ifMoved === 0) return [];
  const fits = g.verdict((i, y) => Math.abs(y.shiftSlug) <= i.slugRange && Math.abs(y.shiftTrimmer) <= i.trimmerTravel);
  const by = hz(Math.abs(x.ifMoved), 50);
  const reach = { yes: "", no: ": more than they can", open: ", if they go so far" }[fits];
  const taken =
    g.figures.shiftSlug.low === null
      ? "What would correct it is not worked out here."
      : `Coil by ${g.about("shiftSlug")} and trimmer by ${g.about("shiftTrimmer")} correct it, within ${g.about("shiftLeft")} on this band${reach}.`;
  return [
    finding(
      `if-moved-${fits}`,
      fits === "yes" ? "act" : "check",
      `With the IF ${by} ${x.ifMoved > 0 ? "up" : "down"} every mark receives ${by} ${(g.figures.dialShift.value ?? 0) > 0 ? "higher" : "lower"} than it says. ${taken}${x.readings.length > 0 ? " Readings that were taken after the move hold it already: then leave the shift at zero, or it counts twice." : ""}`,
      fits === "no"
        ? "Leave the IF where the service sheet has it, unless its filter can't be had otherwise; else make a correction card for the dial."
        : `Set it at ${marksSaid(g).join(" and ")} on every band; then the BFO, and the bandspread. The signal circuits hardly notice.`,
      ["dialShift", "shiftSlug", "shiftTrimmer", "shiftLeft"],
    ),
  ];
}
function costs(g: G): Finding[] {
  const much = g.verdict((_, y) => y.worstLoss > 3);
  return much === "no"
    ? []
    : [
        finding(
          `costs-${much}`,
          "check",
          `Even with every part right the signal circuit is off its peak by up to ${g.say("worstLoss")} somewhere on the band.`,
          "That is the design: peak the signal trimmer where you listen most.",
          ["worstLoss"],
        ),
      ];
}
