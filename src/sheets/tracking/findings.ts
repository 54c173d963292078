import { printValue } from "../../units/print";
import type { G, Put } from "./ask";
import { aboutCost, aboutMovedIf, aboutSignal, hz, marksSaid } from "./beside";
import type { PartName } from "./blame";
import { tracked } from "./circuit";
import { aloneSaid, orGangSaid, sayOff, told, tradesSaid, type Verdict, verdictOf } from "./verdict";

/**
 * What the readings mean, the next adjustment, and why it may never come right.
 *
 * @param g inputs at their best values, and the results
 * @param put puts a finding
 * @source house rule
 */
export function findingsOf(g: G, put: Put): void {
  const t = tracked(g.best);
  if (!t) return;
  aboutDesign(g, t.parts !== undefined, put);
  const v = verdictOf(g);
  if (v) aboutOscillator(g, v, put);
  aboutSignal(g, put);
  aboutMovedIf(g, put);
  aboutCost(g, put);
}

function aboutDesign({ best: x }: G, hasParts: boolean, put: Put): void {
  if (x.high / x.low < 1.3)
    put(
      "tracking-bandspread",
      "check",
      "This range is much narrower than a gang of that size covers: a bandspread section or fixed capacitors do it, and the parts above are not this set's.",
      {
        do: "Enter the capacitance of the bandspread section itself for both ends of the gang, or ask about the general-coverage band that it lies on.",
        restsOn: ["worst", "coil", "trimmer"],
        state: "desk",
      },
    );
  if (!hasParts)
    put(
      "tracking-no-parts",
      "check",
      x.oscillator === "below"
        ? "With the oscillator below the signal it is the oscillator that covers the wider range: a padder belongs in the signal circuit, and which part is off is not worked out for that here."
        : "No positive parts make this curve on this gang: one of its ends, or the band's, is not as entered.",
      { restsOn: ["worst"] },
    );
}

const offNames = ["coilOff", "trimmerOff", "padderOff"] as const;
function aboutOscillator(g: G, v: Verdict, put: Put): void {
  const x = g.best;
  switch (v.kind) {
    case "wrong-side":
      put(
        "tracking-wrong-side",
        "act",
        `The readings fit an oscillator on its other side on ${v.where}: it then can't be set at one end without losing the other.`,
        {
          do: `Take the other setting of the trimmer there, the one with ${x.oscillator === "above" ? "less" : "more"} capacitance; prove it with a generator two IF away (the sheet on images); then read both marks again.`,
          restsOn: ["left", "coilOff", "trimmerOff"],
        },
      );
      break;
    case "unexplained":
      put(
        "tracking-unexplained",
        "check",
        `Coil, trimmer and padder together leave ${hz(g.figures.left.value ?? 0, x.readingNoise * Math.sqrt(x.low * x.high))} unexplained: more than reading errors do.`,
        {
          do: "Look first at what no adjustment mends: bandspread plates in mesh, the pointer off its mark at full mesh, a marker mistaken for its neighbour, bent plates.",
          restsOn: ["left"],
        },
      );
      break;
    case "nothing-off":
      put(
        "tracking-right",
        "note",
        "Every mark read is where the dial says, within the reading errors. Leave slug, trimmer and padder as they are.",
        { restsOn: offNames },
      );
      break;
    case "none-sure":
      put(
        "tracking-none-sure",
        "check",
        `The dial's marks are off, but which part is at fault is open.${aloneSaid(v.alone)} ${tradesSaid(v.trades)}`.trim(),
        {
          do: `Read both ends and a third mark in the middle, each several times. Whichever it is, slug and trimmer bring ${marksSaid(g).join(" and ")} right: ${adjustmentSaid(g)}.`,
          restsOn: offNames,
        },
      );
      break;
    case "parts":
      aboutParts(g, v, put);
  }
}

const knob: Record<PartName, string> = {
  coil: "slug, at the low end",
  trimmer: "trimmer, at the high end",
  padder: "padder, or the coil where the padder is fixed",
};
/** More than this across the gang is more than a trimmer drifts by: plates in mesh. Common practice, no source. */
const meshedF = 6e-12;
function aboutParts(g: G, { parts, orGang, trades }: Verdict & { readonly kind: "parts" }, put: Put): void {
  const x = g.best;
  const assumed = `Assumed: the gang as entered above, give or take ${printValue(x.gangDoubt, "capacitance")}, the IF at ${hz(x.intermediate, 100)}, the dial drawn to the ${x.dialDrawnTo}${x.readings.length < 3 && x.padderLayout !== "no padder" ? ", and the padder near its value" : ""}.`;
  const meshed = parts.includes("trimmer") && (g.figures.acrossOff.value ?? 0) > meshedF;
  const sure = parts.map((n) => sayOff(n, g.figures[told[n]])).join("; ");
  const open = tradesSaid(trades);
  if (meshed)
    put(
      "tracking-meshed",
      "act",
      `There is ${g.about("acrossOff")} too much across the gang: bandspread plates in mesh do just that, and then the low end can be set but never the high end.`,
      {
        do: "Before any trimmer is touched set the bandspread to its own mark, plates usually fully open, and read the marks again.",
        restsOn: ["acrossOff"],
        state: "panel",
      },
    );
  put(
    `tracking-${parts.join("-")}`,
    meshed || orGang ? "check" : "act",
    `${sure}.${orGangSaid(g, orGang)} ${open === "" ? "" : `${open} `}${assumed}`,
    {
      do: `${onlyWhere(meshed, orGang)} with the ${knob[parts[0]]}. Both at once, set at ${marksSaid(g).join(" and ")}: ${adjustmentSaid(g)}; then the dial is right within ${g.about("afterwards")}. ${turnsSaid(g)}`,
      restsOn: [...offNames, "slugBy", "trimmerBy"],
    },
  );
  aboutRange(g, orGang, put);
}
/** What comes before any screw is turned. */
function onlyWhere(meshed: boolean, orGang: boolean): string {
  const gang = "Turn nothing yet. Look at the gang: plates bent or leaning, the rotor shifted on its shaft, the pointer off its mark. ";
  if (meshed) return `${orGang ? gang : ""}Only if it stays so with the bandspread at its mark: begin`;
  return orGang ? `${gang}Only if it is straight: begin` : "Begin";
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
function aboutRange(g: G, orGang: boolean, put: Put): void {
  const slugOut = g.verdict((i, y) => Math.abs(y.slugBy) > i.slugRange);
  const trimmerOut = g.verdict((i, y) => Math.abs(y.trimmerBy) > i.trimmerTravel);
  if (slugOut === "no" && trimmerOut === "no") return;
  const more = (v: string): string => (v === "yes" ? "more" : "perhaps more");
  put(
    `tracking-out-of-range-${slugOut}-${trimmerOut}`,
    !orGang && (slugOut === "yes" || trimmerOut === "yes") ? "act" : "check",
    `${slugOut !== "no" ? `The slug would have to change the coil by ${g.about("slugBy")}, ${more(slugOut)} than it can. ` : ""}${trimmerOut !== "no" ? `The trimmer would have to change by ${g.about("trimmerBy")}, ${more(trimmerOut)} than it can. ` : ""}No amount of turning will put it right.`,
    {
      do:
        (g.figures.coilOff.high ?? 0) < -0.08
          ? "A coil that has lost so much inductance has shorted turns or a broken slug. Power off, discharged and measured: its ohms against its neighbours', and its Q."
          : "Power off, discharged and measured: look for what was added or changed, a lead to an accessory, a replaced padder, a wrong tube, a slug that is broken.",
      restsOn: ["slugBy", "trimmerBy"],
      state: "open-dead",
    },
  );
}
